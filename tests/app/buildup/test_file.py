"""A plan as a file: what is written opens again as it was, and anything else is refused with words."""

import base64
import copy
import json
from contextlib import suppress
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.buildup import edits
from app.buildup.answers import make
from app.buildup.checks import check_form
from app.buildup.edits import MOST_LOGGED
from app.buildup.file import LARGEST_BYTES, FileError, from_json, read_upload, text_of, to_json
from app.buildup.form import PlanForm
from app.buildup.record import course_of
from app.buildup.words import purpose
from app.systems import METRIC
from model.calendar_plan import ByHand
from tests.app.buildup.conftest import TODAY, case_for
from tests.app.buildup.test_edits import logged


def uploaded(text: str) -> str:
    return "data:application/json;base64," + base64.b64encode(text.encode()).decode()


@pytest.fixture
def full(made):
    """A plan with everything in it that a plan can have."""
    record = logged(made("W04", target_day="2026-06-01", cap_peak="40"), "advance", "repeat", "stop")
    record = edits.take_up_again(record, date(2026, 4, 1), TODAY)
    record = edits.change_session(record, record.at + 1, date(2026, 5, 1), 9, TODAY)
    return replace(edits.acknowledge(record, "CD", TODAY), refused="0123456789abcdef")


def test_a_plan_opens_as_it_was_saved_without_anything_of_the_other_pages(full):
    opened = read_upload(uploaded(text_of(full)))
    assert opened == full
    assert course_of(opened).schedule == course_of(full).schedule


def test_what_the_browser_keeps_is_plain_json(full):
    assert from_json(json.loads(json.dumps(to_json(full)))) == full


def test_a_plan_keeps_the_mark_of_one_who_is_still_growing_and_one_of_before_it_has_none(full):
    marked = replace(full, person=replace(full.person, still_growing=True))
    kept = json.loads(json.dumps(to_json(marked)))
    assert from_json(kept).person.still_growing is True
    del kept["person"]["still_growing"]
    assert from_json(kept) == full
    kept["person"]["still_growing"] = "yes"
    with pytest.raises(FileError, match="still_growing: 'yes' given; accepted: True or False"):
        from_json(kept)


def test_the_longest_plan_fits_into_the_largest_file(made):
    record = made(aim="in_season", repeats="30")
    record = replace(record, log=(replace(logged(record, "repeat").log[0], note="é" * 200),) * MOST_LOGGED)
    assert len(text_of(record).encode()) < LARGEST_BYTES
    assert read_upload(uploaded(text_of(record))) == record


@pytest.mark.parametrize(
    ("contents", "said"),
    [
        (None, "no file came"),
        (3, "no file came"),
        ("", "no file came"),
        ("data:;base64,%%%", "no JSON"),
        (uploaded(""), "no JSON"),
        (uploaded("[" * 100_000), "no JSON"),
        ("data:;base64," + base64.b64encode(b"\xff\xfe\x00").decode(), "no JSON"),
        (uploaded("[]"), "no build-up plan"),
        (uploaded('{"kind": "other"}'), "no build-up plan"),
        (uploaded('{"kind": "levelpeak build-up", "version": 99}'), "another version"),
        (uploaded('{"kind": "levelpeak build-up", "version": 1}'), "no plan holds"),
        (uploaded("x" * LARGEST_BYTES * 2), "accepted: up to 500,000"),
    ],
)
def test_what_is_no_plan_file_is_refused_with_its_reason(contents, said):
    with pytest.raises(FileError, match=said):
        read_upload(contents)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("person", "stature_m"), 188),
        (("person", "stature_m"), True),
        (("person", "x"), 1),
        (("rack",), []),
        (("full_speeds_m_s",), [30.0]),
        (("full_speeds_m_s", 0), float("nan")),
        (("steps",), []),
        (("steps", 0, "share"), 2.0),
        (("steps", 0, "mass_kg"), 0.2),
        (("steps", 0, "sessions"), 1.5),
        (("aim",), "win"),
        (("lead",), "x"),
        (("rises", "peak"), -1.0),
        (("rises", "x"), 0.1),
        (("calendar", "weekdays"), []),
        (("calendar", "weekdays"), [7]),
        (("calendar", "first_day"), "soon"),
        (("calendar", "first_day"), "9999-12-31"),
        (("calendar", "target_day"), "9999-12-01"),  # a day so far off took 14 s to count up to
        (("made_on",), "0001-01-01"),
        (("by_hand", 0, "day"), "0001-01-02"),
        (("log", 0, "day"), "1999-12-31"),
        (("log", 0, "speed_m_s"), float("inf")),
        (("log", 0, "speed_m_s"), 400.0),
        (("log", 0, "throws"), -1),
        (("code",), "a\nb"),
        (("code",), "\ud800"),  # half of a character: no file could be written of it
        (("log", 0, "note"), "\ud800"),
        (("budget", "first_nms"), 0.0),
        (("budget", "x"), 1.0),
        (("by_hand", 0, "session"), -1),
        (("by_hand", 0, "throws"), 1e9),
        (("log", 0, "after", "pain_before"), 11),
        (("log", 0, "after", "speed_held"), "yes"),
        (("log", 0, "after", "signs"), ["sniffles"]),
        (("log", 0, "decision"), "win"),
        (("log", 0, "by"), ""),
        (("log", 0, "note"), "x" * 5000),
        (("log",), [{}] * (MOST_LOGGED + 1)),
        (("read",), {"by": "CD"}),
        (("changed",), ["x"] * 5000),
        (("code",), "x" * 5000),
        (("why",), None),
        (("mark",), "x\r\nSUMMARY:y"),
        (("lifted",), "many"),
    ],
)
def test_a_value_that_no_plan_holds_is_refused(full, path, value):
    kept = to_json(full)
    spot = kept
    for step in path[:-1]:
        spot = spot[step]
    spot[path[-1]] = value
    with pytest.raises(FileError):
        from_json(kept)


def test_a_plan_without_a_reason_for_its_order_opens_and_is_shown(full):
    record = from_json(to_json(full) | {"why": ""})
    assert purpose(course_of(record), METRIC)


def kept_plan() -> dict[str, object]:
    form = PlanForm(aim="ease_off")
    record = make(form, check_form(form, TODAY), case_for(), True, TODAY)
    return to_json(replace(record, by_hand={0: ByHand(throws=3)}))


KEPT = kept_plan()
JUNK = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)


@settings(max_examples=150)
@given(st.sampled_from(sorted(KEPT)), JUNK)
def test_whatever_stands_in_a_plan_it_opens_or_is_refused_and_never_fails(name, junk):
    kept = copy.deepcopy(KEPT) | {name: junk}
    with suppress(FileError):
        course_of(from_json(kept))
