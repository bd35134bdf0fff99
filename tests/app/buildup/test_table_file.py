"""The table of sessions, read back as a spreadsheet would."""

import csv
import io
from dataclasses import replace

import pytest

from app.buildup.record import course_of
from app.buildup.table_file import file_name, sessions_table
from tests.app.buildup.conftest import TODAY
from tests.app.buildup.test_edits import logged


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


def test_a_session_that_was_thrown_stands_with_what_was_said_of_it(made):
    rows = rows_of(course_of(logged(made(), "advance", "repeat")))
    assert [row["state"] for row in rows[:3]] == ["thrown", "thrown", "to come"]
    assert [row["decision"] for row in rows[:3]] == ["advance", "repeat", ""]
    assert (rows[0]["pain_before"], rows[0]["speed_held"], rows[0]["by"]) == ("0", "", "AB")
    assert [row["session"] for row in rows] == [str(i + 1) for i in range(len(rows))]


def test_a_text_is_no_formula_to_a_spreadsheet(made):
    record = logged(made(), "advance")
    record = replace(record, code="=1+1", log=(replace(record.log[0], note='@x, "y"'),))
    rows = rows_of(course_of(record))
    assert rows[0]["athlete"] == "'=1+1"
    assert rows[0]["note"] == '\'@x, "y"'


def test_a_files_name_holds_letters_digits_and_dashes_whatever_the_code_does(made):
    record = made()
    assert file_name(record, TODAY, "csv") == "levelpeak_W01_build-up_2026-03-02.csv"
    assert file_name(replace(record, code="../a b"), TODAY, "ics") == "levelpeak_a-b_build-up_2026-03-02.ics"
    assert file_name(replace(record, code=""), TODAY, "json") == "levelpeak_build-up_2026-03-02.json"
