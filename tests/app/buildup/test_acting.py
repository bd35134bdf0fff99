"""What a button changes on the page, and that Undo takes all of it back."""

from dataclasses import replace

import pytest
from dash import no_update
from dash.exceptions import PreventUpdate

from app.buildup import acts
from app.buildup.acting import SAID, changed, undone
from app.buildup.file import to_json
from app.buildup.form import PlanForm
from app.buildup.log_form import key_of
from tests.app.buildup.test_edits import logged


def test_undo_after_an_offer_brings_back_the_plan_and_the_field_it_set(page, made):
    kept = to_json(made())
    asked = page(made(), steps="5")
    count = str(len(made().throws) + 2)
    act = changed(acts.offered(asked, f"form:steps={count}"), asked, kept, None)
    assert (len(act["plan"]["steps"]), act["changes"]) == (int(count), {"steps": count})
    back = undone(act["before"], replace(asked.form, **act["changes"]), act["plan"])
    assert (back["plan"], back["changes"], back["before"]) == (kept, {"steps": "5"}, [])


def test_an_offer_that_opens_no_plan_is_undone_too(page, made):
    asked = page(made(), steps="5")
    act = changed(acts.offered(asked, "form:steps=4"), asked, to_json(made()), [])
    assert (act["plan"], act["changes"]) == (no_update, {"steps": "4"})
    assert undone(act["before"], replace(asked.form, steps="4"), to_json(made()))["changes"] == {"steps": "5"}


def test_the_first_plan_and_its_field_are_undone_to_none(page):
    asked = page(None, steps="5")
    act = changed(acts.offered(asked, "form:steps=17"), asked, None, [])
    back = undone(act["before"], replace(asked.form, steps="17"), act["plan"])
    assert (back["plan"], back["changes"]) == (None, {"steps": "5"})


def test_a_session_that_is_undone_or_opened_again_stands_in_its_fields(page, made):
    before, after = made(), logged(made(), "repeat")
    kept = changed(acts.Act(after), page(before), to_json(before), [])
    assert kept["opened"] is no_update
    opened = changed(acts.done(page(after), "reopen"), page(after), to_json(after), [])["opened"]
    assert opened[key_of(before)]["decision"] == "repeat"
    assert undone(kept["before"], PlanForm(), to_json(after))["opened"] == opened


@pytest.mark.parametrize(
    ("name", "place"), [("step", "by_hand"), ("log", "log"), ("away", "notice"), (None, "notice"), ([], "notice")]
)
def test_what_happened_is_said_beside_the_button_and_nowhere_else(page, made, name, place):
    act = changed(acts.Act(made(), ["said"]), page(made()), None, None, name)
    assert {one: act[one] for one in SAID} == dict.fromkeys(SAID, "") | {place: ["said"]}


def test_what_changed_nothing_is_not_undone(page, made):
    act = changed(acts.Act(made(), ["said"]), page(made()), to_json(made()), [])
    assert (act["before"], act["plan"], act["changes"]) == (no_update, no_update, no_update)
    for junk in (None, [], "x", [3]):
        with pytest.raises(PreventUpdate):
            undone(junk, PlanForm(), None)
