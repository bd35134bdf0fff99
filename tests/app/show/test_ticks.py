"""The mass axis: balls of the rack first, round masses where there is room."""

from itertools import pairwise

from app.show.ticks import mass_ticks


def straight(mass_g: float) -> float:
    """A pixel to the gram."""
    return mass_g


def test_every_ball_of_the_rack_that_has_room_is_written():
    ticks = mass_ticks([145, 95, 210, 360], (80, 400), straight, 30)
    assert [tick.mass_g for tick in ticks if tick.rack] == [95, 145, 210, 360]


def test_of_two_balls_too_near_the_first_named_is_written():
    ticks = mass_ticks([145, 125, 160], (80, 400), straight, 30)
    assert [tick.mass_g for tick in ticks if tick.rack] == [145]


def test_round_masses_fill_the_gaps_and_keep_clear():
    ticks = mass_ticks([145], (80, 400), straight, 30)
    masses = [tick.mass_g for tick in ticks]
    assert {200, 300, 400} <= set(masses)
    assert all(after - before >= 30 for before, after in pairwise(masses))
    assert masses == sorted(masses)


def test_nothing_is_written_outside_the_axis():
    ticks = mass_ticks([145, 470], (80, 400), straight, 30)
    assert all(80 <= tick.mass_g <= 400 for tick in ticks)


def test_an_axis_of_few_grams_has_ticks_too():
    assert len(mass_ticks([145], (2, 9), lambda mass_g: 100 * mass_g, 30)) >= 3
