"""The tables: read back by other software they hold what the page shows, and nothing in them is run."""

import csv
import io
from dataclasses import replace
from datetime import date

import numpy as np
import pandas as pd
import pytest

from app.commands.curve import columns_of
from app.pages.compare.along.tables import curves_table, file_name, quantity_column, readings_table, unit_name
from app.pages.compare.answers import Thrower
from app.show.quantities import reading_named
from model.readouts import QUANTITIES

SIX_DIGITS = 5e-6  # relative: half of the last of six significant digits, at most


def records(text: str) -> list[dict[str, str]]:
    """A table read by the standard library."""
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


@pytest.fixture
def two(make_answer, make_comparison):
    """A reference of 80 N·m and a heavier ball of 72."""
    heavy = make_answer(2, 0.275, 28.5, peak=72.0, loaded_s=0.115, area=5.2, rise_rate=890.0)
    return make_comparison(make_answer(1, reference=True), heavy)


def test_the_curves_are_those_of_the_command_line(compare_on):
    comparison = compare_on()
    table = pd.read_csv(io.StringIO(curves_table(comparison, every=True, invented={""})))
    assert table["throw"].unique().tolist() == [1, 2, 3, 4]
    for answer in comparison.drawn:
        rows, wanted = table[table["throw"] == answer.number], columns_of(answer.curves.throw)
        channels = [name for name in wanted if name in table.columns and name not in ("phase",)]
        assert len(channels) == 16  # 7 torques, 6 joint forces, 3 of the ball on the hand
        for name in ("phase", *channels):
            np.testing.assert_allclose(rows[name], wanted[name], rtol=SIX_DIGITS, atol=1e-9, err_msg=name)
        np.testing.assert_allclose(rows["time_ms"], 1000.0 * wanted["time_s"], rtol=SIX_DIGITS, atol=1e-9)
    assert (table.loc[table["phase"] == 1.0, "time_ms"] == 0.0).all()
    assert set(table["note"]) == {"invented demo data"}


def test_the_chosen_quantity_has_its_sign_in_its_name(make_answer, make_comparison):
    answer = make_answer(1, reference=True)
    shown = make_comparison(answer, quantity="elbow_extension")
    table = pd.read_csv(io.StringIO(curves_table(shown, every=False, invented=())))
    assert table.columns.tolist() == [
        "athlete", "throw", "ball_mass_g", "ball_diameter_mm", "release_speed_m_s", "held", "time_ms", "phase",
        "elbow_extension_torque_nm", "note",
    ]  # fmt: skip
    both = pd.read_csv(io.StringIO(curves_table(shown, every=True, invented=())))
    assert (table["elbow_extension_torque_nm"] == -both["elbow_flexion_torque_nm"]).all()
    assert table["elbow_extension_torque_nm"].abs().max() > 0.0


def test_every_quantity_has_a_name_with_its_unit():
    names = {key: quantity_column(reading_named(key)) for key in QUANTITIES}
    assert all(name.endswith("_nm" if QUANTITIES[key].unit == "N·m" else "_n") for key, name in names.items())
    assert names["horizontal_abduction"] == "horizontal_abduction_torque_nm"
    assert names["shoulder_posterior"] == "shoulder_posterior_force_n"
    assert names["ball_x"] == "ball_force_on_hand_x_n"
    assert [unit_name(unit) for unit in ("N·m/s", "N·m·s", "%BW·H", "ms before release")] == [
        "nm_s", "nms", "percent_bwh", "ms_before_release",
    ]  # fmt: skip


