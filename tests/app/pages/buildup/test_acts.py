"""What each button does to the plan, and what is said of it."""

from contextlib import suppress
from dataclasses import replace

import pytest

from app.pages.buildup.acts import ALREADY, DOES, REASKED, SIGNS, done, opened
from app.pages.buildup.course import course_of
from app.pages.buildup.known import Known
from app.pages.buildup.making import Act, made, offered
from model.checks import InputError
from model.full_speeds import SpeedTable
from model.stop_signs import StopSign
from tests.app.pages.buildup.conftest import COACH, LATER, TODAY, WHOLE, logged, text_of
from tests.app.pages.buildup.test_file import text_of as file_text
from tests.app.pages.buildup.test_file import uploaded


def test_making_a_plan_says_so_and_what_it_replaced(page):
    first = made(page(None))
    assert text_of(first.said) == "Plan made."
    again = made(page(first.record, aim="ease_off"))
    assert "The one before was put away" in text_of(again.said)
    assert again.fresh


def test_without_an_order_no_plan_is_made_but_for_the_growing(page):
    assert "Order of the balls: choose one" in text_of(made(page(None, order="")).said)
    assert made(page(None, "W04", order="")).record.way == "own"


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
    asked = page(None, steps="4", rise_peak="5", order="heavy", start_percent="60", **free)
    act = made(asked)
    names = [button.id["name"] for button in act.said[1].children]
    chosen = next(name for name in names if name.startswith("form:rise_peak="))
    assert offered(asked, chosen).record is not None


def test_what_is_wrong_in_the_form_is_told_by_its_name_on_the_page_and_makes_no_plan(desk, page):
    desk.type(repeats="99")
    told = desk.press("make")
    assert told.record is None
    assert "Missing or to be mended above: sessions at each step." in text_of(told.said)
    assert "No plan: Budget at most: " in text_of(made(page(None, most_nms="1")).said)


@pytest.mark.parametrize(
    "name",
    ["form:x=1", "form:given_on=W02", "x=1", "", "steps", "steps=", "sessions=1", "first_day=soon", "first_day=="],
)
def test_an_offer_that_was_never_made_changes_no_plan_unasked(page, name):
    record = made(page(None)).record
    try:
        act = offered(page(record), name)
    except InputError:
        return
    assert act.record.throws == record.throws


@pytest.mark.parametrize("name", [*DOES, *SIGNS])
def test_no_button_fails_on_a_page_where_nothing_was_chosen(page, name):
    with suppress(InputError):
        assert done(page(None), name) == Act(None)
    record = made(page(None)).record
    junk = {"step": 3, "ball": ["x"], "session": {"a": 1}}
    hand = {"share": 3, "by": [], "sign_what": ["x"], "clear_role": 3, "withdraw_what": "99", "sign_words": {}}
    for chosen in ({}, junk):
        act = Act(None)
        with suppress(InputError):
            act = done(page(record, chosen=chosen, hand=hand, log={"signs": "x|y"}), name)
        assert act.record is None or course_of(act.record)


def test_changes_by_hand_come_from_the_fields(page):
    record = made(page(None, order="heavy")).record
    ball = record.throws[3][0]
    chosen = {"step": "3", "ball": f"{1000 * ball.mass_kg:g}|73", "session": "2"}
    hand = {"share": "90,5", "sessions": "3", "day": "2026-03-10", "throws": "12", "rest": ""}
    changed = done(page(record, chosen=chosen, hand=hand), "step").record
    said = text_of(done(page(record, chosen=chosen, hand=hand), "step").said)
    assert said.startswith("Step 4 changed by hand. Limits are broken at step")
    assert text_of(done(page(changed, chosen=chosen, hand=hand), "step").said) == ALREADY
    assert (changed.throws[3], changed.repeats[3]) == ((ball, pytest.approx(0.905)), 3)
    moved = hand | {"day": course_of(record).schedule.sessions[2].day.isoformat()}
    session = course_of(done(page(record, chosen=chosen, hand=moved), "session").record).schedule.sessions[2]
    assert (session.day.isoformat(), session.throws) == (moved["day"], 12)
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


