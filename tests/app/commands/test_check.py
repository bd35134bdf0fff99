"""`levelpeak check`: the table for people, and as data."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from app.commands.check import lines_of
from app.main import main
from model.check_table import check_table

ROWS = check_table()


@pytest.fixture
def told(capsys) -> str:
    assert main(["check"]) == 0
    return capsys.readouterr().out


def test_every_row_is_printed_with_print_model_and_distance(told: str):
    lines = told.splitlines()
    solomito = next(i for i, line in enumerate(lines) if "Solomito 2013, found (1-kinetics-53)" in line)
    assert lines[solomito - 1].split()[-7:-3] == ["79.2", "±", "16.9", "80.7"]
    assert "model: the reference throw; filter 13.4 Hz, usual" in lines[solomito + 1]
    assert lines[solomito - 1].endswith(" SD")
    assert told.count("\n    model: ") == len(ROWS)


def test_failures_and_what_was_in_view_are_marked(told: str):
    assert "\n!* elbow proximal force, N " in told
    assert "\n?* horizontal-abduction torque after release" in told
    assert "\n * varus torque, N·m " in told
    assert f"Of all {len(ROWS)}, " in told
    assert "Not in the model:\n- The forearm does not turn" in told


def test_directions_are_told_in_words(told: str):
    assert "rises" in told
    assert "falls" in told
    assert "below 3" in told


def test_as_data_every_field_is_there(tmp_path: Path, capsys):
    out = tmp_path / "check.csv"
    assert main(["check", "-o", str(out)]) == 0
    with out.open(encoding="utf-8") as file:
        found = list(csv.DictReader(file))
    assert len(found) == len(ROWS)
    assert found[0]["sources"] == "1-kinetics-53"
    assert float(found[0]["seen"]) == pytest.approx(ROWS[0].seen, rel=1e-5)
    assert (found[0]["stature_m"], found[0]["ball_mass_kg"], found[0]["speed_m_s"]) == ("1.88", "0.145", "37")
    (youth,) = [row for row in found if row["sources"] == "3-ball-mass-10"]
    assert (youth["ball_mass_kg"], youth["against_ball_mass_kg"]) == ("0.142", "0.113")
    assert {row["agrees"] for row in found} == {"yes", "no", "cannot be tested"}
    assert {row["calibrated"] for row in found} == {"yes", "no"}


def test_a_file_that_cannot_be_written_is_named(tmp_path: Path, capsys):
    assert main(["check", "-o", str(tmp_path / "no" / "check.csv")]) == 2
    assert "levelpeak check: " in capsys.readouterr().err
    assert main(["check", "-o", ""]) == 2


def test_a_value_without_spread_is_off_by_per_cent():
    plain = replace(ROWS[0], spread=float("nan"), printed=100.0, seen=120.0)
    assert next(line for line in lines_of([plain]) if "+20 %" in line)
