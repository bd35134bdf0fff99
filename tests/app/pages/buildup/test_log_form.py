"""What is typed after a session: read as far as it can be, kept under its session, and refused by its field."""

import json
from dataclasses import replace

import pytest
from dash.exceptions import PreventUpdate

from app.pages.buildup import ids, log_fields
from app.pages.buildup.course import course_of
from app.pages.buildup.file import to_json
from app.pages.buildup.log_form import (
    NAMES,
    LogForm,
    default_at,
    draft_of,
    form_of,
    key_of,
    logged_of,
    read_kept,
    read_values,
    values_of,
)
from app.show.flat_form import to_json as form_json
from app.units.systems import CUSTOMARY, METRIC
from model.checks import InputError
from model.session_rules import JointPain, Soreness
from tests.app.pages.buildup.conftest import FINE, LATER, keep, logged, pain, text_of, thrown

WHOLE = LogForm(
    throws="20", before="0", throwing="0", hour_after="0", next_morning="0", painkiller="no", decision="go_on", by="AB",
    role="coach", sore_before="no", sore_throwing="no", sore_hour_after="no", sore_next_morning="no",
)  # fmt: skip


def read(record, form=WHOLE, at=None, system=METRIC):
    return logged_of(course_of(record), len(record.log) if at is None else at, form, system, LATER)


def test_a_session_is_what_was_planned_with_what_was_thrown_and_noted(made):
    record = made()
    one, session = read(record), course_of(record).next
    assert (one.day, one.index, one.ball, one.speed_m_s) == (session.day, 0, session.step.ball, session.step.speed_m_s)
    assert (one.planned, one.throws, one.decision, one.by, one.role) == (25, 20, "go_on", "AB", "coach")
    assert one.notes == FINE


def test_a_line_of_the_log_comes_back_into_its_fields_and_out_again(made):
    record = keep(made(), thrown(made(), "repeat", pain(throwing=3, signs=("swelling",)), top_speed_m_s=20.5, note="n"))
    for system in (METRIC, CUSTOMARY):
        again = read(record, form_of(record.log[0], system), 0, system)
        assert replace(again, top_speed_m_s=20.5, decision="repeat", days_off=0) == record.log[0]
        assert again.top_speed_m_s == pytest.approx(20.5, abs=0.03)  # a tenth of a mile an hour is 0.045 m/s


def test_the_highest_speed_is_read_in_the_units_that_are_shown(made):
    assert read(made(), replace(WHOLE, top_speed="50"), system=CUSTOMARY).top_speed_m_s == pytest.approx(50 * 0.44704)
    assert read(made(), replace(WHOLE, top_speed="20,5")).top_speed_m_s == pytest.approx(20.5)


def test_no_session_was_thrown_in_the_future(made):
    record, early = made(first_day="2027-02-01"), course_of(made()).next.day
    one = logged_of(course_of(record), 0, WHOLE, METRIC, early)
    assert one.day == early
    with pytest.raises(InputError, match="Day"):
        logged_of(course_of(record), 0, replace(WHOLE, day="2027-02-01"), METRIC, early)


def test_before_the_first_throw_nothing_was_thrown_unless_it_is_said(made):
    one = read(made(), replace(WHOLE, throws="", before="3", throwing="", hour_after="", site="elbow"))
    assert (one.throws, one.notes.pain) == (0, JointPain("elbow", 3, None, None, 0))


def test_the_session_before_again_is_kept_as_that(made):
    record = logged(made(), "go_on", "go_on", "go_on")
    one = read(record, replace(WHOLE, again="before", sore_before="yes"))
    assert (one.index, one.place, one.was_repeat, one.planned) == (2, 1, True, record.log[-1].planned)
    assert course_of(keep(record, one)).next.index == 3  # and then the one in whose place it was thrown
    with pytest.raises(InputError, match="no session before it"):
        read(made(), replace(WHOLE, again="before"))


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
        read(made(), replace(WHOLE, **change))


def test_a_decision_that_the_rules_do_not_allow_is_none_but_a_clinicians_is(made):
    open_morning = replace(WHOLE, next_morning="")
    assert read(made(), open_morning).decision == ""
    assert read(made(), replace(open_morning, decision="repeat")).decision == "repeat"
    assert read(made(), replace(open_morning, role="clinician")).decision == "go_on"
    severe = replace(WHOLE, throwing="6", site="elbow", role="clinician")
    assert read(made(), severe).decision == ""


def test_days_off_are_no_fewer_than_the_rules_ask_for_unless_a_clinician_says_so(made):
    painful = replace(WHOLE, throwing="2", site="elbow", decision="repeat", days_off="0")
    assert read(made(), painful).days_off == 2
    assert read(made(), replace(painful, days_off="5")).days_off == 5
    assert read(made(), replace(painful, role="clinician")).days_off == 0


def test_of_a_session_before_the_last_what_was_decided_stays(made):
    record = logged(made(), "go_on", "go_on")
    late = replace(
        form_of(record.log[0], METRIC), throwing="2", site="elbow", decision="repeat", by="CD", role="parent"
    )
    one = read(record, late, 0)
    assert (one.decision, one.by, one.role, one.notes.pain.throwing) == ("go_on", "AB", "coach", 2)


