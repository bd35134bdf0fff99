"""The limits in the reader's units, and counted one way or the other."""

from dataclasses import replace

import pytest

from app.pages.start.answers import field_for
from app.pages.start.form import ABSOLUTE, SHARE, StartForm
from app.pages.start.meant import NOTHING, counted, meant, read_written, written
from app.units.systems import CUSTOMARY, METRIC
from model.readouts import read_curves
from model.throw import Throw, curves
from tests.app.pages.start.conftest import TODAY

FORM = StartForm(speed="25", left_out="95")
RACK = ["95", "145", "275"]


@pytest.fixture(scope="module")
def field(arm):
    return field_for(FORM, arm(), TODAY)


def test_what_the_fields_are_made_from_comes_back_from_the_browser():
    assert read_written(written(FORM, CUSTOMARY, RACK)) == (FORM, CUSTOMARY)
    assert read_written({"units": 4, "form": 5}) == (NOTHING, METRIC)
    assert read_written(None) == (NOTHING, METRIC)


def test_a_speed_shown_in_miles_per_hour_is_still_the_speed_and_a_new_one_is_in_them():
    kept = written(FORM, CUSTOMARY, RACK)
    page = replace(FORM, speed="55.9")  # 25 m/s
    assert meant(page, kept, ["145", "275"]) == FORM
    assert meant(replace(page, speed="60"), kept, ["145", "275"]).speed == "60\u00a0mph"


def test_whose_arm_and_how_a_limit_is_counted_are_as_the_fields_were_made_and_boxes_tell_the_balls_left_out():
    page = replace(FORM, who="W05", elbow_peak_in=ABSOLUTE, left_out="made up")
    made = meant(page, written(FORM, METRIC, RACK), ["95"])
    assert (made.who, made.elbow_peak_in, made.left_out) == (FORM.who, SHARE, "145 275")


@pytest.mark.parametrize("bad", [None, 3, "x", [], {"rack": 3}, {"rack": [1, None]}])
def test_whatever_the_browser_sends_of_them_there_is_a_form(bad):
    assert isinstance(meant(FORM, bad, bad), StartForm)


def test_a_limit_counted_the_other_way_is_the_same_limit_by_the_reference_throws_own_curve(arm, field, start):
    case = start().case
    throw = Throw(case.person, case.own_ball, case.full_speed_m_s)
    whole = float(read_curves(curves(throw), "varus").peak)
    made = counted(FORM, {"elbow_peak": ABSOLUTE}, field)
    assert made.elbow_peak_in == ABSOLUTE
    assert float(made.elbow_peak) == pytest.approx(0.80 * whole, abs=0.1)
    back = counted(made, {"elbow_peak": SHARE}, field)
    assert float(back.elbow_peak) == pytest.approx(80.0, abs=0.2)
    assert replace(back, elbow_peak=FORM.elbow_peak) == FORM


def test_a_time_is_counted_in_ms(field, start):
    case = start().case
    whole = read_curves(curves(Throw(case.person, case.own_ball, case.full_speed_m_s)), "varus").loaded_s
    made = counted(replace(FORM, most_loaded="100"), {"most_loaded": ABSOLUTE}, field)
    assert float(made.most_loaded) == pytest.approx(1000.0 * float(whole), abs=0.6)


def test_without_a_reference_or_a_number_the_field_is_emptied_rather_than_meaning_something_else(field):
    assert counted(FORM, {"elbow_peak": ABSOLUTE}, None).elbow_peak == ""
    assert counted(replace(FORM, elbow_peak="x"), {"elbow_peak": ABSOLUTE}, field).elbow_peak == ""


@pytest.mark.parametrize("bad", [None, 3, "kg", ["absolute"], ""])
def test_what_is_no_way_of_counting_changes_nothing(field, bad):
    assert counted(FORM, {"elbow_peak": bad, "other": ABSOLUTE}, field) == FORM
