"""Columns of intervals: every readout with a band has one, and `readouts --band` writes what the model says."""

import csv
from pathlib import Path

import pytest

from app.commands.band_columns import FIRST, band_readouts, interval_names
from app.commands.readout_columns import result_names
from app.main import main
from model.ball import Ball
from model.band_table import KEYS
from model.drawn_throws import Subject, Thrown
from model.person import Person
from model.structural_band import levels

HEADER = "athlete,sex,age_years,stature_cm,body_mass_kg,ball_mass_g,ball_diameter_mm,speed_m_s"


def test_every_readout_with_a_band_has_a_stem_of_its_own():
    every = band_readouts(every=True)
    assert {one.key for one in every} == set(KEYS)
    assert len({one.stem for one in every}) == len(KEYS)
    assert tuple(one.stem for one in band_readouts(every=False)) == FIRST


def test_a_stem_and_its_unit_make_the_column_of_the_readout():
    names = result_names()
    for one in band_readouts(every=True):
        assert f"{one.stem}_{one.unit}" in names
    assert not interval_names() & names


def test_low_and_high_are_those_of_the_model(tmp_path: Path):
    throws, out = tmp_path / "throws.csv", tmp_path / "out.csv"
    throws.write_text(f"{HEADER}\nW01,male,20,183,84,275,73,28.5\nW01,male,20,183,84,275,73,x\n", encoding="utf-8")
    assert main(["readouts", str(throws), "-o", str(out), "--band"]) == 1
    with out.open(encoding="utf-8", newline="") as file:
        good, bad = csv.DictReader(file)
    subject = Subject(Person("male", 1.83, 84.0, 20.0), Ball(0.145), 28.5)
    found = levels(subject, Thrown(Ball(0.275), 28.5), [("varus", "peak"), ("varus", "loaded_s")])
    peak, loaded = found.values()
    assert float(good["peak_varus_low_nm"]) == pytest.approx(peak.low, rel=1e-5)
    assert float(good["peak_varus_high_nm"]) == pytest.approx(peak.high, rel=1e-5)
    assert float(good["loaded_low_ms"]) == pytest.approx(1e3 * loaded.low, rel=1e-5)
    assert peak.low < float(good["peak_varus_nm"]) < peak.high
    assert bad["peak_varus_low_nm"] == ""
    assert bad["error"]


def test_without_the_switch_there_are_no_intervals(tmp_path: Path):
    throws, out = tmp_path / "throws.csv", tmp_path / "out.csv"
    throws.write_text(f"{HEADER}\nW01,male,20,183,84,275,73,28.5\n", encoding="utf-8")
    assert main(["readouts", str(throws), "-o", str(out)]) == 0
    assert "_low_" not in out.read_text(encoding="utf-8").splitlines()[0]
