"""Undo is that of the records: it gives back exactly what was, but for stop signs, which it leaves alone."""

from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from app.pages.buildup.acting import SAID, anew
from app.pages.buildup.course import course_of
from app.pages.buildup.keeping import Kept, keep
from app.pages.buildup.log_edits import handed_out
from app.pages.buildup.making import Act, offered
from app.pages.buildup.rows import changed_plan
from app.records.steps import StepError
from model.checks import InputError
from tests.app.pages.buildup.conftest import ASKED, HAND_ONE, Desk, logged, plan_for
from tests.app.pages.buildup.conftest import TODAY as FIRST


def test_undo_after_an_offer_brings_back_the_plan_and_the_field_it_set(desk, made, page):
    desk.keep(made())
    desk.type(steps="5")
    before, count = desk.record, str(len(made().throws) + 2)
    act = offered(page(desk.record, steps="5"), f"form:steps={count}")
    keep(desk.found, act, HAND_ONE)
    assert (len(desk.record.throws), desk.found.wanted["steps"]) == (int(count), int(count))
    desk.undo()
    assert (desk.record, desk.found.wanted["steps"]) == (before, 5)


@pytest.mark.parametrize(
    ("name", "place"), [("step", "by_hand"), ("log", "log"), ("away", "notice"), (None, "notice"), ([], "notice")]
)
def test_what_happened_is_said_beside_the_button_and_nowhere_else(desk, name, place):
    told = anew(desk.found, Kept(None), Act(None, ["said"]), name)
    assert told["beside"] == {place: "said"}
    assert place in SAID


def test_what_changed_nothing_is_no_step(desk, made):
    desk.keep(made())
    ahead = desk.store.steps(desk.found.visit.owner).back.version
    desk.press("keep_numbers")
    assert desk.store.steps(desk.found.visit.owner).back.version == ahead


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
    log = {
        "throws": draw(st.sampled_from(["8", "20"])),
        "painkiller": "no",
        "signs": draw(st.sampled_from([""] * 7 + ["swelling"])),
        "decision": draw(st.sampled_from(["go_on", "repeat", "step_back", ""])),
        "by": "AB",
        "role": draw(st.sampled_from(["coach", "clinician"])),
        **ratings(draw),
    }
    signed = {
        f"{what}_{key}": value for what in ("sign", "clear") for key, value in (("by", "PT"), ("role", "clinician"))
    }
    hand = signed | {"sign_what": "weakness", "share": "75", "sessions": "2"}
    chosen = {"step": draw(st.sampled_from(["1", "3"])), "ball": "145|73", "session": "2"}
    return name, log, {"hand": hand, "chosen": chosen}


@settings(max_examples=8, deadline=None, phases=[Phase.explicit, Phase.generate])
@given(st.lists(act(), min_size=1, max_size=6))
def test_undo_gives_back_exactly_what_was_and_never_a_stop_sign(told):
    desk = Desk()
    desk.type(**ASKED)
    desk.keep(plan_for("W01", True, False, ()))
    owner = desk.found.visit.owner
    were = []
    for name, log, more in told:
        if name == "log" and desk.record is not None:
            desk.note(len(desk.record.log), **log)
        ahead, before = desk.store.steps(owner).back, desk.record
        with suppress(InputError):
            desk.press(name, **more)
        if desk.store.steps(owner).back.version != ahead.version:
            were.append((ahead.version, before))
    signs = {row.uid for row in desk.found.data.stop_signs}
    while were:
        version, was = were.pop()
        while desk.store.steps(owner).back.version != version:  # also what was typed into fields between
            desk.undo()
        assert bare(desk.record) == bare(was)
        assert signs == {row.uid for row in desk.found.data.stop_signs}
        if desk.record is not None and any(one.stands for one in desk.record.signs):
            assert course_of(desk.record).schedule.sessions == ()


def test_undo_clears_and_restores_no_sign(desk, made):
    desk.keep(logged(made(), "go_on"))
    desk.press("sign", hand={"sign_what": "swelling", "sign_by": "AB", "sign_role": "coach"})
    desk.press("clear", hand={"clear_by": "PT", "clear_role": "clinician"})
    assert desk.record.signs[0].cleared.by == "PT"
    desk.undo()
    assert desk.course.closed == "plan_anew"  # cleared stays cleared
    assert desk.record.made_on == FIRST


def test_that_a_calendar_was_handed_out_is_not_undone(desk, made):
    desk.keep(made())
    desk.press("leave_out", chosen={"step": "3"})
    found = desk.found
    done = changed_plan(found.record, handed_out(found.record, 24), found.data, found.shown.row, found.plans.signs)
    desk.store.act(found.visit.owner, done, HAND_ONE, stays=True)
    desk.undo()
    assert (len(desk.record.throws), desk.record.calendars) == (len(made().throws), 1)
    assert desk.record.handed_out[0].last == 24
    with suppress(StepError):
        desk.redo()
    assert desk.record.calendars == 1
