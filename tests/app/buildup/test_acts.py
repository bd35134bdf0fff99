"""What each button does to the plan, and what is said of it."""

from contextlib import suppress
from dataclasses import replace

import pytest

from app.buildup.acts import ALREADY, DOES, Act, done, made, offered, opened
from app.buildup.record import course_of
from model.checks import InputError
from model.full_speeds import SpeedTable
from tests.app.buildup.conftest import TODAY, text_of
from tests.app.buildup.test_edits import logged
from tests.app.buildup.test_file import text_of as file_text
from tests.app.buildup.test_file import uploaded


def test_making_a_plan_says_so_and_what_it_replaced(page):
    first = made(page(None))
    assert text_of(first.said) == "Plan made."
    again = made(page(first.record, aim="ease_off"))
    assert "It took the place of the one before" in text_of(again.said)


def test_where_there_is_no_plan_the_old_one_stays_and_what_would_open_one_is_offered(page):
    record = made(page(None)).record
    act = made(page(record, steps="5"))
    assert act.record is record
    assert "No such plan exists" in text_of(act.said)
    buttons = act.said[1].children
    opens = offered(page(record, steps="5"), buttons[0].id["name"])
    assert len(opens.record.throws) > 5
    assert opens.form == {"steps": str(len(opens.record.throws))}


def test_a_single_limit_that_is_loosened_by_its_button_opens_a_plan(page):
    free = {f"rise_{key}": "900" for key in ("rise_rate", "shoulder_peak", "loaded_s", "area", "braking", "speed")}
    asked = page(None, steps="4", rise_peak="5", **free)
    act = made(asked)
    names = [button.id["name"] for button in act.said[1].children]
    chosen = next(name for name in names if name.startswith("form:rise_peak="))
    assert offered(asked, chosen).record is not None


def test_what_is_wrong_in_the_form_is_told_and_makes_no_plan(page):
    act = made(page(None, steps="x", repeats="99"))
    assert act.record is None
    assert "Steps: “x” given" in text_of(act.said)
    assert "Sessions at each step: “99” given" in text_of(act.said)
    assert "No plan: Ball" in text_of(made(page(None, start_ball="9|9")).said)


@pytest.mark.parametrize(
    "name", ["form:x=1", "form:who=W02", "x=1", "", "steps", "steps=", "sessions=1", "first_day=soon", "first_day=="]
)
def test_an_offer_that_was_never_made_changes_no_plan_unasked(page, name):
    record = made(page(None)).record
    try:
        act = offered(page(record), name)
    except InputError:
        return
    assert act.record.throws == record.throws


@pytest.mark.parametrize("name", DOES)
def test_no_button_fails_on_a_page_where_nothing_was_chosen(page, name):
    assert done(page(None), name) == Act(None)
    record = made(page(None)).record
    junk = {"step": 3, "ball": ["x"], "session": {"a": 1}, "held": 1, "signs": "x", "decision": []}
    for chosen in ({}, junk):
        act = Act(None)
        with suppress(InputError):
            act = done(page(record, chosen=chosen, hand={"share": 3, "by": []}), name)
        assert act.record is None or course_of(act.record)


def test_changes_by_hand_come_from_the_fields(page):
    record = made(page(None)).record
    ball = record.throws[3][0]
    chosen = {"step": "3", "ball": f"{1000 * ball.mass_kg:g}|73", "session": "2"}
    hand = {"share": "90,5", "sessions": "3", "day": "2026-03-10", "throws": "12", "rest": ""}
    changed = done(page(record, chosen=chosen, hand=hand), "step").record
    said = text_of(done(page(record, chosen=chosen, hand=hand), "step").said)
    assert said.startswith("Step 4 changed by hand. Limits are broken at step")
    assert text_of(done(page(changed, chosen=chosen, hand=hand), "step").said) == ALREADY
    assert (changed.throws[3], changed.repeats[3]) == ((ball, pytest.approx(0.905)), 3)
    session = course_of(done(page(record, chosen=chosen, hand=hand), "session").record).schedule.sessions[2]
    assert (session.day.isoformat(), session.throws) == ("2026-03-10", 12)
    again = done(page(changed, chosen=chosen, hand=hand), "rest")
    assert again.record.throws[3] == changed.throws[3]
    with pytest.raises(InputError, match="Of full speed with it"):
        done(page(record, chosen=chosen, hand=hand | {"share": "4,9"}), "step")


def test_new_numbers_are_taken_or_refused(page):
    record = made(page(None)).record
    old = replace(record, table=SpeedTable(record.table.balls, tuple(1.1 * v for v in record.table.speeds_m_s)))
    assert done(page(old), "take_numbers").record.table == record.table
    kept = done(page(old), "keep_numbers").record
    assert kept == replace(old, refused=kept.refused)
    assert kept.refused
    assert done(page(record), "take_numbers").record == record


def test_a_session_is_kept_and_opened_again(page):
    record = made(page(None)).record
    pains = {"before": "0", "after": "1", "morning": ""}
    kept = done(page(record, pains=pains, chosen={"decision": "repeat"}, hand={"by": "AB"}), "log")
    assert text_of(kept.said) == "Session 1 kept."
    assert (kept.record.log[0].decision, kept.record.log[0].days_off) == ("repeat", 1)
    against = done(page(record, pains=pains | {"after": "6"}, chosen={"decision": "repeat"}, hand={"by": "AB"}), "log")
    said = "Session 1 kept. Suggested was: rest, and see a licensed clinician before the next throw."
    assert text_of(against.said) == said
    opened_again = done(page(kept.record), "reopen")
    assert opened_again.record == record


def test_a_stopped_plan_is_taken_up_again_and_a_plan_is_put_away(page):
    record = logged(made(page(None)).record, "stop")
    again = done(page(record, hand={"again": "2026-05-04"}), "again").record
    assert course_of(again).schedule.sessions[0].day.isoformat() == "2026-05-04"
    assert done(page(record), "away").record is None


def test_a_file_that_cannot_be_read_leaves_the_plan_where_it_is(page):
    record = made(page(None)).record
    act = opened(page(record), "data:,x")
    assert act.record is record
    assert "could not be opened" in text_of(act.said)
    assert "The plan on the page stays." in text_of(act.said)
    assert opened(page(None), uploaded(file_text(record))).record == record
    assert record.made_on == TODAY
