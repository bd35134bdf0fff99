"""The check table: every row is what it says, failures are told as plainly as successes, and nothing is left out."""

from dataclasses import replace

import numpy as np
import pytest

from model.ball import Ball
from model.check_table import MAN, REFERENCE, check_table
from model.comparison import STANDINGS, USUAL_HZ, Comparison, cut_off_of, peak_of, views_of
from model.published import values
from model.readouts import read_curves
from model.throw import Throw, curves

ROWS = check_table()
GROUPS = ["levels", "forces", "speeds and angles", "timing", "efforts", "balls"]


def rows_of(source: str) -> list[Comparison]:
    return [row for row in ROWS if row.sources[0] == source]


def test_every_group_is_there_and_every_row_names_a_row_in_print():
    assert list(dict.fromkeys(row.group for row in ROWS)) == GROUPS
    for row in ROWS:
        assert set(row.sources) <= set(values())
        assert row.status == values()[row.sources[0]].status
        assert np.isfinite([row.raw, row.seen]).all(), row.what
        assert 1 <= len(row.throws) <= 2
        assert row.note
        assert row.source_in_short[-4:].isdigit() or row.source_in_short


def test_what_is_printed_is_the_number_of_its_row_with_the_spread_of_its_row():
    (row,) = rows_of("1-kinetics-53")
    assert (row.printed, row.spread) == (79.2, 16.9)
    row = rows_of("1-kinetics-03")[0]
    assert (row.printed, row.spread, row.sources) == (1090.0, 110.0, ("1-kinetics-03", "1-kinetics-13"))
    assert row.source_in_short == "Fleisig 1995"


def test_raw_is_the_throw_itself_and_seen_the_filtered_one():
    (row,) = rows_of("1-kinetics-53")
    alone = read_curves(curves(Throw(MAN, Ball(0.145), 37.0)), "varus").peak
    assert row.raw == pytest.approx(alone, rel=2e-3)
    assert row.seen < row.raw
    assert row.seen == peak_of("varus")(views_of(MAN, Ball(0.145), 37.0, row.cut_off_hz)[1])
    assert row.distance_sd == pytest.approx((row.seen - 79.2) / 16.9)


def test_what_was_in_view_is_marked_and_predictions_are_not():
    for row in ROWS:
        if row.group in ("speeds and angles", "timing"):
            assert row.calibrated, row.what
        if row.group in ("efforts", "balls"):
            assert not row.calibrated, row.what
    ratios = [row for row in ROWS if row.what.startswith("internal rotation over")]
    assert [row.calibrated for row in ratios] == [row.throws == (REFERENCE,) for row in ratios] == [True, False, False]
    assert {row.sources[0] for row in ROWS if row.in_band} == {"4-effort-distance-09", "4-effort-distance-11"}


def test_known_failures_are_told():
    failed = {row.sources[0] for row in ROWS if row.agrees is False}
    assert {"1-kinetics-11", "1-kinetics-60", "1-kinetics-10", "1-kinetics-43"} <= failed
    (order,) = [row for row in ROWS if row.what.startswith("shoulder over elbow")]
    assert order.agrees is False
    assert order.is_direction


def test_what_hangs_on_the_end_of_the_record_is_not_judged():
    held_back = {row.sources[0] for row in ROWS if row.agrees is None}
    assert held_back == {"1-kinetics-05", "1-kinetics-06"}


@pytest.mark.parametrize(
    ("changes", "standing", "agrees"),
    [
        ({"printed": 10.0, "spread": 2.0, "seen": 11.9}, "within 1 SD", True),
        ({"printed": 10.0, "spread": 2.0, "seen": 7.9}, "within 2 SD", True),
        ({"printed": 10.0, "spread": 2.0, "seen": 13.9}, "within 2 SD", True),
        ({"printed": 10.0, "spread": 2.0, "seen": 14.1}, "beyond 2 SD", False),
        ({"printed": 10.0, "seen": 12.4}, "near", True),  # no spread in print: what laboratories differ by, a quarter
        ({"printed": 10.0, "seen": 12.6}, "far", False),
        ({"low": 1.0, "high": 2.0, "seen": 2.1}, "outside", False),
        ({"low": 1.0, "high": 2.0, "seen": 1.5}, "inside", True),
        ({"low": 0.0, "high": np.inf, "seen": -1.0}, "outside", False),
        ({"low": -np.inf, "high": 0.0, "seen": -1.0}, "inside", True),
        ({"low": 0.0, "high": np.inf, "seen": -1.0, "testable": False}, "cannot be tested", None),
    ],
)
def test_agreement_is_within_two_spreads_the_range_or_the_direction(changes, standing, agrees):
    nothing = {"spread": np.nan, "low": np.nan, "high": np.nan, "printed": np.nan}
    row = replace(ROWS[0], **(nothing | changes))
    assert row.standing == standing
    assert standing in STANDINGS
    assert row.agrees is agrees


def test_a_cut_off_is_that_of_the_sources_laboratory_or_the_usual_one_and_the_row_says_which():
    assert cut_off_of("1-kinetics-01") == (13.4, True)  # Fleisig: recalled
    assert cut_off_of("1-kinetics-53") == (USUAL_HZ, False)  # Solomito: not known
    for row in ROWS:
        assert (row.cut_off_hz, row.cut_off_known) == cut_off_of(row.sources[0])


def test_a_change_is_of_the_first_throw_against_the_second():
    (row,) = [row for row in ROWS if row.sources[0] == "3-ball-mass-10"]
    heavy, light = row.throws
    assert (heavy[1].mass_kg, light[1].mass_kg) == (0.142, 0.113)
    peaks = [read_curves(curves(Throw(*throw)), "varus").peak for throw in row.throws]
    assert row.raw == pytest.approx(100.0 * (peaks[0] / peaks[1] - 1.0), abs=0.05)


def test_directions_of_ball_and_effort_are_predicted():
    for row in ROWS:
        if row.group in ("efforts", "balls") and row.unit == "%":
            assert row.agrees, (row.what, row.seen)
