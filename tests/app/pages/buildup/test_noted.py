"""What is noted after a session: kept under its session, worked out as far as it goes, and refused by its field."""

from dataclasses import replace
from datetime import date

import pytest

from app.pages.buildup.course import course_of
from app.pages.buildup.log_parts import advised, session_of, sessions_of, title_of
from app.pages.buildup.noted import default_at, draft_of, logged_of, noted_of, rows_of, values_of
from model.checks import InputError
from model.session_rules import JointPain
from tests.app.pages.buildup.conftest import FINE, LATER, WHOLE, keep, logged, noted_for, pain, text_of, thrown


def read(record, noted=None, at=None, **texts):
    noted = noted_for(**WHOLE | texts) if noted is None else noted
    return logged_of(course_of(record), len(record.log) if at is None else at, noted, LATER)


def standing(desk, at=0):
    """What stands in the fields of a session."""
    return noted_of(desk.found.data, desk.found.session_key(at), desk.record.log, at)


def test_a_session_is_what_was_planned_with_what_was_thrown_and_noted(made):
    record = made()
    one, session = read(record), course_of(record).next
    assert (one.day, one.index, one.ball, one.speed_m_s) == (session.day, 0, session.step.ball, session.step.speed_m_s)
    assert (one.planned, one.throws, one.decision, one.by, one.role) == (25, 20, "go_on", "AB", "coach")
    assert one.notes == FINE


def test_a_line_of_the_log_comes_back_into_its_fields_and_out_again(made):
    record = keep(made(), thrown(made(), "repeat", pain(throwing=3, signs=("swelling",)), top_speed_m_s=20.5, note="n"))
    again = read(record, values_of(record.log[0]), 0)
    assert replace(again, decision="repeat", days_off=0) == record.log[0]


def test_the_highest_speed_is_read_in_the_unit_it_was_typed_in(made):
    assert read(made(), top_speed="50 mph").top_speed_m_s == pytest.approx(50 * 0.44704)
    assert read(made(), top_speed="20,5").top_speed_m_s == pytest.approx(20.5)


def test_no_session_was_thrown_in_the_future(made):
    record, early = made(first_day="2027-02-01"), course_of(made()).next.day
    one = logged_of(course_of(record), 0, noted_for(**WHOLE), early)
    assert one.day == early
    with pytest.raises(InputError, match="Day"):
        logged_of(course_of(record), 0, noted_for(**WHOLE) | {"day": date(2027, 2, 1)}, early)


def test_before_the_first_throw_nothing_was_thrown_unless_it_is_said(made):
    one = read(made(), throws="", before="3", throwing="", hour_after="", site="elbow")
    assert (one.throws, one.notes.pain) == (0, JointPain("elbow", 3, None, None, 0))


def test_the_session_before_again_is_kept_as_that(made):
    record = logged(made(), "go_on", "go_on", "go_on")
    one = read(record, again="before", sore_before="yes")
    assert (one.index, one.place, one.was_repeat, one.planned) == (2, 1, True, record.log[-1].planned)
    assert course_of(keep(record, one)).next.index == 3  # and then the one in whose place it was thrown
    with pytest.raises(InputError, match="no session before it"):
        read(made(), again="before")


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"throws": ""}, "Throws thrown"),
        ({"throws": "2.5"}, "Throws thrown"),
        ({"throws": "0"}, "Throws thrown"),
        ({"throws": "9999"}, "Throws thrown"),
        ({"before": "11"}, "Pain before the first throw"),
        ({"throwing": "x"}, "Pain while throwing"),
        ({"next_morning": "1,5"}, "Pain on the next morning"),
        ({"throwing": "2"}, "Pain at which joint"),
        ({"top_speed": "500"}, "Highest speed"),
        ({"by": " "}, "Initials"),
        ({"by": "x" * 20}, "Initials"),
        ({"role": ""}, "Role"),
        ({"role": "friend"}, "Role"),
        ({"day": "soon"}, "Day"),
        ({"day": "1999-01-01"}, "Day"),
        ({"days_off": "61"}, "Days off"),
        ({"days_off": "1.5"}, "Days off"),
        ({"note": "x" * 201}, "Note"),
        ({"note": "a\x00b"}, "Note"),
    ],
)
def test_what_is_missing_or_wrong_is_refused_by_its_field(made, change, field):
    with pytest.raises(InputError, match=field):
        read(made(), **change)


def test_a_decision_that_the_rules_do_not_allow_is_none_but_a_clinicians_is(made):
    open_morning = {"next_morning": ""}
    assert read(made(), **open_morning).decision == ""
    assert read(made(), **open_morning, decision="repeat").decision == "repeat"
    assert read(made(), **open_morning, role="clinician").decision == "go_on"
    severe = {"throwing": "6", "site": "elbow", "role": "clinician"}
    assert read(made(), **severe).decision == ""


