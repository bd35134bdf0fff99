"""Undo gives back exactly what was, stop signs aside, whatever was done."""

from dataclasses import replace
from datetime import timedelta

import pytest
from dash import no_update
from dash.exceptions import PreventUpdate
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pages.buildup import acts, making
from app.pages.buildup.acting import SAID, changed, undone
from app.pages.buildup.before import read_plan
from app.pages.buildup.course import course_of
from app.pages.buildup.file import to_json
from app.pages.buildup.form import PlanForm
from app.pages.buildup.log_form import LogForm
from app.pages.buildup.making import Act, Page
from app.pages.buildup.signs import before_making, known_of
from model.checks import InputError
from tests.app.pages.buildup.conftest import ASKED, LATER, athlete_for, logged, plan_for
from tests.app.pages.buildup.conftest import TODAY as FIRST

NOTHING = {"plan": None, "before": [], "known": None}


def test_undo_after_an_offer_brings_back_the_plan_and_the_field_it_set(page, made):
    kept = NOTHING | {"plan": to_json(made())}
    asked = page(made(), steps="5")
    count = str(len(made().throws) + 2)
    act = changed(making.offered(asked, f"form:steps={count}"), asked, kept)
    assert (len(act["plan"]["steps"]), act["changes"]) == (int(count), {"steps": count})
    back = undone(act["before"], replace(asked.form, **act["changes"]), act["plan"], None)
    assert (back["plan"], back["changes"], back["before"]) == (kept["plan"], {"steps": "5"}, [])


def test_an_offer_that_opens_no_plan_is_undone_too(page, made):
    asked = page(made(), steps="5")
    act = changed(making.offered(asked, "form:steps=4"), asked, NOTHING | {"plan": to_json(made())})
    assert (act["plan"], act["changes"]) == (no_update, {"steps": "4"})
    assert undone(act["before"], replace(asked.form, steps="4"), to_json(made()), None)["changes"] == {"steps": "5"}


@pytest.mark.parametrize(
    ("name", "place"), [("step", "by_hand"), ("log", "log"), ("away", "notice"), (None, "notice"), ([], "notice")]
)
def test_what_happened_is_said_beside_the_button_and_nowhere_else(page, made, name, place):
    act = changed(Act(made(), ["said"]), page(made()), NOTHING, name)
    assert {one: act[one] for one in SAID} == dict.fromkeys(SAID, "") | {place: ["said"]}


def test_what_changed_nothing_is_not_undone(page, made):
    act = changed(Act(made(), ["said"]), page(made()), NOTHING | {"plan": to_json(made())})
    assert (act["before"], act["plan"], act["changes"]) == (no_update, no_update, no_update)
    for junk in (None, [], "x", [3]):
        with pytest.raises(PreventUpdate):
            undone(junk, PlanForm(), None, None)


class Browser:
    """What the browser keeps, and what its buttons do."""

    def __init__(self, record) -> None:
        self.kept = {"plan": to_json(record), "before": [], "known": None}

    @property
    def record(self):
        return read_plan(self.kept["plan"])

    def press(self, name: str, **more) -> None:
        known = before_making(self.kept["known"], self.record, "W01", True)
        page = Page(PlanForm(**ASKED), athlete_for("W01", known=known), self.record, LATER, **more)
        try:
            act = making.made(page) if name == "make" else acts.done(page, name)
        except InputError:
            return
        self._take(changed(act, page, self.kept, name))

    def undo(self) -> bool:
        try:
            self._take(undone(self.kept["before"], PlanForm(**ASKED), self.kept["plan"], self.kept["known"]))
        except PreventUpdate:
            return False
        return True

    def _take(self, made) -> None:
        self.kept |= {name: made[name] for name in self.kept if made.get(name, no_update) is not no_update}


def bare(record):
    """A plan but for its stop signs."""
    return None if record is None else replace(record, signs=())


def ratings(draw) -> dict[str, str]:
    mild = st.sampled_from(["0", "0", "0", "", "2"])
    found = {name: draw(mild) for name in ("before", "throwing", "next_morning")}
    return found | {"site": "elbow" if "2" in found.values() else ""}


@st.composite
def act(draw):
    """A button with its fields."""
    name = draw(
        st.sampled_from(["log"] * 5 + ["step", "leave_out", "put_in", "sign", "clear", "reopen", "away", "make"])
    )
    log = LogForm(
        throws=draw(st.sampled_from(["8", "20"])),
        painkiller="no",
        signs=draw(st.sampled_from([""] * 7 + ["swelling"])),
        decision=draw(st.sampled_from(["go_on", "repeat", "step_back", ""])),
        by="AB",
        role=draw(st.sampled_from(["coach", "clinician"])),
        **ratings(draw),
    )
    signed = {
        f"{what}_{key}": value for what in ("sign", "clear") for key, value in (("by", "PT"), ("role", "clinician"))
    }
    hand = signed | {"sign_what": "weakness", "share": "75", "sessions": "2"}
    chosen = {"step": draw(st.sampled_from(["1", "3"])), "ball": "145|73", "session": "2"}
    return name, {"log": log, "hand": hand, "chosen": chosen}


@settings(max_examples=25, deadline=None)
@given(st.lists(act(), min_size=1, max_size=8))
def test_undo_gives_back_exactly_what_was_and_never_a_stop_sign(told):
    browser = Browser(plan_for("W01", True, False, ()))
    were, signs = [browser.record], set()
    for name, more in told:
        at = len(browser.record.log) if browser.record is not None else 0
        browser.press(name, at=at, **more)
        if bare(browser.record) != bare(were[-1]) or len(browser.kept["before"]) == len(were):
            were.append(browser.record)
        signs |= {one.mark for one in known_of(browser.kept["known"], "W01", True).signs}
    while len(were) > 1:
        were.pop()
        assert browser.undo()
        assert bare(browser.record) == bare(were[-1])
        known = known_of(browser.kept["known"], "W01", True).signs
        assert signs <= {one.mark for one in known}
        if browser.record is not None and any(one.stands for one in browser.record.signs):
            assert course_of(browser.record).schedule.sessions == ()
    assert not browser.undo()


def test_undo_clears_and_restores_no_sign(made):
    browser = Browser(logged(made(), "go_on"))
    browser.press("sign", hand={"sign_what": "swelling", "sign_by": "AB", "sign_role": "coach"})
    browser.press("clear", hand={"clear_by": "PT", "clear_role": "clinician"})
    assert browser.record.signs[0].cleared.by == "PT"
    browser.undo()
    assert course_of(browser.record).closed == "plan_anew"  # cleared stays cleared
    browser.undo()
    assert course_of(browser.record).closed == "plan_anew"
    assert browser.record.made_on + timedelta(0) == FIRST
