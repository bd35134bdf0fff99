"""The numbers behind the page, against the mechanics' own exact scaling."""

import math
from dataclasses import replace

import pytest

from app.pages.compare.answers import bwh_of
from app.pages.compare.picture import level_of, scale_of
from app.pages.compare.table import columns
from app.show.numbers import share_of
from app.show.quantities import QUANTITIES
from app.show.throw_form import OTHER, Form, ThrowForm
from app.units.conversion import plain

ATHLETE = {
    "code": "X1", "sex": "male", "handedness": "right", "age_years": "25", "stature_cm": "188", "body_mass_kg": "90",
    "upper_arm_length_cm": "", "forearm_length_cm": "", "hand_length_cm": "", "still_growing": "",
}  # fmt: skip


def form_of(*throws: tuple[str, str], **more) -> Form:
    lines = tuple(ThrowForm(f"t{i}", mass, "73", speed) for i, (mass, speed) in enumerate(throws, start=1))
    return Form(ATHLETE, lines, "t1", **more)


def test_the_reference_thrower_peaks_where_the_adult_groups_do(compare_on):
    # adult groups' mean varus torque: 64 to 90 N·m (values.csv 1-kinetics-01, -46, -53; the design page, section 8)
    answer = compare_on(form_of(("145", "37"))).answers[0]
    assert 64.0 <= answer.readouts.peak <= 90.0


def test_half_the_speed_lasts_exactly_twice_as_long(compare_on):
    # time is phase times T / s: the design page, section 2
    fast, slow = compare_on(form_of(("145", "36"), ("145", "18"))).answers
    assert slow.time_ms()[0] == pytest.approx(2 * fast.time_ms()[0], rel=1e-12)


def test_after_release_the_ball_does_not_matter_at_the_same_speed_of_the_clock(compare_on):
    light, heavy = compare_on(form_of(("145", "33"), ("470", "33"))).drawn
    reading = QUANTITIES["shoulder_proximal"]
    after = light.time_ms() > 0
    assert light.value(reading)[after] == pytest.approx(heavy.value(reading)[after], rel=1e-9)


def test_a_reversed_quantity_is_the_same_curve_upside_down(compare_on):
    answer = compare_on(form_of(("145", "33"))).drawn[0]
    assert (answer.value(QUANTITIES["elbow_extension"]) == -answer.value(QUANTITIES["elbow_flexion"])).all()


def test_one_bad_throw_leaves_the_curves_of_the_others(compare_on):
    comparison = compare_on(form_of(("145", "33"), ("abc", "28.5"), ("95", "35")))
    assert [answer.key for answer in comparison.drawn] == ["t1", "t3"]
    assert set(comparison.problems()["t2"]) == {"ball_mass_g"}


def test_a_bad_reference_leaves_the_curves_and_takes_the_per_cent(compare_on):
    comparison = compare_on(form_of(("145", "-1"), ("275", "28.5")))
    assert comparison.reference is None
    assert comparison.level is None
    assert len(comparison.drawn) == 1


def test_the_level_is_half_the_references_peak_unless_it_is_typed(compare_on):
    comparison = compare_on(form_of(("145", "33"), ("275", "28.5")))
    assert comparison.level == pytest.approx(comparison.reference.readouts.peak / 2)
    assert compare_on(form_of(("145", "33"), above="12,5")).level == 12.5


def test_a_wrong_level_is_told_and_no_other_is_put_in_its_place(compare_on):
    comparison = compare_on(form_of(("145", "33"), above="many"))
    assert comparison.level is None
    assert comparison.level_problem.startswith("Level: “many” given; accepted: 0.1 to 2000 N·m")
    assert math.isnan(comparison.answers[0].readouts.above_s)


def test_the_same_level_counts_for_all_throws(compare_on):
    high, low = compare_on(form_of(("145", "33"), ("145", "20"))).answers
    assert high.readouts.above_s > 0.0
    assert low.readouts.above_s == 0.0  # (20 / 33) squared is 0.37: under half the reference's peak


def test_a_left_hander_has_the_same_resolved_torques(compare_on):
    form = form_of(("145", "33"), quantity="elbow_extension")
    left = replace(form, athlete={**form.athlete, "handedness": "left"})
    assert compare_on(left).answers[0].readouts == compare_on(form).answers[0].readouts


@pytest.mark.parametrize("key", QUANTITIES)
def test_every_quantity_can_be_read(compare_on, key):
    answer = compare_on(form_of(("145", "33"), quantity=key)).answers[0]
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


def of_two(*, scale="plain", **other):
    """The same throw by a man of 1.88 m and 90 kg, and by one of other measures."""
    form = form_of(("145", "33"), ("145", "33"))
    measures = {**form.athlete, "code": "X2"} | other
    return replace(form, other=measures, scale=scale, throws=(form.throws[0], replace(form.throws[1], by=OTHER)))


def test_two_throwers_with_the_same_measures_have_the_same_curves_and_are_called_by_their_codes(compare_on):
    first, second = compare_on(of_two()).answers
    assert first.readouts == second.readouts
    assert (first.name, second.name) == ("X1 with 145 g at 33.0 m/s", "X2 with 145 g at 33.0 m/s")
    assert second.label == "X2 · 145 g · 33.0 m/s"


def test_a_throw_of_the_second_is_that_of_their_own_page(compare_on):
    measures = {"stature_cm": "165", "body_mass_kg": "60", "sex": "female"}
    two = of_two(**measures)
    alone = replace(two, athlete=two.other, other=Form().other, throws=(replace(two.throws[1], by=""),))
    assert compare_on(two).answers[1].readouts.peak == compare_on(alone).answers[0].readouts.peak


def test_at_one_release_speed_a_uniformly_longer_arm_of_the_same_mass_needs_as_much(compare_on):
    # DESIGN: at a fixed release speed the length of a uniformly scaled arm cancels out of the inertial torque, and the
    # ball, which does not scale, and gravity are all that is left
    short, long = (of_two(stature_cm=stature) for stature in ("188", "197.4"))
    peaks = [compare_on(form).answers[1].readouts.peak for form in (short, long)]
    assert peaks[1] == pytest.approx(peaks[0], rel=0.02)


def test_a_second_thrower_that_cannot_be_read_leaves_the_first_as_it_is(compare_on):
    comparison = compare_on(of_two(body_mass_kg="9"))
    assert [answer.key for answer in comparison.drawn] == ["t1"]
    assert "body_mass_kg" in comparison.throwers[OTHER].problems
    assert not comparison.two


def test_each_throwers_torque_is_scaled_by_their_own_weight_and_height(compare_on):
    comparison = compare_on(of_two(scale="bwh", body_mass_kg="45"))
    (column,) = [column for column in columns(comparison) if column.body_scaled]
    first, second = comparison.answers
    # half the body mass: twice the per cent for the same torque
    assert column.of(second) / second.readouts.peak == pytest.approx(2.0 * column.of(first) / first.readouts.peak)
    factors = [scale_of(comparison, answer.person)[0] for answer in comparison.answers]
    assert factors[1] == pytest.approx(2.0 * factors[0])
    assert level_of(comparison) is None  # one torque stands at two heights there
    assert level_of(compare_on(of_two(body_mass_kg="45"))) is not None