def test_each_reading_comes_with_its_difference_to_and_per_cent_of_the_reference(two):
    reference, heavy = records(readings_table(two, invented=()))
    assert [reference["reference"], heavy["reference"]] == ["yes", "no"]
    assert heavy["reference_is"] == "measured 2026-01-13"
    assert heavy["quantity"] == "varus torque"
    wanted = {
        "ball_mass_g": 275, "ball_diameter_mm": 73, "release_speed_m_s": 28.5,
        "peak_nm": 72, "peak_nm_difference": -8, "peak_percent_of_reference": 90,
        "time_loaded_ms": 115, "time_loaded_ms_difference": 15, "time_loaded_percent_of_reference": 115,
        "half_height_width_ms": 67, "half_height_width_ms_difference": 0, "half_height_width_percent_of_reference": 100,
        "area_nms": 5.2, "area_nms_difference": 0.2, "area_percent_of_reference": 104,
        "rise_rate_nm_s": 890, "rise_rate_nm_s_difference": -110, "rise_rate_percent_of_reference": 89,
        "peak_ms_before_release": 26, "level_nm": 40,
    }  # fmt: skip
    for name, number in wanted.items():
        assert float(heavy[name]) == pytest.approx(number, rel=SIX_DIGITS, abs=1e-9), name
    # 100 * 72 / (90 kg * 9.80665 m/s² * 1.88 m)
    assert float(heavy["peak_percent_bwh"]) == pytest.approx(4.3392, abs=5e-5)
    assert float(reference["peak_percent_of_reference"]) == 100.0
    assert "work_given_out_j" not in heavy  # nothing turns about the axis of varus


def test_work_is_given_where_a_joint_turns(compare_on):
    (first, *_) = records(readings_table(compare_on(quantity="internal_rotation"), invented={""}))
    assert float(first["work_given_out_j"]) > 0.0
    assert first["note"] == "invented demo data"


def test_without_a_reference_nothing_is_compared(make_answer, make_comparison):
    (alone,) = records(readings_table(make_comparison(make_answer(1), level=None), invented=()))
    compared = [name for name in alone if name.endswith(("_difference", "_percent_of_reference"))]
    assert len(compared) == 12  # two for each of six sizes that can be compared
    assert {alone[name] for name in (*compared, "reference_is", "level_nm", "note")} == {""}
    assert float(alone["peak_nm"]) == 80.0


def test_a_throw_says_how_it_is_held(make_answer, make_comparison):
    answer = make_answer(1)
    held = replace(answer, throw=replace(answer.throw, hold="clock", value=0.92))
    assert records(readings_table(make_comparison(held), ()))[0]["held"] == "same clock 92 %"
    assert records(readings_table(make_comparison(answer), ()))[0]["held"] == "release speed"


@pytest.mark.parametrize(
    ("code", "cell"),
    [
        ("=1+1", "'=1+1"),
        ("+SUM(A1)", "'+SUM(A1)"),
        ("-2+3", "'-2+3"),
        ("@x", "'@x"),
        ('=HYPERLINK("a","b")', '\'=HYPERLINK("a","b")'),
        ('a,"b"', 'a,"b"'),
        ("Žofie", "Žofie"),
        ("-7", "-7"),
    ],
)
def test_a_code_is_never_run_as_a_formula_and_comes_back_whole(two, code, cell):
    named = replace(two, throwers=two.throwers | {"": Thrower(code)})
    for text in (readings_table(named, ()), curves_table(named, False, ())):
        assert {row["athlete"] for row in records(text)} == {cell}
        assert set(pd.read_csv(io.StringIO(text), dtype={"athlete": str})["athlete"]) == {cell}


def test_lines_end_and_are_as_long_as_rfc_4180_has_them(two):
    for text in (readings_table(two, {""}), curves_table(two, True, {""})):
        assert text.endswith("\r\n")
        assert text.count("\n") == text.count("\r\n") == text.count("\r")
        lengths = {len(row) for row in csv.reader(io.StringIO(text, newline=""), strict=True)}
        assert len(lengths) == 1


def test_a_file_is_named_after_code_quantity_and_day_and_nothing_else_can_get_in(two):
    day = date(2026, 3, 1)
    called = {
        "W01": "levelpeak_W01_varus_2026-03-01.png",
        "": "levelpeak_varus_2026-03-01.png",
        "../../etc": "levelpeak_etc_varus_2026-03-01.png",
        'a b/c\\d:"e"': "levelpeak_a-b-c-d-e_varus_2026-03-01.png",
    }
    for code, name in called.items():
        assert file_name(replace(two, throwers=two.throwers | {"": Thrower(code)}), day, "png") == name
    assert file_name(two, day, "csv", "curves", "all") == "levelpeak_X1_all_curves_2026-03-01.csv"
