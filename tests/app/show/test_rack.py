"""The balls of the rack, to be chosen from."""

import pytest

from app.show.from_records import case_of
from app.show.rack import balls_in, boxes_of, left_out, masses_of, picked_texts, rack_of
from app.units.systems import CUSTOMARY, METRIC
from tests.app.kept_demo import TODAY, kept

MASSES = ["95", "125", "145", "160", "210", "275", "360", "470"]  # demo_data/rack.csv


@pytest.fixture(scope="module")
def cases():
    return [case_of(kept(), TODAY, system) for system in (METRIC, CUSTOMARY)]


def test_the_rack_holds_each_ball_once_and_marks_the_own_one(cases):
    labels = [one["label"] for one in rack_of(cases[0])]
    assert labels.count("145 g, 73 mm, own ball") == 1
    assert len(labels) == len(MASSES)
    assert masses_of(cases[0]) == masses_of(cases[1]) == MASSES


def test_a_picked_ball_is_read_back_and_nothing_else_is():
    assert picked_texts("275|73") == ("275", "73")
    for bad in (None, 3, "", "275", "1|2|3", ["275|73"]):
        assert picked_texts(bad) is None


def test_boxes_are_kept_as_the_balls_left_out_so_that_a_new_ball_is_ticked(cases):
    assert [box.value for box in boxes_of(cases[0])] == MASSES
    assert [box.label for box in boxes_of(cases[1])][2] == "5.11 oz, own ball"
    out = left_out(MASSES, ["95", "145", "275"])
    assert out == "125 160 210 360 470"
    assert [ball.mass_kg for ball in balls_in(cases[0], out)] == [0.095, 0.145, 0.275]
    assert balls_in(cases[0], "") == cases[0].rack
    assert balls_in(cases[0], " ".join(MASSES)) == ()


@pytest.mark.parametrize("bad", [None, "275", 3, {"a": 1}])
def test_whatever_the_browser_sends_of_boxes_no_ball_is_left_out_by_it(bad):
    assert left_out(bad, ["95"]) == left_out(MASSES, bad) == ""
    assert left_out([3, None, "95"], []) == "95"
