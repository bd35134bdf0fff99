"""The page as it is made, and its callbacks, called as the browser calls them."""

import json
from contextvars import copy_context

import pytest
from dash._callback_context import context_value
from dash._utils import AttributeDict
from dash.exceptions import PreventUpdate

from app.bind.edit import as_text
from app.bind.visit import stores, visit_of
from app.pages.buildup import acting, callbacks, ids, keeping
from app.pages.buildup.found import Found
from app.pages.buildup.making import Act
from app.pages.buildup.noted import path_of
from app.pages.buildup.page import layout
from app.pages.buildup.showing import UNREAD, figures, form_is_open, picked, view_for
from app.records.acts import Edit, Put
from app.records.plan_fields import LONGEST_WORDS
from app.web.server import Config, create_app
from tests.app.pages.buildup.conftest import HAND_ONE, Desk, keep, logged, text_of, thrown


@pytest.fixture
def app(desk):
    """The app on the desk's records, its request context pushed."""
    made = create_app(Config(demo=True, store=desk.store))
    with made.server.test_request_context():
        yield made


def plain(part):
    return json.loads(json.dumps(part, default=lambda one: one.to_plotly_json()))


def parts_of(given):
    if isinstance(given, list):
        for one in given:
            yield from parts_of(one)
    elif isinstance(given, dict):
        if "props" in given:
            yield given
        for one in given.values():
            yield from parts_of(one)


def fields_of(desk) -> dict[str, dict]:
    """The bound fields of the page, by their paths."""
    found = {}
    for part in parts_of(plain(layout(desk.found.visit))):
        name = part["props"].get("id")
        if isinstance(name, dict) and "path" in name:
            found[name["path"]] = part["props"]
    return found


def test_the_page_comes_filled_with_what_was_typed_and_what_was_refused(app, desk):
    desk.type(steps=" x ", goal_percent="95", aim="ease_off")
    shown = fields_of(desk)
    assert (shown["plan.goal_percent"]["value"], shown["plan.steps"]["value"]) == ("95", " x ")
    assert shown["plan.steps"]["error"].startswith("Steps: “x” given")
    assert shown["plan.days"]["value"] == ["-", "0", "2", "4"]
    assert "Rest: " in text_of(layout(desk.found.visit))


def test_what_is_asked_for_is_marked_so_and_the_rest_is_out_of_the_way(app, desk):
    asked = ("weeks_off", "repeats", "first_throws")
    desk.type(aim="after_off")
    off = fields_of(desk)
    assert [off[f"plan.{name}"]["placeholder"] for name in asked] == ["asked for"] * 3
    assert {"plan.cleared_by", "plan.goal_ball"} & set(off) == set()
    desk.type(aim="after_injury")
    assert "plan.cleared_by" in fields_of(desk)
    desk.type(aim="fast_block", first_throws="")
    free = fields_of(desk)
    assert (free["plan.first_throws"]["placeholder"], "plan.goal_ball" in free) == ("18", True)
    before = Desk("W06", desk.store)
    before.type(aim="fast_block")
    assert "plan.cleared_by" in fields_of(before)  # its reference is from before an injury


def test_the_caution_about_growing_throwers_stands_before_anything_is_planned(app, desk):
    made = [one["props"] for one in parts_of(plain(layout(Desk("W04", desk.store).found.visit)))]
    (grows,) = [one for one in made if one.get("id") == ids.BUILDUP_GROWS]
    assert grows["hidden"] is False
    assert "Reinold" in json.dumps(grows)


def test_what_came_from_start_stands_there_until_it_is_dropped(app, desk):
    assert desk.found.athlete.given is None
    desk.type(given_mass_kg="470", given_diameter_m="73", given_speed_m_s="12", given_on="2026-03-02")
    uid = desk.found.visit.owner
    desk.store.act(uid, Edit("limits.amount", "40", "elbow_peak"), HAND_ONE)
    said = text_of(layout(desk.found.visit))
    for part in ("470 g", "40 % of the reference throw’s", "Taken over on 2026-03-02"):
        assert part in said
    assert "The limits from Start: say how long they hold." in text_of(desk.press("make").said)
    desk.press("drop")
    assert desk.found.athlete.given is None
    assert "elbow_peak" in desk.found.data.limits  # the limits themselves stay with the athlete


def test_another_aim_asks_for_its_days_and_its_order_anew(app, desk):
    doing = callbacks.choose_aim(desk.found.visit, "", "fast_block")
    desk.store.act(desk.found.visit.owner, list(doing.acts), HAND_ONE)
    assert [desk.found.wanted.given[name] for name in ("aim", "days", "order")] == ["fast_block", "", None]
    for same in ("fast_block", "x", None):
        with pytest.raises(PreventUpdate):
            callbacks.choose_aim(desk.found.visit, "", same)


def test_several_boxes_are_one_text():
    assert as_text(["-", "1", "4"]) == "- 1 4"
    assert as_text([]) == as_text([3]) == ""


