"""The page's callbacks, called as the browser calls them, also with what no browser of ours would send."""

import json
from contextvars import copy_context

import pytest
from dash._callback_context import context_value
from dash._utils import AttributeDict
from dash.exceptions import PreventUpdate

from app.pages.buildup import callbacks, ids
from app.pages.buildup.before import read_plan
from app.pages.buildup.callbacks import CONTROLS, TYPED, athlete_for, form_of, tell
from app.pages.buildup.checks import DATES, FIELDS
from app.pages.buildup.file import to_json
from app.pages.buildup.form import PlanForm
from app.pages.buildup.form import to_json as form_json
from app.pages.buildup.kept_parts import LONGEST_NOTE
from app.pages.buildup.meant import written
from app.pages.buildup.page import layout
from app.pages.buildup.showing import UNREAD, drawn, picked
from app.show.from_start import to_json as given_json
from app.units.systems import CUSTOMARY, METRIC
from app.web.server import Config, create_app
from tests.app.pages.buildup.conftest import GIVEN, logged, text_of
from tests.app.pages.buildup.conftest import athlete_for as of_demo

LOOK = {"theme": "light", "units": "metric", "width": 700}
JUNK = [None, "", "x" * 5000, 3, [1], {"a": 1}, True]


@pytest.fixture(scope="module")
def app():
    return create_app(Config(demo=True))


def given(values=None, system=METRIC, **more):
    values = values or {}
    return {
        "controls": {name: values.get(name, getattr(PlanForm(), name)) for name in CONTROLS},
        "days": ["0", "2", "4"],
        "balls": [],
        "boxes": [],
        "typed": [values.get(name, "") for name in TYPED],
        "typed_ids": [{"type": ids.BUILDUP_FIELD, "name": name} for name in TYPED],
        "written": written(PlanForm(), system),
    } | more


@pytest.fixture
def told(app):
    """Say what each field takes, as Dash does."""

    def run(values=None, from_start=None, **more):
        with app.server.app_context():
            return tell(given(values, **more), {}, from_start)

    return run


@pytest.fixture
def opened(app):
    """Open the page, as Dash does."""

    def run(saved=None, from_start=None):
        def change():
            context_value.set(AttributeDict(triggered_inputs=[{"prop_id": f"{ids.BUILDUP_READ}.data", "value": {}}]))
            return callbacks.change({}, "metric", [], None, from_start, given(written=None), saved)

        with app.server.app_context():
            return copy_context().run(change)

    return run


@pytest.fixture
def shown(app):
    """Show a plan, as Dash does."""

    def run(kept, code="W01", **look):
        with app.server.app_context():
            return drawn(kept, of_demo(code), LOOK | look)

    return run


def test_the_form_is_kept_as_typed_and_what_is_wrong_is_told_in_its_field(told):
    made = told({"steps": " x ", "aim": "ease_off"})
    assert made["saved"]["steps"] == " x "
    assert made["errors"][TYPED.index("steps")].startswith("Steps: “x” given")
    assert made["hints"][TYPED.index("goal_percent")] == "60"
    assert "Rest: " in text_of(made["aim"])


def test_what_is_asked_for_is_marked_so_and_the_rest_is_out_of_the_way(told):
    off = told({"aim": "after_off"})
    assert [off["hints"][TYPED.index(name)] for name in ("weeks_off", "repeats", "first_throws")] == ["asked for"] * 3
    assert (off["cleared_hidden"], off["goal_hidden"], off["start_hidden"]) == (True, True, True)
    assert told({"aim": "after_injury"})["cleared_hidden"] is False
    free = told({"aim": "fast_block"})
    assert free["hints"][TYPED.index("first_throws")] == "18"
    assert (free["goal_hidden"], free["compare_hidden"]) == (False, False)
    assert told({"aim": "in_season"})["compare_hidden"] is True
    assert (
        told({"who": "W06", "aim": "fast_block"})["cleared_hidden"] is False
    )  # its reference is from before an injury


def test_the_caution_about_growing_throwers_stands_before_anything_is_planned(told):
    made = told({"who": "W04"})
    assert made["grows_hidden"] is False
    assert "still growing" in text_of(made["grows"])
    assert "Reinold" in text_of(made["grows"])
    assert told({"who": "W01"})["grows_hidden"] is True


