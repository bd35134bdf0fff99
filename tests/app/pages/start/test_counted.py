"""A limit counted one way or the other."""

from dataclasses import replace

import pytest

from app.pages.start.answers import field_for
from app.pages.start.counted import counted
from app.pages.start.form import ABSOLUTE, SHARE, StartForm
from model.readouts import read_curves
from model.throw import Throw, curves
from tests.app.pages.start.conftest import TODAY

FORM = StartForm(speed="25", left_out="95")


@pytest.fixture(scope="module")
def field(arm):
    return field_for(FORM, arm(), TODAY)


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
