"""The map in the reader's units: what is said, what stands on the axes."""

import pytest

from app.pages.map.figure import map_figure
from app.pages.map.table import looked_table, speeds_table
from app.pages.map.words import figure_note, looked_words, notes
from app.show.palette import THEMES
from app.show.ticks import MOST_SPEEDS, speed_ticks
from app.units.systems import CUSTOMARY, METRIC


@pytest.fixture
def made(make_map):
    """The same map in both systems."""
    return [
        make_map(system=system, ball_mass_kg="275", ball_speed_m_s="28.5", mass_from_kg="80")
        for system in (METRIC, CUSTOMARY)
    ]


def test_the_map_is_the_same_and_the_words_around_it_are_in_the_readers_units(made):
    metric, customary = made
    assert customary.window == metric.window
    assert customary.value == metric.value
    for said in (
        looked_words,
        figure_note,
        lambda a: str(notes(a)),
        lambda a: str([*looked_table(a), speeds_table(a)]),
    ):
        words = said(customary)
        assert not any(unit in words for unit in (" m/s", " g ", " g,", " mm", " kg")), words
    assert looked_words(customary).startswith("9.7 oz at 63.8 mph, ")


def test_the_axes_run_as_before_and_their_ticks_are_in_ounces_and_miles_per_hour(made):
    metric, customary = (map_figure(answer, THEMES["light"]) for answer in made)
    assert [t["x"] for t in customary["data"]] == [t["x"] for t in metric["data"]]
    mass, speed = customary["layout"]["xaxis"], customary["layout"]["yaxis"]
    assert mass["range"] == metric["layout"]["xaxis"]["range"]
    assert mass["title"]["text"] == "ball mass, oz"
    own = mass["ticktext"].index("<b>5.11</b>")
    assert mass["tickvals"][own] == pytest.approx(145.0, rel=1e-9)
    for place, text in zip(speed["tickvals"], speed["ticktext"], strict=True):
        assert place == pytest.approx(float(text) * 0.44704, rel=1e-12)
    assert "nticks" in metric["layout"]["yaxis"]


@pytest.mark.parametrize(("low", "high"), [(44.7, 89.5), (2.3, 134.0), (60.0, 63.0)])
def test_speed_ticks_are_round_inside_the_axis_and_not_too_many(low, high):
    ticks = speed_ticks(low, high)
    assert 2 <= len(ticks) <= MOST_SPEEDS
    assert all(low <= tick <= high and tick == round(tick) for tick in ticks)