def test_a_session_is_kept_and_a_stop_sign_in_it_is_said(page):
    record = made(page(None)).record
    kept = done(page(record, log=WHOLE), "log")
    assert text_of(kept.said) == "Session 1 kept."
    stopped = done(page(kept.record, at=1, log=WHOLE | {"signs": "swelling"}), "log")
    assert text_of(stopped.said) == "Session 2 kept. Stop sign: swelling. The plan stands still."
    back = done(page(stopped.record), "reopen").record
    assert (len(back.log), course_of(back).closed) == (1, "stop_sign")


def test_a_sign_is_entered_withdrawn_and_cleared_with_initials_role_and_words(page):
    record = made(page(None)).record
    hand = {"sign_what": "cold_hand", "sign_since": "2026-03-05", "sign_by": "CD", "sign_role": "parent"}
    entered = done(page(record, hand=hand), "sign").record
    assert (entered.signs[0].since.isoformat(), entered.signs[0].entered.role) == ("2026-03-05", "parent")
    by = {"withdraw_what": "0", "withdraw_by": "CD", "withdraw_role": "parent", "withdraw_words": "another child"}
    assert course_of(done(page(entered, hand=by), "withdraw").record).closed == ""
    with pytest.raises(InputError, match="Why it is withdrawn"):
        done(page(entered, hand=by | {"withdraw_words": " "}), "withdraw")
    clear = {"clear_by": "PT", "clear_role": "clinician", "clear_on": "2026-03-20"}
    cleared = done(page(entered, hand=clear), "clear")
    assert (course_of(cleared.record).closed, cleared.form) == ("plan_anew", REASKED)
    for wrong, said in (
        ({"clear_role": "athlete"}, "Role"),
        ({"clear_role": "coach"}, "Whose decision it was"),
        ({"clear_by": ""}, "Initials"),
        ({"clear_on": "2026-03-01"}, "Day"),
    ):
        with pytest.raises(InputError, match=said):
            done(page(entered, hand=clear | wrong), "clear")


def test_without_a_plan_the_athletes_signs_are_cleared_and_withdrawn(page):
    known = Known((StopSign("swelling", TODAY, None, COACH),))
    act = done(page(None, known=known, hand={"clear_by": "PT", "clear_role": "clinician"}), "clear")
    assert act.record is None
    assert act.signs[0].cleared.by == "PT"


def test_a_plan_is_put_away_and_its_stop_signs_stay(desk):
    desk.press("make")
    assert "Stop signs stay with the athlete" in text_of(desk.press("away").said)
    assert desk.record is None


def test_a_stopped_plan_is_taken_up_again(page):
    record = logged(made(page(None)).record, "stop")
    again = done(page(record, hand={"again": "2027-05-04"}), "again").record
    assert course_of(again).next.day.isoformat() >= "2027-05-04"


def test_a_file_that_cannot_be_read_leaves_the_plan_where_it_is(page):
    record = made(page(None)).record
    act = opened(page(record), "data:,x")
    assert act.record is record
    assert "could not be opened" in text_of(act.said)
    assert "The plan on the page stays." in text_of(act.said)
    assert opened(page(None), uploaded(file_text(record))).record == record


def test_a_file_of_another_athlete_or_an_invented_one_is_not_opened_here(page):
    record = made(page(None)).record
    other = opened(page(None, "W05"), uploaded(file_text(record)))
    assert (other.record, text_of(other.said)[:47]) == (None, "The file is of W01, and this is W05: nothing wa")
    real = page(None)
    real = replace(real, athlete=replace(real.athlete, invented=False))
    assert "invented" in text_of(opened(real, uploaded(file_text(record))).said)
    assert opened(real, uploaded(file_text(replace(record, invented=False, code="")))).record.code == "W01"


def test_who_has_read_the_text_about_growing_throwers_is_kept_by_initials(page):
    record = made(page(None)).record
    read = done(page(record, hand={"read_by": " CD "}), "read").record
    assert (read.read.by, read.read.on) == ("CD", LATER)
    for wrong in ("", "  ", "x" * 9, "a\nb", None):
        with pytest.raises(InputError, match="Initials of who has read it"):
            done(page(record, hand={"read_by": wrong}), "read")
