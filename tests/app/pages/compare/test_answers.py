"""The numbers behind the page, against the mechanics' own exact scaling."""

import math
from dataclasses import replace
from datetime import date

import pytest

from app.pages.compare.answers import Thrower, bwh_of
from app.pages.compare.picture import level_of, scale_of
from app.pages.compare.table import columns
from app.show.listed_throw import OTHER, ListedThrow
from app.show.numbers import share_of
from app.units.conversion import plain
from model.ball import Ball
from model.readouts import QUANTITIES
from tests.app.pages.compare.conftest import MAN, THROWN, line

X1 = Thrower("X1", MAN)


@pytest.fixture
def of_man(compare_on):
    """Compare throws of a man of 1.88 m and 90 kg: ball mass (g) and speed (m/s) of each, or a line of the list."""

    def compared(*throws, **more):
        lines = [
            one if isinstance(one, ListedThrow) else line(number, one[0] / 1000.0, float(one[1]))
            for number, one in enumerate(throws, start=1)
        ]
        return compare_on(*lines, **({"first": X1} | more))

    return compared


def test_the_reference_thrower_peaks_where_the_adult_groups_do(of_man):
    # adult groups' mean varus torque: 64 to 90 N·m (values.csv 1-kinetics-01, -46, -53; the design page, section 8)
    answer = of_man((145, 37)).answers[0]
    assert 64.0 <= answer.readouts.peak <= 90.0


def test_half_the_speed_lasts_exactly_twice_as_long(of_man):
    # time is phase times T / s: the design page, section 2
    fast, slow = of_man((145, 36), (145, 18)).answers
    assert slow.time_ms()[0] == pytest.approx(2 * fast.time_ms()[0], rel=1e-12)


def test_after_release_the_ball_does_not_matter_at_the_same_speed_of_the_clock(of_man):
    light, heavy = of_man((145, 33), (470, 33)).drawn
    reading = QUANTITIES["shoulder_proximal"]
    after = light.time_ms() > 0
    assert light.value(reading)[after] == pytest.approx(heavy.value(reading)[after], rel=1e-9)


def test_a_reversed_quantity_is_the_same_curve_upside_down(of_man):
    answer = of_man((145, 33)).drawn[0]
    assert (answer.value(QUANTITIES["elbow_extension"]) == -answer.value(QUANTITIES["elbow_flexion"])).all()


def test_a_throw_without_a_speed_leaves_the_curves_of_the_others(of_man):
    comparison = of_man((145, 33), ListedThrow("t2", ball=Ball(0.275)), (95, 35))
    assert [answer.key for answer in comparison.drawn] == ["t1", "t3"]


def test_a_reference_without_a_speed_leaves_the_curves_and_takes_the_per_cent(of_man):
    comparison = of_man(ListedThrow("t1", ball=Ball(0.145)), (275, 28.5))
    assert comparison.reference is None
    assert comparison.level is None
    assert len(comparison.drawn) == 1


def test_the_level_is_half_the_references_peak_unless_it_is_typed(of_man):
    comparison = of_man((145, 33), (275, 28.5))
    assert comparison.level == pytest.approx(comparison.reference.readouts.peak / 2)
    typed = of_man((145, 33), above=12.5)
    assert (typed.level, typed.level_typed) == (12.5, True)


def test_the_same_level_counts_for_all_throws(of_man):
    high, low = of_man((145, 33), (145, 20)).answers
    assert high.readouts.above_s > 0.0
    assert low.readouts.above_s == 0.0  # (20 / 33) squared is 0.37: under half the reference's peak


def test_a_left_hander_has_the_same_resolved_torques(of_man):
    right, left = (
        of_man((145, 33), quantity="elbow_extension", first=Thrower("X1", replace(MAN, handedness=hand)))
        for hand in ("right", "left")
    )
    assert left.answers[0].readouts == right.answers[0].readouts


@pytest.mark.parametrize("key", QUANTITIES)
def test_every_quantity_can_be_read(of_man, key):
    answer = of_man((145, 33), quantity=key).answers[0]
    assert math.isfinite(answer.readouts.peak)


def test_per_cents_of_nothing_are_not_numbers():
    assert share_of(90.0, 100.0) == 90.0
    assert math.isnan(share_of(1.0, 0.0))
    assert math.isnan(share_of(math.nan, 1.0))
    assert math.isnan(share_of(1.0, math.inf))


def test_a_torque_in_body_weight_times_height(man):
    # 100 * 79 / (90 * 9.80665 * 1.88) = 4.7611
    assert bwh_of(79.0, man) == pytest.approx(4.7611, abs=5e-5)


