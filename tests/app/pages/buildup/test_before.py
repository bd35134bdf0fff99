"""What Undo goes back to is as much as travels, and a plan each time."""

import pytest

from app.pages.buildup.before import BEFORE_BYTES, MOST_BEFORE, changed_fields, fields_back, readable, remembered
from app.pages.buildup.file import to_json
from app.pages.buildup.form import PlanForm


def test_undo_goes_back_as_far_as_a_request_can_carry():
    assert remembered(list(range(100))) == list(range(100))[-MOST_BEFORE:]
    assert remembered([None]) == [None]
    large = [{"at": i, "note": "x" * 250_000} for i in range(5)]
    assert [plan["at"] for plan in remembered(large)] == [3, 4]
    assert remembered([{}, {"note": "x" * BEFORE_BYTES}]) == [{"note": "x" * BEFORE_BYTES}]


def test_undo_passes_over_what_is_no_plan_and_takes_nothing_away_for_it(made):
    plan, none = ({"plan": kept, "form": {}} for kept in (to_json(made()), None))
    assert readable([plan, 1, {"plan": {"kind": 3}, "form": {}}, {"form": {}}]) == [plan]
    assert readable([plan, none]) == [plan, none]
    assert readable([1, "x", to_json(made())]) == []


def test_fields_go_back_to_what_they_were_unless_something_was_typed_into_them_since():
    form = PlanForm(steps="6", repeats="2")
    changed = changed_fields(form, {"steps": "15", "repeats": "2"})
    assert changed == {"steps": ["6", "15"]}
    assert fields_back(PlanForm(steps="15", repeats="3"), changed) == {"steps": "6"}
    assert fields_back(PlanForm(steps="16"), changed) == {}


@pytest.mark.parametrize("junk", [None, 3, "steps", [], {"steps": "15"}, {"steps": [3, "15"]}, {"x": ["1", ""]}])
def test_whatever_the_browser_kept_of_the_fields_nothing_else_is_set(junk):
    assert fields_back(PlanForm(steps="15"), junk) == {}
