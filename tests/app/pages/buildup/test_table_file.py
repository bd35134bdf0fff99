"""The table of sessions, read back as a spreadsheet would."""

import csv
import io
from dataclasses import replace

import pytest

from app.pages.buildup.course import course_of
from app.pages.buildup.log_edits import enter_sign
from app.pages.buildup.table_file import file_name, sessions_table
from tests.app.pages.buildup.conftest import COACH, FINE, TODAY, keep, logged, pain, thrown


def rows_of(course):
    text = sessions_table(course)
    assert text.endswith("\r\n")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_there_is_a_line_for_each_session_in_si_units(made):
    course = course_of(made())
    rows = rows_of(course)
    assert len(rows) == len(course.schedule.sessions)
    for row, session in zip(rows, course.schedule.sessions, strict=True):
        step = session.step
        assert (row["day"], row["state"], row["step"]) == (session.day.isoformat(), "to come", str(session.place + 1))
        assert float(row["ball_mass_g"]) == pytest.approx(1000 * step.ball.mass_kg)
        assert float(row["speed_cap_m_s"]) == pytest.approx(step.speed_m_s, rel=1e-5)
        assert float(row["area_nms"]) == pytest.approx(session.throws * step.metrics["area"], rel=1e-5)
        assert float(row["time_loaded_s"]) == pytest.approx(step.metrics["loaded_s"], rel=1e-5)
        assert row["data"] == "invented demo data"


def test_a_session_that_was_thrown_stands_with_what_was_thrown_and_all_that_was_noted(made):
    record = logged(made(), "go_on")
    one = thrown(record, "repeat", pain(throwing=3, hour_after=None), throws=11, top_speed_m_s=20.0, days_off=2)
    rows = rows_of(course_of(keep(record, one)))
    assert [row["state"] for row in rows[:3]] == ["thrown", "thrown", "to come"]
    assert [row["decision"] for row in rows[:3]] == ["go_on", "repeat", ""]
    row = rows[1]
    noted = ("pain_site", "pain_before", "pain_throwing", "pain_hour_after", "painkiller", "by", "role", "days_off")
    assert [row[name] for name in noted] == ["elbow", "0", "3", "", "no", "AB", "coach", "2"]
    assert float(row["share_percent"]) == pytest.approx(100 * record.throws[one.place][1], rel=1e-5)
    assert all(row[name] for name in ("ball_mass_g", "speed_cap_m_s", "elbow_peak_nm", "elbow_area_nms"))
    assert (row["throws"], row["throws_planned"], row["highest_speed_m_s"]) == ("11", "25", "20")
    area = course_of(record).row.at(one.ball, 20.0).metrics["area"]  # no more than was read counts as thrown
    assert float(row["area_nms"]) == pytest.approx(11 * area, rel=1e-5)
    assert [row["session"] for row in rows] == [str(i + 1) for i in range(len(rows))]
    assert len(rows) == 3  # after pain only the next session is planned


def test_every_line_says_reference_state_and_cautions(made):
    rows = rows_of(course_of(made("W06", aim="after_injury")))
    assert {(row["reference_kind"], row["reference_date"], row["plan_state"]) for row in rows} == {
        ("before_injury", "2025-09-02", "open")
    }
    assert all("does not predict injury" in row["cautions"] for row in rows)
    assert "still growing" in rows_of(course_of(made("W04")))[0]["cautions"]
    assert "still growing" not in rows[0]["cautions"]


def test_under_a_stop_sign_nothing_is_to_come_and_each_line_says_so(made):
    record = keep(made(), thrown(made(), "", replace(FINE, signs=("swelling",))))
    rows = rows_of(course_of(record))
    assert [row["state"] for row in rows] == ["thrown"]
    assert rows[0]["plan_state"].startswith("A stop sign stands")
    assert rows[0]["stop_signs"] == "swelling"
    alone = rows_of(course_of(enter_sign(made(), "swelling", TODAY, COACH)))
    assert [(row["state"], row["plan_state"][:17]) for row in alone] == [("closed", "A stop sign stand")]


def test_a_text_is_no_formula_to_a_spreadsheet(made):
    record = logged(made(), "go_on")
    record = replace(record, code="=1+1", log=(replace(record.log[0], note='@x, "y"'),))
    rows = rows_of(course_of(record))
    assert rows[0]["athlete"] == "'=1+1"
    assert rows[0]["note"] == '\'@x, "y"'


def test_a_files_name_holds_letters_digits_and_dashes_whatever_the_code_does(made):
    record = made()
    assert file_name(record, TODAY, "csv") == "levelpeak_W01_build-up_2026-03-02.csv"
    assert file_name(replace(record, code="../a b"), TODAY, "ics") == "levelpeak_a-b_build-up_2026-03-02.ics"
    assert file_name(replace(record, code=""), TODAY, "json") == "levelpeak_build-up_2026-03-02.json"