def test_what_came_from_start_chooses_the_athlete_once_and_is_used_for_no_other(told, opened):
    given_over = given_json(GIVEN)
    made = opened(None, given_over)
    assert made["controls"]["who"] == "W06"
    mark = made["written"]["form"]["given"]
    later = form_json(PlanForm(who="W01", given=mark))
    assert opened(later, given_over)["controls"]["who"] == "W01"  # chosen since, on this page
    shown = told({"who": "W06"}, given_over)
    said = text_of(shown["start"])
    for part in ("470 g", "41.8 %", "40 % of the reference throw’s", "95 %", "from before an injury, 2025-09-02"):
        assert part in said
    assert (shown["start_hidden"], shown["start_fields"]) == (False, False)
    other = told({"who": "W01"}, given_over)
    assert "is for W06; chosen here is W01. It is not used." in text_of(other["start"])
    assert other["start_fields"] is True
    assert told({"who": "W06"}, {"version": 9})["start_hidden"] is True


@pytest.fixture
def compared(app):
    """Compare the orders, or change the form, as Dash does."""

    def run(trigger, values, of=None):
        def call():
            context_value.set(AttributeDict(triggered_inputs=[{"prop_id": trigger, "value": 1}]))
            return callbacks.compared(1, given(values), {}, None, None, None, of)

        with app.server.app_context():
            return copy_context().run(call)

    return run


def test_orders_that_were_compared_stay_until_the_form_becomes_another(compared):
    asked = {"aim": "fast_block", "who": "W01", "first_throws": "18", "repeats": "1"}
    made = compared(f"{ids.BUILDUP_COMPARE}.n_clicks", asked)
    assert text_of(made["orders"]).count("Make this plan") == 3
    changed = f"{ids.BUILDUP_AIM}.value"
    for of in (None, made["of"]):
        with pytest.raises(PreventUpdate):
            compared(changed, asked, of)
    assert compared(changed, asked | {"steps": "9"}, made["of"]) == {"orders": [], "of": None}


def test_a_form_of_an_older_version_is_dropped(opened):
    assert opened({"version": 1, "who": "W05"})["controls"]["who"] == "compare"


def test_a_growing_thrower_begins_with_the_own_ball_and_others_choose(opened):
    assert opened(form_json(PlanForm(who="W04")))["controls"]["order"] == "own"
    assert opened(form_json(PlanForm(who="W01")))["controls"]["order"] == ""
    assert opened(form_json(PlanForm(who="W01", aim="ease_off")))["controls"]["order"] == "own"


def test_a_speed_typed_in_other_units_keeps_them(told):
    form, system = form_of(given({"cap_speed": "70"}, CUSTOMARY))
    assert form.cap_speed.split() == ["70", "mph"]
    assert system is CUSTOMARY


@pytest.mark.parametrize("bad", JUNK)
def test_whatever_stands_in_a_field_the_form_is_read(told, bad):
    for name in (*CONTROLS, *FIELDS, *DATES):
        assert told({name: bad})["saved"]["version"] == 2
    for name in ("days", "balls", "boxes"):
        assert told(**{name: bad})["saved"]["version"] == 2
    assert told(from_start=bad)["saved"]["version"] == 2


def test_balls_that_are_not_ticked_are_left_out():
    boxes = [{"props": {"value": mass}} for mass in ("95", "145", "470")]
    assert form_of(given(boxes=boxes, balls=["145"]))[0].left_out == "95 470"


def test_days_that_were_all_unticked_are_not_the_aims():
    assert form_of(given(days=[]))[0].days == "-"
    assert form_of(given(days=["1", "5"]))[0].days == "1 5"


def test_nothing_is_told_before_the_browser_was_asked(app):
    with pytest.raises(PreventUpdate):
        tell(given(), None, None)


def test_an_athlete_of_the_demo_stands_in_and_is_marked_invented(app):
    with app.server.app_context():
        athlete, _, unread = athlete_for(PlanForm(who="W05"), {}, None, METRIC)
    assert (athlete.case.code, athlete.invented, unread) == ("W05", True, False)


def test_without_a_plan_the_page_says_what_to_do(shown):
    made = shown(None)
    assert "No plan yet" in made["told"][ids.BUILDUP_SENTENCE]
    assert all(made["hidden"].values())
    assert (made["open"], made["away"]) == (True, True)