def test_without_a_plan_the_page_says_what_to_do(app, desk):
    view, offers = view_for(desk.found)
    assert "No plan yet" in view.told[ids.BUILDUP_SENTENCE]
    assert all(view.hidden.values())
    assert (offers, form_is_open(desk.found)) == ((), True)


def test_a_plan_is_shown_with_its_figures_and_choices(app, desk, made):
    record = logged(made(target_day="2026-12-31"), "go_on")
    desk.keep(record)
    view, offers = view_for(desk.found)
    assert (view.hidden["body"], view.hidden["logged"], view.hidden["stopped"]) == (False, False, True)
    assert (len(view.steps), len(view.sessions)) == (len(record.throws), sum(record.repeats) - 1)
    assert figures(desk.found, "light", 700)["stairs"]["data"]
    assert offers == ()
    assert form_is_open(desk.found) is False


def test_a_plan_of_the_records_that_cannot_be_read_is_told_of_and_stays(app, desk, made):
    desk.keep(made())
    row = desk.found.shown.row
    desk.store.act(desk.found.visit.owner, Put("plan", "body", {"version": 99}, row.uid), HAND_ONE)
    view, _ = view_for(desk.found)
    assert UNREAD in view.told[ids.BUILDUP_SENTENCE]
    assert view.hidden["body"]
    assert "cannot be read" in text_of(layout(desk.found.visit))
    assert desk.found.shown.row.body == {"version": 99}


def test_a_step_chosen_fills_its_fields_and_one_that_was_thrown_is_not_chosen(desk, made):
    record = logged(made(), *["go_on"] * 5)
    desk.keep(record)
    found = picked(desk.found, "6", None)
    assert found["texts"]["share"] == f"{100 * record.throws[6][1]:g}"
    assert found["step"] == "6"
    for wrong in ("0", "99", "x", None, 3):
        assert picked(desk.found, wrong, wrong)["step"] == "2"
    assert picked(Desk("W05", desk.store).found, "3", "4")["step"] is None


def test_the_layout_has_no_id_twice(app, desk, made):
    desk.keep(logged(made(), "go_on"))
    page = [one["props"].get("id") for one in parts_of(plain(layout(desk.found.visit)))]
    found = [json.dumps(one, sort_keys=True) for one in page if one is not None]
    assert len(found) > 60
    assert len(found) == len(set(found))


def test_no_store_of_the_page_is_kept_in_the_browser(app, desk):
    made = [one for one in parts_of(plain(layout(desk.found.visit))) if one["type"] == "Store"]
    assert len(made) == 4
    assert {one["props"].get("storage_type", "memory") for one in made} == {"memory"}


@pytest.mark.parametrize("output", [ids.BUILDUP_NOTICE, ids.BUILDUP_MISSING, ids.BUILDUP_TOLD, ids.BUILDUP_FILE])
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


def test_a_note_can_be_typed_as_long_as_is_said(app, desk, made):
    desk.keep(made())
    note = fields_of(desk)[path_of("note", desk.found.session_key(0))]
    assert note["attributes"]["input"]["maxLength"] == LONGEST_WORDS
    assert str(LONGEST_WORDS) in note["description"]


def test_orders_are_compared_and_nothing_is_kept_of_it(app, desk):
    desk.type(aim="fast_block", first_throws="18", repeats="1")
    here = stores(visit_of("/build-up", "?athlete=W01"))[0].data
    assert text_of(callbacks.compared(1, here)).count("Make this plan") == 3
    assert desk.found.plans.plans == ()
    with pytest.raises(PreventUpdate):
        callbacks.compared(0, here)


def test_what_does_not_fit_together_in_the_form_is_told_beneath_it(app, desk, monkeypatch):
    monkeypatch.setattr(callbacks, "set_props", lambda *_: None)
    desk.type(least_throws="30", most_throws="20")
    here = stores(visit_of("/build-up", "?athlete=W01"))[0].data

    def tell():
        context_value.set(AttributeDict(triggered_inputs=[{"prop_id": "version.data", "value": {}}]))
        return callbacks.tell(None, here)

    told = copy_context().run(tell)
    assert "Throws at most: “20” given; accepted: 30 or more, throws." in text_of(told["missing"])
    assert told["orders_compared"] == []


def test_what_happened_is_said_where_the_button_was_once_the_page_stands_again():
    assert acting.said_before({}, {"beside": {"log": "Session 1 kept."}})["log"] == "Session 1 kept."
    for nothing in (None, {}, {"beside": 3}):
        with pytest.raises(PreventUpdate):
            acting.said_before({}, nothing)


def test_of_two_who_keep_the_same_session_at_the_same_moment_one_is_told(desk, made):
    desk.keep(made())
    desk.note(
        0,
        throws="20",
        before="0",
        throwing="0",
        next_morning="0",
        painkiller="no",
        decision="go_on",
        by="AB",
        role="coach",
    )
    late = desk.found
    assert late.record.log == ()
    desk.press("log")
    assert len(desk.record.log) == 1
    again = keeping.keep(late, Act(keep(late.record, thrown(late.record))), HAND_ONE)
    assert again.acted.stopped
    assert "Somebody else entered the same" in again.acted.outcomes[0].message
    assert isinstance(late, Found)
