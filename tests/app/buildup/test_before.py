"""What Undo goes back to is as much as travels, and a plan each time."""

from app.buildup.before import BEFORE_BYTES, MOST_BEFORE, readable, remembered
from app.buildup.file import to_json


def test_undo_goes_back_as_far_as_a_request_can_carry():
    assert remembered(list(range(100))) == list(range(100))[-MOST_BEFORE:]
    assert remembered([None]) == [None]
    large = [{"at": i, "note": "x" * 250_000} for i in range(5)]
    assert [plan["at"] for plan in remembered(large)] == [3, 4]
    assert remembered([{}, {"note": "x" * BEFORE_BYTES}]) == [{"note": "x" * BEFORE_BYTES}]


def test_undo_passes_over_what_is_no_plan_and_takes_nothing_away_for_it(made):
    plan = to_json(made())
    assert readable([plan, 1, {"kind": 3}]) == [plan]
    assert readable([plan, None]) == [plan, None]
    assert readable([1, "x"]) == []
