"""Labels stand apart, in order, inside the figure, and clear of the curves."""

import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.show.label_column import find_column, spread

places = st.lists(st.floats(-50.0, 450.0), min_size=1, max_size=8)


@given(places)
def test_labels_keep_their_distance_their_order_and_their_bounds(wanted):
    found = spread(wanted, 20.0, 10.0, 390.0)
    assert len(found) == len(wanted)
    assert all(10.0 - 1e-9 <= place <= 390.0 + 1e-9 for place in found)
    in_order = [found[i] for i in sorted(range(len(wanted)), key=lambda i: wanted[i])]
    assert all(b - a >= 20.0 - 1e-9 for a, b in itertools.pairwise(in_order))


def test_labels_that_are_apart_already_stay():
    assert spread([100.0, 50.0, 200.0], 20.0, 0.0, 400.0) == (100.0, 50.0, 200.0)


def test_two_at_the_same_place_move_half_the_distance_each():
    assert spread([100.0, 100.0], 20.0, 0.0, 400.0) == (90.0, 110.0)


def test_a_group_is_centred_on_the_mean_of_its_wanted_places():
    # wanted 100, 104, 108 at a distance of 20: mean 104, so 84, 104, 124
    assert spread([100.0, 104.0, 108.0], 20.0, 0.0, 400.0) == pytest.approx((84.0, 104.0, 124.0))


def test_what_does_not_fit_moves_closer_together():
    assert spread([5.0] * 5, 20.0, 0.0, 40.0) == pytest.approx((0.0, 10.0, 20.0, 30.0, 40.0))


def test_no_labels_no_places():
    assert spread([], 20.0, 0.0, 40.0) == ()


def flat(y: float, x0: float, x1: float) -> np.ndarray:
    return np.array([[x0, y], [x1, y]])


def test_the_column_goes_to_the_side_where_there_is_nothing():
    peak = (300.0, 100.0)
    left_taken = find_column([peak], [flat(100.0, 0.0, 300.0)], 80.0, 18.0, (600.0, 400.0))
    right_taken = find_column([peak], [flat(100.0, 300.0, 600.0)], 80.0, 18.0, (600.0, 400.0))
    assert left_taken.right
    assert not right_taken.right


def test_a_free_column_is_the_nearest_one():
    column = find_column([(300.0, 100.0)], [flat(300.0, 0.0, 600.0)], 80.0, 18.0, (600.0, 400.0))
    assert abs(column.x - 300.0) == pytest.approx(16.0)


def test_a_label_does_not_stand_on_a_curve_that_it_can_avoid():
    peak, label_width = (300.0, 100.0), 80.0
    curve = flat(100.0, 290.0, 420.0)  # runs on to the right of the peak for a while; to the left all is taken
    column = find_column([peak], [curve, flat(100.0, 0.0, 300.0)], label_width, 18.0, (600.0, 400.0))
    assert column.right
    assert column.x >= 420.0


def test_where_there_is_no_room_at_all_the_wider_side_is_taken():
    assert find_column([(20.0, 50.0)], [flat(90.0, 0.0, 100.0)], 200.0, 18.0, (100.0, 100.0)).right
    assert not find_column([(80.0, 50.0)], [flat(90.0, 0.0, 100.0)], 200.0, 18.0, (100.0, 100.0)).right