def test_days_off_are_no_fewer_than_the_rules_ask_for_unless_a_clinician_says_so(made):
    painful = {"throwing": "2", "site": "elbow", "decision": "repeat", "days_off": "0"}
    assert read(made(), **painful).days_off == 2
    assert read(made(), **painful | {"days_off": "5"}).days_off == 5
    assert read(made(), **painful, role="clinician").days_off == 0


def test_of_a_session_before_the_last_what_was_decided_stays(made):
    record = logged(made(), "go_on", "go_on")
    late = {"throwing": 2, "site": "elbow", "decision": "repeat", "by": "CD", "role": "parent"}
    late = values_of(record.log[0]) | late
    one = read(record, late, 0)
    assert (one.decision, one.by, one.role, one.notes.pain.throwing) == ("go_on", "AB", "coach", 2)


def test_the_last_session_is_shown_until_its_morning_and_decision_are_there(made):
    assert default_at(course_of(made())) == 0
    assert default_at(course_of(logged(made(), "go_on"))) == 1
    assert default_at(course_of(logged(made(), ""))) == 0
    open_morning = keep(made(), thrown(made(), "repeat", replace(FINE, pain=JointPain("", 0, 0, 0, None))))
    assert default_at(course_of(open_morning)) == 0


def test_what_is_typed_and_not_kept_yet_stands_under_its_own_session_and_no_other(desk, made):
    desk.keep(made())
    desk.note(0, throws="20", before="0", note="sore", top_speed="50 mph")
    assert standing(desk) == {"throws": 20, "before": 0, "note": "sore", "top_speed": pytest.approx(50 * 0.44704)}
    first = desk.found.session_key(0)
    desk.keep(made(aim="ease_off"))
    assert standing(desk) == {}
    assert rows_of(desk.found.data, first)


def test_a_session_that_was_kept_leaves_nothing_typed_behind_and_undo_brings_it_back(desk, made):
    desk.keep(made())
    desk.note(0, **WHOLE)
    desk.press("log")
    assert len(desk.record.log) == 1
    assert rows_of(desk.found.data, desk.found.session_key(0)) == []
    desk.undo()
    assert desk.record.log == ()
    assert standing(desk) == noted_for(**WHOLE)


def test_a_session_of_the_log_comes_with_what_was_noted_and_what_is_emptied_stays_empty(desk, made):
    desk.keep(keep(made(), thrown(made(), "repeat", pain(throwing=3), top_speed_m_s=20.0)))
    assert standing(desk) == values_of(desk.record.log[0])
    desk.note(0, next_morning="", top_speed="")
    assert [standing(desk)[name] for name in ("next_morning", "top_speed", "throwing")] == [None, None, 3]
    desk.undo()
    assert standing(desk)["next_morning"] == 0
    assert title_of(desk.course, 0) == "Session 1: fill in or change"


def told_of(desk, at=0, **texts):
    desk.note(at, **WHOLE | texts)
    return advised(desk.found, at)


def test_what_may_come_next_and_be_decided_is_told_while_it_is_typed(desk, made):
    desk.keep(logged(made(), "go_on"))
    assert text_of(advised(desk.found, 1)["said"]).startswith("Enter how it went")
    told = told_of(desk, 1, throwing="2", site="elbow")
    said = text_of(told["said"])
    assert said.startswith("The most that may come next: this session again, with no more than up to the pain, after 2")
    assert "our own judgement" in said
    assert [one["value"] for one in told["decision"]["data"]] == ["repeat", "session_before", "step_back", "stop"]
    assert "no throwing today" in text_of(told_of(desk, 1, before="2", throws="", throwing="")["said"])
    assert "elbow or shoulder, as there is pain" in text_of(told_of(desk, 1, throwing="2", site="")["said"])
    stopped = told_of(desk, 1, before="0", urgent="cold_hand")
    assert text_of(stopped["said"]).startswith("Urgent care now")
    assert stopped["decision"]["data"] == []


def test_to_a_session_before_the_last_nothing_is_decided_any_more(desk, made):
    desk.keep(logged(made(), "go_on", "go_on"))
    told = told_of(desk, 0)
    assert told["decision"] == {"data": [], "description": "decided already"}


def test_without_a_session_there_is_no_draft(made):
    assert draft_of(course_of(made()), 7, {}) is None
    with pytest.raises(InputError, match="Session"):
        read(logged(made(), "stop"), at=1)
    assert sessions_of(None) == []
    assert session_of("99x", course_of(made())) is None
