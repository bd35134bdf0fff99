"""A plan as a file: what is written opens again, older ones are read, and anything else is refused with words."""

import base64
import copy
import json
from contextlib import suppress
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pages.buildup import edits, log_edits
from app.pages.buildup.course import course_of
from app.pages.buildup.file import LARGEST_BYTES, FileError, from_json, read_upload, text_of, to_json
from app.pages.buildup.head_words import purpose
from app.pages.buildup.record import MOST_LOGGED, Acknowledgement
from app.units.systems import METRIC
from model.calendar_plan import ByHand
from model.ladder import HELD_DOWN, Most
from model.session_rules import JointPain, Notes
from model.stop_signs import cleared
from tests.app.pages.buildup.conftest import CLINICIAN, COACH, FINE, TODAY, keep, logged, pain, plan_for, thrown


def uploaded(text: str) -> str:
    return "data:application/json;base64," + base64.b64encode(text.encode()).decode()


@pytest.fixture
def full(made):
    """A plan with everything in it that a plan can have."""
    record = made(
        "W06", given=True, aim="after_injury", order="heavy", target_day="2026-06-01", holds="steps", hold_count="3"
    )
    record = logged(record, "go_on", "repeat", "stop")
    record = log_edits.take_up_again(record, date(2026, 4, 1), TODAY)
    record = edits.change_session(record, course_of(record).next.index + 1, date(2026, 5, 1), 9, TODAY)
    record = keep(record, thrown(record, "repeat", pain(throwing=2, next_morning=None), top_speed_m_s=11.0, note="n"))
    record = log_edits.enter_sign(record, "swelling", TODAY, COACH)
    record = replace(record, signs=cleared(record.signs, CLINICIAN), earlier=cleared(record.signs, CLINICIAN))
    most = course_of(record).row.at(record.own_ball, 20.0)
    record = log_edits.handed_out(replace(record, read=Acknowledgement("CD", TODAY)), 30)
    record = replace(
        record,
        by_hand={9: ByHand(date(2026, 5, 1), 9)},
        start_most=Most(20, 80.0, {key: most.metrics[key] for key in HELD_DOWN}),
        notes=("lowered",),
    )
    return replace(record, refused="0123456789abcdef")


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
    with pytest.raises(FileError, match="person still_growing: Input should be a valid boolean"):
        from_json(kept)


def test_the_longest_plan_fits_into_the_largest_file(made):
    record = made(aim="in_season", repeats="30")
    noted = replace(FINE, signs=(), pain=JointPain("shoulder", 1, 1, 1, 0))
    one = replace(logged(record, "repeat").log[0], notes=noted, note="é" * 200, top_speed_m_s=29.123456789)
    record = replace(record, log=(one,) * MOST_LOGGED)
    text = text_of(record)
    assert len(text.encode()) < LARGEST_BYTES
    assert read_upload(uploaded(text)).log == record.log


def first_version(record, log):
    """The plan as the first version of the file had it."""
    old = to_json(record) | {"version": 1, "log": log}
    new = [
        "order",
        "own_early",
        "own_first",
        "reference",
        "asked",
        "first",
        "notes",
        "signs",
        "earlier",
        "start_most",
        "handed_out",
        "calendars",
    ]
    return {name: value for name, value in old.items() if name not in new}


def old_session(record, place, decision="advance", before=0, after=0, morning=0, signs=()):
    step = record.steps[place]
    said = {
        "pain_before": before,
        "pain_after": after,
        "pain_next_morning": morning,
        "speed_held": True,
        "signs": signs,
    }
    ball = {"mass_kg": step.ball.mass_kg, "diameter_m": step.ball.diameter_m}
    kept = {"day": "2026-03-02", "place": place, "ball": ball, "speed_m_s": step.speed_m_s, "throws": 20, "after": said}
    return kept | {"decision": decision, "days_off": 1, "by": "AB", "note": ""}