def test_a_plan_is_shown_with_its_figures_and_choices(shown, made):
    record = logged(made(target_day="2026-12-31"), "go_on")
    page = shown(to_json(record))
    assert (page["hidden"]["body"], page["hidden"]["logged"], page["hidden"]["stopped"]) == (False, False, True)
    assert len(page["steps"]) == len(record.throws)
    assert len(page["sessions"]) == sum(record.repeats) - 1
    assert page["stairs"]["data"]
    assert page["offers"] == []
    assert "This plan is of W01; above stands W02." in shown(to_json(record), "W02")["told"][ids.BUILDUP_SENTENCE]


@pytest.mark.parametrize("kept", [*JUNK[1:], {"kind": "levelpeak build-up", "version": 1}])
def test_what_is_no_plan_is_shown_as_none(shown, kept):
    assert read_plan(kept) is None
    assert shown(kept)["hidden"]["body"]
    assert picked("3", "4", kept)["step"] is None


def test_a_step_chosen_fills_its_fields_and_one_that_was_thrown_is_not_chosen(made):
    record = logged(made(), *["go_on"] * 5)
    found = picked("6", None, to_json(record))
    assert found["texts"]["share"] == f"{100 * record.throws[6][1]:g}"
    assert found["step"] == "6"
    for wrong in ("0", "99", "x", None, 3):
        assert picked(wrong, wrong, to_json(record))["step"] == "2"
    assert picked(None, None, to_json(logged(made(), "stop")))["session"] is None


def test_the_layout_has_no_id_twice(app):
    with app.server.app_context():
        made = json.loads(json.dumps(layout().to_plotly_json(), default=lambda part: part.to_plotly_json()))

    def seen(part) -> list[str]:
        if isinstance(part, dict):
            own = [json.dumps(part["id"])] if isinstance(part.get("id"), str | dict) else []
            return own + [one for inner in part.values() for one in seen(inner)]
        return [one for inner in part for one in seen(inner)] if isinstance(part, list) else []

    found = seen(made)
    assert len(found) > 60
    assert len(found) == len(set(found))


@pytest.mark.parametrize("output", [ids.BUILDUP_SAVED, ids.BUILDUP_KNOWN, ids.BUILDUP_TOLD, ids.BUILDUP_FILE])
def test_a_request_of_another_shape_shows_no_stack_trace(app, output):
    client = app.server.test_client()
    spec = next(one for one in client.get("/_dash-dependencies").json if f"{output}." in one["output"])
    body = {
        "output": spec["output"],
        "inputs": [{**part, "value": None} for part in spec["inputs"]],
        "state": [{**part, "value": None} for part in spec["state"]],
        "changedPropIds": [],
    }
    for broken in ({"inputs": []}, {"inputs": "x"}, {"state": None}, {"inputs": [{"id": 1, "property": 2}]}):
        answer = client.post("/_dash-update-component", json=body | broken)
        assert b"Traceback" not in answer.data
        assert b"/app/" not in answer.data


@pytest.mark.parametrize("kept", ["x", {"kind": "levelpeak build-up", "version": 99}, [[]]])
def test_a_kept_plan_that_cannot_be_read_is_told_of(shown, kept):
    made = shown(kept)
    assert UNREAD in made["told"][ids.BUILDUP_SENTENCE]
    assert made["hidden"]["body"]
    assert UNREAD not in shown(None)["told"][ids.BUILDUP_SENTENCE]


def test_a_note_can_be_typed_as_long_as_is_said(app):
    with app.server.app_context():
        parts = json.loads(json.dumps(layout(), default=lambda part: part.to_plotly_json()))
    fields = {str(part["props"].get("id")): part["props"] for part in _parts(parts) if "attributes" in part["props"]}
    note = fields[str({"type": ids.BUILDUP_LOG_FIELD, "name": "note"})]
    assert note["attributes"]["input"]["maxLength"] == LONGEST_NOTE
    assert str(LONGEST_NOTE) in note["description"]


def _parts(given):
    if isinstance(given, list):
        for one in given:
            yield from _parts(one)
    elif isinstance(given, dict):
        if "props" in given:
            yield given
        for one in given.values():
            yield from _parts(one)
