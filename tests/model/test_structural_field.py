"""What is not known of how an athlete moves: drawn as large as was fitted, once for all throws, and by a fixed seed."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.band_table import KEYS, stored_band
from model.structural_field import DRAWS, Place, bent, deviates, evenly, field, is_claimed, place_of, slopes

PEAK, RISE, WIDTH = ("varus", "peak"), ("varus", "rise_rate"), ("varus", "half_height_s")
OWN = Place(0.0, 0.0, 0.0, 0.0, False)
FITTED = [key for key, spread in stored_band().items() if spread.solves]


def at(x: float, y: float) -> Place:
    return Place(x, y, x, y, False)


@pytest.mark.parametrize("key", FITTED, ids="|".join)
def test_the_draws_are_as_large_as_the_band_says(key):
    """S about zero: the mean is taken off and its size put back as spread. The draws fill each factor evenly: 3 %."""
    spread = stored_band()[key]
    x, y = slopes(key)
    assert (x.mean(), y.mean()) == pytest.approx((0.0, 0.0), abs=0.02 * max(spread.size_x, spread.size_y))
    assert x.std() == pytest.approx(spread.size_x, rel=0.05)
    assert y.std() == pytest.approx(spread.size_y, rel=0.05)


@pytest.mark.parametrize("key", [PEAK, RISE, ("varus", "area"), ("varus", "loaded_s")], ids="|".join)
def test_a_difference_is_as_wide_as_the_closed_form(key):
    """The parts in x and in y share nothing: (S_x dx)2 + (S_y dy)2; three in a hundred for 2 048 draws."""
    spread = stored_band()[key]
    for x, y in ((0.2, 0.0), (0.0, -0.3), (0.19, -0.14), (0.4, -0.3)):
        found = field(key, at(x, y), OWN).std()
        assert found == pytest.approx(np.hypot(spread.size_x * x, spread.size_y * y), rel=0.06)


def test_what_coincides_does_not_differ_and_the_order_turns_the_sign():
    one, other = at(0.2, -0.1), at(0.05, -0.4)
    assert np.all(field(PEAK, one, one) == 0.0)
    assert np.array_equal(field(PEAK, one, other), -field(PEAK, other, one))


def test_only_differences_count():
    shifted = [replace(at(x + 0.05, y - 0.1)) for x, y in ((0.2, -0.1), (0.0, 0.0))]
    assert field(PEAK, *shifted) == pytest.approx(field(PEAK, at(0.2, -0.1), OWN), abs=1e-12)


def test_the_same_question_has_the_same_answer_and_another_athlete_another():
    slopes.cache_clear()
    first = slopes(PEAK)[0]
    slopes.cache_clear()
    assert np.array_equal(first, slopes(PEAK)[0])
    assert abs(np.corrcoef(first, slopes(PEAK, stream=1)[0])[0, 1]) < 0.1


def test_a_readout_of_one_athlete_goes_with_the_others_as_the_mechanics_say():
    """Who adapts to a heavy ball: lower, gentler and broader at once."""
    peak, rise, width = (slopes(key)[0] for key in (PEAK, RISE, WIDTH))
    assert np.corrcoef(peak, rise)[0, 1] > 0.8
    assert np.corrcoef(peak, width)[0, 1] < -0.3
    # in y the duration parts the times from the rise
    assert np.corrcoef(slopes(RISE)[1], slopes(WIDTH)[1])[0, 1] < -0.5


def test_numbers_fill_evenly_and_no_two_go_together():
    assert np.array_equal(np.sort(evenly("share")), (np.arange(DRAWS) + 0.5) / DRAWS)
    assert deviates("alpha").std() == pytest.approx(1.0, abs=0.005)
    assert abs(np.corrcoef(deviates("alpha"), deviates("lack"))[0, 1]) < 0.08
    with pytest.raises(ValueError, match="read-only"):
        deviates("alpha")[0] = 1.0


@given(st.lists(st.floats(-3.0, 3.0), min_size=2, max_size=20, unique=True))
def test_beyond_what_was_solved_it_goes_on_growing_ever_more_slowly(values):
    u = np.sort(values)
    found = bent(u, -0.5, 0.4)
    assert (np.diff(found) > 0.0).all() or np.diff(u).min() < 1e-9
    assert (np.abs(found) <= np.abs(u) + 1e-12).all()
    inside = (u >= -0.5) & (u <= 0.4)
    assert np.array_equal(found[inside], u[inside])


def test_places_of_throws():
    mu = 0.5
    place = place_of(0.275, 28.5, 0.145, mu, 33.0)
    assert (place.x, place.y) == pytest.approx((np.log(0.775 / 0.645), np.log(28.5 / 33.0)))
    assert (place.bent_x, place.bent_y, place.outside) == (place.x, place.y, False)
    assert not place_of(0.470, 33.0, 0.145, mu, 33.0).outside
    for mass, speed in ((0.480, 33.0), (0.090, 33.0), (0.275, 19.9)):
        assert place_of(mass, speed, 0.145, mu, 33.0).outside
    heavy = place_of(0.800, 33.0, 0.145, mu, 33.0)
    assert np.log(0.97 / 0.645) < heavy.bent_x < heavy.x


def test_too_little_known_is_not_claimed_across_masses():
    heavy, slow = at(0.2, 0.0), at(0.0, -0.2)
    assert is_claimed(PEAK, heavy, OWN)
    abduction = ("horizontal_abduction", "peak")
    assert stored_band()[abduction].size_x > 1.0
    assert not is_claimed(abduction, heavy, OWN)
    assert is_claimed(abduction, slow, OWN)
    unsolved = next(key for key in KEYS if not stored_band()[key].solves)
    assert not is_claimed(unsolved, heavy, OWN)
    assert is_claimed(unsolved, OWN, OWN)
    assert np.all(field(unsolved, heavy, OWN) == 0.0)
