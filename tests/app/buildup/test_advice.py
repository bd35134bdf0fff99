"""After a session: what is typed, what the soreness rules suggest, and the line of the log."""

from datetime import date

import pytest

from app.buildup.advice import after_of, read_pains, suggested_words, thrown_of
from app.buildup.record import course_of
from model.checks import InputError
from model.soreness import suggest
from tests.app.buildup.conftest import TODAY

PAINS = {"before": "0", "after": "0", "morning": ""}
TYPED = {"log_day": "", "days_off": "", "by": "AB", "note": ""}


def test_ratings_are_read_and_what_is_none_is_told_by_name():
    found, problems = read_pains({"before": "2", "after": "2.5", "morning": "eleven"})
    assert found == {"before": 2, "after": None, "morning": None}
    assert problems["after"] == "Pain after: “2.5” given; accepted: whole numbers, 0 to 10."
    assert problems["morning"].startswith("Pain on the next morning: “eleven” given")


@pytest.mark.parametrize("bad", [None, 3, ["x"], "", "  ", "-1", "11", "1e3", "NaN"])
def test_without_pain_before_and_after_there_is_no_suggestion(bad):
    with pytest.raises(InputError, match="Pain before"):
        after_of({"before": bad, "after": "0"}, "yes", [])


def test_signs_and_speed_come_as_they_were_chosen_and_nonsense_is_none():
    after = after_of(PAINS, "no", ["swelling"])
    assert (after.speed_held, after.signs) == (False, ("swelling",))
    assert after_of(PAINS, ["x"], None).speed_held is None
    with pytest.raises(InputError, match="signs"):
        after_of(PAINS, "", ["x"])


@pytest.mark.parametrize(
    ("pains", "said"),
    [
        (PAINS, "Suggested: go on to the next step."),
        ({"before": "0", "after": "2", "morning": "0"}, "Suggested: repeat this step, 1 day off first."),
        ({"before": "2", "after": "2", "morning": "2"}, "Suggested: go back one step, 2 days off first."),
        ({"before": "0", "after": "7", "morning": ""}, "Suggested: rest, and see a licensed clinician"),
    ],
)
def test_the_suggestion_says_what_why_and_its_source(pains, said):
    told = suggested_words(suggest(after_of(pains, "", [])))
    assert told.startswith(said)
    assert "Why: " in told
    assert "Axe, Wickham and Snyder-Mackler 2001" in told or "common practice, no source" in told
    assert ("can only make this more cautious" in told) == (not pains["morning"] and "rest" not in said)


def thrown(course, decision="advance", pains=PAINS, **typed):
    return thrown_of(course, pains, "yes", [], decision, TYPED | typed, TODAY)


def test_a_line_of_the_log_is_of_the_session_that_is_next(made):
    course = course_of(made())
    one, session = thrown(course), course.schedule.sessions[0]
    assert (one.day, one.place, one.ball, one.throws) == (session.day, 0, session.step.ball, session.throws)
    assert one.speed_m_s == session.step.speed_m_s
    assert thrown(course, log_day="2026-03-04").day == date(2026, 3, 4)


def test_days_off_are_those_suggested_unless_typed(made):
    course, sore = course_of(made()), {"before": "2", "after": "2", "morning": "2"}
    assert thrown(course, "step_back", sore).days_off == 2
    assert thrown(course, "step_back", sore, days_off="5").days_off == 5


@pytest.mark.parametrize(
    ("decision", "typed", "field"),
    [
        (None, {}, "What is decided"),
        ("win", {}, "What is decided"),
        ("advance", {"by": " "}, "Initials"),
        ("advance", {"by": "x" * 20}, "Initials"),
        ("advance", {"log_day": "soon"}, "Day"),
        ("advance", {"log_day": "1999-01-01"}, "Day"),
        ("advance", {"days_off": "61"}, "Days off"),
        ("advance", {"days_off": "1.5"}, "Days off"),
        ("advance", {"note": "x" * 201}, "Note"),
        ("advance", {"note": "a\x00b"}, "Note"),
    ],
)
def test_what_is_missing_or_wrong_is_refused_by_its_field(made, decision, typed, field):
    with pytest.raises(InputError, match=field):
        thrown(course_of(made()), decision, **typed)