def test_the_last_session_is_shown_until_its_morning_and_decision_are_there(made):
    assert default_at(course_of(made())) == 0
    assert default_at(course_of(logged(made(), "go_on"))) == 1
    assert default_at(course_of(logged(made(), ""))) == 0
    open_morning = keep(made(), thrown(made(), "repeat", replace(FINE, pain=JointPain("", 0, 0, 0, None))))
    assert default_at(course_of(open_morning)) == 0


NOTHING = LogForm()
PARTS = [{"type": ids.BUILDUP_LOG_FIELD, "name": name} for name in NAMES]


def fields(form):
    texts = values_of(form)
    return [texts[name] for name in NAMES]


def filled(record, session, kept=None, of=None, form=NOTHING, units="metric"):
    made = log_fields.fill(session, units, to_json(record), kept, of, fields(form), PARTS)
    return made | {"form": read_values(dict(zip(NAMES, made["values"], strict=True)), made["of"]["units"])}


def test_what_is_typed_and_not_kept_yet_comes_back_as_typed_and_under_no_other_session(made):
    record = made()
    kept = json.loads(json.dumps({key_of(record, 0): form_json(replace(WHOLE, note="sore"), 2)}))
    assert filled(record, "0", kept)["form"].note == "sore"
    after = logged(record, "repeat")
    assert filled(after, "1", kept, {"key": key_of(record, 0), "units": "metric"}, WHOLE)["form"] == LogForm(
        by="AB", role="coach"
    )
    other = made(aim="ease_off")
    assert filled(other, "0", kept, {"key": key_of(record, 0), "units": "metric"}, WHOLE)["form"] == LogForm()


def test_a_session_of_the_log_comes_with_what_was_noted(made):
    record = keep(made(), thrown(made(), "repeat", pain(throwing=3)))
    assert filled(record, "0")["form"] == form_of(record.log[0], METRIC)
    assert filled(record, "0")["title"] == "Session 1: fill in or change"


def test_what_is_being_typed_stays_and_its_speed_is_shown_in_other_units(made):
    record = made()
    of = {"key": key_of(record, 0), "units": "metric"}
    with pytest.raises(PreventUpdate):
        filled(record, "0", None, of, WHOLE)
    shown = filled(record, "0", None, of, replace(WHOLE, top_speed="20"), "customary")
    assert shown["form"].top_speed == "44.7"  # 20 / 0.44704
    assert shown["form"].throws == "20"
    assert "mph" in shown["labels"]


def advised(record, form, at=0):
    of = {"key": key_of(record, at), "units": "metric"}
    return log_fields.advise(fields(form), PARTS, of, to_json(record))


def test_what_may_come_next_and_be_decided_is_told_while_it_is_typed(made):
    record = logged(made(), "go_on")
    told = advised(record, replace(WHOLE, throwing="2", site="elbow"), 1)
    said = text_of(told["said"])
    assert said.startswith("The most that may come next: this session again, with no more than up to the pain, after 2")
    assert "our own judgement" in said
    assert [one["value"] for one in told["decisions"]] == ["repeat", "session_before", "step_back", "stop"]
    before = advised(record, replace(WHOLE, before="2", throws="", throwing="", site="elbow"), 1)
    assert "no throwing today" in text_of(before["said"])
    stopped = advised(record, replace(WHOLE, urgent="cold_hand"), 1)
    assert text_of(stopped["said"]).startswith("Urgent care now")
    assert stopped["decisions"] == []
    empty = advised(record, LogForm(), 1)
    assert text_of(empty["said"]).startswith("Enter how it went")
    wrong = advised(record, replace(WHOLE, throwing="x"), 1)
    assert wrong["errors"][NAMES.index("throwing")].startswith("Pain while throwing: “x” given")


def test_to_a_session_before_the_last_nothing_is_decided_any_more(made):
    told = advised(logged(made(), "go_on", "go_on"), WHOLE, 0)
    assert (told["decisions"], told["decision_said"]) == ([], "decided already")


@pytest.mark.parametrize(
    "junk", [None, 3, "x", [], {}, {"version": 2}, {"note": 3}, form_json(LogForm(note="x" * 201), 2)]
)
def test_whatever_the_browser_kept_the_fields_are_filled_or_empty(made, junk):
    record = made()
    assert read_kept(junk, key_of(record, 0)) is None
    assert filled(record, "0", junk)["form"] == LogForm()
    assert filled(record, "0", {key_of(record, 0): junk})["form"] == LogForm()
    for session in (junk, "99x"):
        with pytest.raises(PreventUpdate):
            log_fields.fill(session, "metric", to_json(record), None, None, fields(LogForm()), PARTS)
    assert log_fields.advise([junk] * len(NAMES), PARTS, {"key": key_of(record, 0)}, to_json(record))["said"]


def test_without_a_session_there_is_no_draft(made):
    assert draft_of(course_of(made()), 7, WHOLE, METRIC) is None
    with pytest.raises(InputError, match="Session"):
        read(logged(made(), "stop"), WHOLE, 1)
    assert log_fields.choose(None) == ([], None)
    assert (
        Soreness()
        == read(
            made(),
            replace(
                WHOLE, **dict.fromkeys(["sore_before", "sore_throwing", "sore_hour_after", "sore_next_morning"], "")
            ),
        ).notes.soreness
    )
