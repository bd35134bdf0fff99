"""`levelpeak compare`: each throw held against its athlete's reference throw, with and without what is not known."""

import csv
from pathlib import Path

import pytest

from app.main import main
from model.ball import Ball
from model.drawn_throws import Subject, Thrown
from model.person import Person
from model.structural_band import differences

HEADER = "athlete,sex,age_years,stature_cm,body_mass_kg,ball_mass_g,ball_diameter_mm,speed_m_s"
OWN, HEAVY = "W01,male,20,183,84,145,73,33", "W01,male,20,183,84,275,73,28.5"
GIRL = "W09,female,15,165,55,142,73,22"
PARTS = ("difference_percent", "low_percent", "high_percent", "probability_more")


def compared(folder: Path, text: str, *words: str) -> tuple[int, list[dict[str, str]]]:
    throws, out = folder / "throws.csv", folder / "out.csv"
    throws.write_text(text, encoding="utf-8")
    status = main(["compare", str(throws), "-o", str(out), *words])
    with out.open(encoding="utf-8", newline="") as file:
        return status, list(csv.DictReader(file, strict=True))


def expected(key) -> list[float]:
    person = Person("male", 1.83, 84.0, 20.0)
    reference = Thrown(Ball(0.145), 33.0)
    subject = Subject(person, reference.ball, 33.0)
    found = differences(subject, [Thrown(Ball(0.275), 28.5)], reference, [key])[0][key]
    return [100.0 * found.best, 100.0 * found.low, 100.0 * found.high, found.probability_more]


@pytest.mark.parametrize(
    ("stem", "key"),
    [
        ("peak_varus", ("varus", "peak")),
        ("loaded", ("varus", "loaded_s")),
        ("half_height", ("varus", "half_height_s")),
        ("area", ("varus", "area")),
        ("rise", ("varus", "rise_rate")),
        ("peak_internal_rotation", ("internal_rotation", "peak")),
        ("peak_shoulder_force", ("shoulder_proximal", "peak")),
        ("peak_elbow_force", ("elbow_proximal", "peak")),
    ],
)
def test_the_first_row_of_an_athlete_is_the_reference(tmp_path: Path, stem, key):
    status, (own, heavy) = compared(tmp_path, f"{HEADER}\n{OWN}\n{HEAVY}\n")
    assert status == 0
    assert [float(heavy[f"{stem}_{part}"]) for part in PARTS] == pytest.approx(expected(key), rel=1e-4)
    assert [float(own[f"{stem}_{part}"]) for part in PARTS] == [0.0] * 4


def test_from_the_speeds_alone_an_exact_speed_leaves_nothing_open(tmp_path: Path):
    _, (_, heavy) = compared(tmp_path, f"{HEADER}\n{OWN}\n{HEAVY}\n")
    radar = {part: float(heavy[f"peak_varus_{part}_radar"]) for part in PARTS}
    assert radar["low_percent"] == radar["high_percent"] == radar["difference_percent"]
    assert radar["difference_percent"] == float(heavy["peak_varus_difference_percent"]) < 0.0
    assert radar["probability_more"] == 0.0
    assert 0.05 < float(heavy["peak_varus_probability_more"]) < 0.15


def test_a_speed_with_a_standard_deviation_widens_both(tmp_path: Path):
    _, (_, exact, read) = compared(tmp_path, f"{HEADER},speed_sd_m_s\n{OWN},\n{HEAVY},\n{HEAVY},1.0\n")

    def width(row, end=""):
        return float(row[f"peak_varus_high_percent{end}"]) - float(row[f"peak_varus_low_percent{end}"])

    assert width(exact, "_radar") == 0.0
    # peak but for weight goes with the square of the speed: 2 x 1 / 28.5 of 0.92, 1.645 either way
    assert width(read, "_radar") == pytest.approx(2 * 1.645 * 2 / 28.5 * 92.0, rel=0.1)
    assert width(read) > width(exact)


def test_a_marked_row_is_the_reference_wherever_it_stands(tmp_path: Path):
    text = f"{HEADER},reference\n{HEAVY},\n{GIRL},yes\n{OWN},1\n{HEAVY},0\n"
    _, (first, girl, own, last) = compared(tmp_path, text)
    assert own["peak_varus_difference_percent"] == "0"
    assert girl["peak_varus_difference_percent"] == "0"
    assert first["peak_varus_low_percent"] == last["peak_varus_low_percent"] != "0"


def test_rows_come_out_in_order_with_what_they_carried(tmp_path: Path):
    _, rows = compared(tmp_path, f"note,{HEADER}\na,{OWN}\nb,{GIRL}\nc,{HEAVY}\n")
    assert [row["note"] for row in rows] == ["a", "b", "c"]
    assert [row["athlete"] for row in rows] == ["W01", "W09", "W01"]
    again = "\n".join([",".join(rows[0]), *(",".join(row.values()) for row in rows)])
    _, twice = compared(tmp_path, again + "\n")
    assert twice == rows  # results of an earlier run are replaced


def test_what_was_not_solved_and_what_is_not_claimed_is_told(tmp_path: Path):
    text = f"{HEADER}\n{OWN}\nW01,male,20,183,84,600,73,20\n{HEAVY}\n"
    _, (own, heavier, heavy) = compared(tmp_path, text, "--all")
    assert [row["outside_what_was_solved"] for row in (own, heavier, heavy)] == ["0", "1", "0"]
    braking = "peak_braking_horizontal_abduction"
    assert heavy[f"{braking}_low_percent"] == heavy[f"{braking}_probability_more"] == ""
    assert heavy[f"{braking}_difference_percent"] != ""
    assert heavy[f"{braking}_low_percent_radar"] != ""
    assert own[f"{braking}_low_percent"] == "0"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (f"{HEADER}\n{OWN}\nW01,male,20,183,84,275,73,\n", "speed_m_s: '' given"),
        (f"{HEADER}\nW01,male,20,183,84,145,73,\n{HEAVY}\n", "reference throw of W01 cannot be computed"),
        (f"{HEADER}\n{OWN}\nW01,male,20,184,84,275,73,28\n", "other measures than at the reference throw"),
        (f"{HEADER},reference\n{OWN},yes\n{HEAVY},yes\n", "2 rows of W01"),
        (f"{HEADER},reference\n{OWN},perhaps\n{HEAVY},\n", "reference: 'perhaps' given"),
        (f"{HEADER},speed_sd_m_s\n{OWN},\n{HEAVY},9\n", "speed_sd_m_s: '9' given; accepted: 0 to 5 m/s"),
    ],
)
def test_a_row_that_cannot_be_compared_says_why(tmp_path: Path, text, said, capsys):
    status, rows = compared(tmp_path, text)
    assert status == 1
    assert any(said in row["error"] for row in rows)
    assert all(row["peak_varus_low_percent"] == "" for row in rows if row["error"])
    assert "rows failed; see the column error" in capsys.readouterr().err


def test_a_table_without_its_columns_is_refused(tmp_path: Path, capsys):
    (tmp_path / "throws.csv").write_text("athlete,speed_m_s\nW01,33\n", encoding="utf-8")
    assert main(["compare", str(tmp_path / "throws.csv"), "-o", str(tmp_path / "out.csv")]) == 2
    assert "columns missing: sex" in capsys.readouterr().err
    assert not (tmp_path / "out.csv").exists()
    assert main(["compare", str(tmp_path / "no.csv")]) == 2
