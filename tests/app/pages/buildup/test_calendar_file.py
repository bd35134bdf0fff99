"""The calendar file, read back with the `icalendar` library, and held against RFC 5545 by its octets."""

import math
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from icalendar import Calendar as ICalendar

from app.pages.buildup import edits, log_edits
from app.pages.buildup.calendar_file import calendar_text
from app.pages.buildup.course import course_of
from app.show.cautions import CAUTIONS, GROWING
from app.units.systems import CUSTOMARY
from tests.app.pages.buildup.conftest import COACH, FINE, TODAY, keep, logged, pain, thrown

NOW = datetime(2026, 3, 2, 12, 30, 5, tzinfo=UTC)


@pytest.fixture
def course(made):
    return course_of(made(order="heavy"))


def events(course, with_code=False, **more):
    read = ICalendar.from_ical(calendar_text(course, NOW, with_code, **more))
    assert read.errors == []
    return read.walk("VEVENT")


def test_there_is_one_event_of_a_whole_day_for_each_session(course):
    found = events(course)
    assert len(found) == len(course.schedule.sessions)
    for event, session in zip(found, course.schedule.sessions, strict=True):
        assert event.errors == []
        assert event.decoded("DTSTART") == session.day
        assert type(event.decoded("DTSTART")) is date
        assert event.decoded("DTEND") == session.day + timedelta(days=1)
        assert event.decoded("DTSTAMP") == NOW
        said = str(event["SUMMARY"])
        cap = math.floor(10.0 * session.step.speed_m_s + 1e-6) / 10.0  # not to be gone beyond: rounded down
        ball = f"{1000.0 * session.step.ball.mass_kg:g} g"
        assert said == f"{ball}, up to {cap:.1f} m/s, {session.throws} throws"
        assert all(caution in str(event["DESCRIPTION"]) for caution in CAUTIONS)
        assert "growing" not in str(event["DESCRIPTION"])


def test_the_file_is_a_calendar_as_the_standard_wants_it(course):
    text = calendar_text(course, NOW, True)
    head = ICalendar.from_ical(text)
    assert (str(head["VERSION"]), "Levelpeak" in str(head["PRODID"])) == ("2.0", True)
    lines = text.encode().split(b"\r\n")
    assert lines[-1] == b""
    assert b"\n" not in b"".join(lines)
    assert max(map(len, lines)) <= 75  # RFC 5545, 3.1
    for line in lines:
        line.decode()  # no letter is broken in two


def test_an_event_keeps_its_name_when_the_file_is_made_again_and_no_two_share_one(made, course):
    names = [str(event["UID"]) for event in events(course)]
    assert len(set(names)) == len(names)
    assert [str(event["UID"]) for event in events(course, with_code=True)] == names
    after = course_of(logged(course.record, "go_on"))
    assert [str(event["UID"]) for event in events(after)] == names[1:]
    changed = edits.change_session(course.record, 2, None, 5, TODAY)
    assert [str(event["UID"]) for event in events(course_of(changed))] == names


def test_the_code_stands_in_it_only_if_it_is_wanted_and_no_measure_ever_does(course):
    bare, named = calendar_text(course, NOW, False), calendar_text(course, NOW, True)
    assert "W01" not in bare
    assert str(events(course, with_code=True)[0]["SUMMARY"]).startswith("W01: ")
    assert "183" not in named.replace("\r\n ", "")


def test_marks_of_the_format_in_a_code_stay_marks_of_the_code(made):
    course = course_of(replace(made(aim="in_season"), code="a;b,c\\n:ü" * 8))
    assert str(events(course, with_code=True)[0]["SUMMARY"]).startswith("a;b,c\\n:ü" * 8 + ": ")


def test_units_are_the_readers(course):
    assert "16.58 oz, up to" in str(events(course, system=CUSTOMARY)[0]["SUMMARY"])  # 470 g / 28.3495 g


def test_a_growing_throwers_events_carry_the_caution_about_growing_throwers_first(made):
    said = str(events(course_of(made("W04")))[0]["DESCRIPTION"])
    assert said.startswith(GROWING[0])


def test_a_plan_without_sessions_left_is_an_empty_calendar(made):
    assert events(course_of(logged(made(), "stop"))) == []


def handed_out(record):
    """The plan once its calendar was saved."""
    course = course_of(record)
    return log_edits.handed_out(record, len(record.log) + len(course.schedule.sessions))


def test_under_a_stop_sign_the_file_cancels_every_event_that_was_handed_out(made):
    out = handed_out(made())
    names = [str(event["UID"]) for event in events(course_of(made()))]
    record = keep(out, thrown(out, "", replace(FINE, signs=("swelling",))))
    text = calendar_text(course_of(record), NOW, False)
    read = ICalendar.from_ical(text)
    assert str(read["METHOD"]) == "CANCEL"
    found = read.walk("VEVENT")
    assert [str(event["UID"]) for event in found] == names[1:]  # the first was thrown
    assert {str(event["STATUS"]) for event in found} == {"CANCELLED"}
    assert all("stop sign stands" in str(event["DESCRIPTION"]) for event in found)
    assert {int(event["SEQUENCE"]) for event in found} == {1}  # later than those of the first file


def test_while_pain_is_open_the_next_session_stays_and_the_others_are_cancelled(made):
    out = handed_out(made())
    course = course_of(keep(out, thrown(out, "repeat", pain(throwing=2))))
    found = events(course)
    assert "METHOD" not in ICalendar.from_ical(calendar_text(course, NOW, False))
    assert [str(event.get("STATUS", "")) for event in found] == ["", *["CANCELLED"] * (len(found) - 1)]
    assert len(found) == sum(made().repeats) - 1


def test_a_plan_in_the_place_of_another_cancels_what_stands_in_a_calendar_of_that(made):
    old = handed_out(made())
    new = log_edits.took_over(made(order="heavy"), old)
    found = events(course_of(new))
    gone = [event for event in found if str(event.get("STATUS", "")) == "CANCELLED"]
    assert len(gone) == sum(old.repeats)
    assert len(found) - len(gone) == sum(new.repeats)


def test_what_was_never_handed_out_is_not_cancelled(made):
    assert events(course_of(log_edits.enter_sign(made(), "swelling", TODAY, COACH))) == []


def test_two_athletes_without_a_code_share_no_event(made):
    names = [
        {str(event["UID"]) for event in events(course_of(replace(made(code), code="")))} for code in ("W01", "W02")
    ]
    assert not names[0] & names[1]