@pytest.mark.parametrize(
    ("number", "least", "said"),
    [(275.0, 0, "275"), (142.5, 0, "142.5"), (28.5, 1, "28.5"), (33.0, 1, "33.0"), (0.0, 0, "0")],
)
def test_numbers_have_no_needless_decimals(number, least, said):
    assert plain(number, least) == said


@pytest.fixture
def of_two(of_man):
    """The same throw by a man of 1.88 m and 90 kg, and by one of other measures."""

    def compared(*, scale="plain", **other):
        second = Thrower("X2", replace(MAN, **other))
        return of_man((145, 33), line(2, thrower=OTHER), second=second, scale=scale)

    return compared


def test_two_throwers_with_the_same_measures_have_the_same_curves_and_are_called_by_their_codes(of_two):
    first, second = of_two().answers
    assert first.readouts == second.readouts
    assert (first.name, second.name) == ("X1 with 145 g at 33.0 m/s", "X2 with 145 g at 33.0 m/s")
    assert second.label == "X2 · 145 g · 33.0 m/s"


def test_a_throw_of_the_second_is_that_of_their_own_page(of_two, of_man):
    measures = {"stature_m": 1.65, "body_mass_kg": 60.0, "sex": "female"}
    alone = of_man((145, 33), first=Thrower("X2", replace(MAN, **measures)))
    assert of_two(**measures).answers[1].readouts.peak == alone.answers[0].readouts.peak


def test_at_one_release_speed_a_uniformly_longer_arm_of_the_same_mass_needs_as_much(of_two):
    # DESIGN: at a fixed release speed the length of a uniformly scaled arm cancels out of the inertial torque, and the
    # ball, which does not scale, and gravity are all that is left
    peaks = [of_two(stature_m=stature).answers[1].readouts.peak for stature in (1.88, 1.974)]
    assert peaks[1] == pytest.approx(peaks[0], rel=0.02)


def test_a_second_thrower_whose_measures_are_missing_leaves_the_first_as_it_is(of_man):
    comparison = of_man((145, 33), line(2, thrower=OTHER), second=Thrower("X2", None, ("Body mass",)))
    assert [answer.key for answer in comparison.drawn] == ["t1"]
    assert not comparison.two


def test_each_throwers_torque_is_scaled_by_their_own_weight_and_height(of_two):
    comparison = of_two(scale="bwh", body_mass_kg=45.0)
    (column,) = [column for column in columns(comparison) if column.body_scaled]
    first, second = comparison.answers
    # half the body mass: twice the per cent for the same torque
    assert column.of(second) / second.readouts.peak == pytest.approx(2.0 * column.of(first) / first.readouts.peak)
    factors = [scale_of(comparison, answer.person)[0] for answer in comparison.answers]
    assert factors[1] == pytest.approx(2.0 * factors[0])
    assert level_of(comparison) is None  # one torque stands at two heights there
    assert level_of(of_two(body_mass_kg=45.0)) is not None


AT_CLOCK = ListedThrow("t1", "clock", Ball(0.145), 0.9, 33.0)


@pytest.mark.parametrize(
    ("kind", "day", "held", "short", "full"),
    [
        ("measured", None, THROWN[0], "measured", "measured"),
        ("measured", date(2026, 1, 13), THROWN[0], "measured", "measured 2026-01-13"),
        ("before_injury", date(2025, 9, 2), THROWN[0], "pre-injury", "from before an injury, 2025-09-02"),
        ("before_injury", None, THROWN[0], "pre-injury", "from before an injury, date not given"),
        ("estimated", date(2026, 1, 13), THROWN[0], "estimated", "estimated"),
        ("measured", None, AT_CLOCK, "clock-held", "held at the same clock"),
        ("before_injury", None, replace(AT_CLOCK, hold="profile"), "profile", "held at the speed profile"),
    ],
)
def test_how_the_reference_is_known_is_put_into_words(compare_on, kind, day, held, short, full):
    comparison = compare_on(held, kind=kind, day=day)
    assert (comparison.kind, comparison.known) == (short, full)


def test_a_reference_from_before_an_injury_needs_its_day(compare_on):
    asked = {"kind": "before_injury", "day": None}
    assert compare_on(**asked).day_missing == "Missing or to be mended above: day of the reference."
    assert not compare_on(AT_CLOCK, **asked).day_missing
    assert not compare_on(kind="before_injury").day_missing