def test_a_plan_of_the_first_version_opens_with_its_pain_at_a_joint_not_known(made):
    record = made()
    log = [old_session(record, 0), old_session(record, 0), old_session(record, 1, "repeat", after=2, morning=None)]
    opened = from_json(first_version(record, log))
    assert (opened.throws, opened.calendar, opened.mark) == (record.throws, record.calendar, record.mark)
    assert [one.index for one in opened.log] == [0, 1, 2]
    one = opened.log[2]
    assert one.notes.pain == JointPain("unknown", 0, 2, None, None)
    assert (one.decision, one.planned, one.throws, one.role, one.notes.speed_held) == ("repeat", 20, 20, "other", True)
    assert opened.log[0].decision == "go_on"
    assert course_of(opened).standing.most.throws == 20
    assert opened.reference.words == "not known"


@pytest.mark.parametrize(
    ("told", "sign"),
    [
        ({"signs": ("swelling",)}, "swelling"),
        ({"signs": ("loss of motion",)}, "lost_motion"),
        ({"after": 6}, "severe"),
        ({"morning": 1}, "morning_pain"),
    ],
)
def test_a_stop_sign_in_a_plan_of_the_first_version_shuts_it_now(made, told, sign):
    opened = from_json(first_version(made(), [old_session(made(), 0, **told)]))
    assert [one.sign for one in opened.signs] == [sign]
    assert course_of(opened).closed == "stop_sign"


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
        (uploaded('{"kind": "levelpeak build-up", "version": 2}'), "no plan holds"),
        (uploaded("x" * LARGEST_BYTES * 2), "accepted: up to 800,000"),
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
        (("order",), "light"),
        (("own_first",), 2.0),
        (("own_early",), 1),
        (("reference", "kind"), "guess"),
        (("asked", "weeks_off"), -1),
        (("asked", "cleared", "role"), "friend"),
        (("first", "holds"), "long"),
        (("first", "steps"), 1e6),
        (("first", "alone"), {}),
        (("first", "alone", "elbow_peak"), [[0.0, 1.0]]),
        (("first", "ceilings", "elbow_peak", "value"), 0.0),
        (("first", "ceilings"), {"x": {"value": 1.0, "absolute": False}}),
        (("by_hand", 0, "day"), "0001-01-02"),
        (("log", 0, "day"), "1999-12-31"),
        (("log", 0, "speed_m_s"), float("inf")),
        (("log", 0, "speed_m_s"), 400.0),
        (("log", 0, "throws"), -1),
        (("log", 0, "index"), -1),
        (("log", 0, "role"), "friend"),
        (("log", 0, "was_repeat"), "no"),
        (("log", 0, "top_speed_m_s"), 1e9),
        (("code",), "a\nb"),
        (("code",), "\ud800"),  # half of a character: no file could be written of it
        (("log", 0, "note"), "\ud800"),
        (("budget", "first_nms"), 0.0),
        (("budget", "x"), 1.0),
        (("by_hand", 0, "session"), -1),
        (("by_hand", 0, "throws"), 1e9),
        (("log", 0, "notes", "pain", "before"), 11),
        (("log", 0, "notes", "pain", "site"), "knee"),
        (("log", 0, "notes", "soreness", "before"), "yes"),
        (("log", 0, "notes", "speed_held"), "yes"),
        (("log", 0, "notes", "signs"), ["sniffles"]),
        (("log", 0, "decision"), "win"),
        (("log", 0, "by"), ""),
        (("log", 0, "note"), "x" * 5000),
        (("log",), [{}] * (MOST_LOGGED + 1)),
        (("signs", 0, "sign"), "tired"),
        (("signs", 0, "entered"), None),
        (("signs", 0, "plan"), "x\r\nSUMMARY:y"),
        (("start_most", "throws"), "x"),
        (("handed_out", 0, "last"), 10**9),
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


KEPT = to_json(replace(plan_for("W01", True, False, (("aim", "ease_off"),)), by_hand={0: ByHand(throws=3)}))
JUNK = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(sorted(KEPT)), JUNK, st.sampled_from([1, 2]))
def test_whatever_stands_in_a_plan_it_opens_or_is_refused_and_never_fails(name, junk, version):
    kept = copy.deepcopy(KEPT) | {"version": version, name: junk}
    with suppress(FileError):
        course_of(from_json(kept))


def test_notes_of_nothing_are_kept_as_nothing(made):
    record = keep(made(), thrown(made(), "", Notes()))
    assert from_json(to_json(record)).log[0].notes == Notes()
