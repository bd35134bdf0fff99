"""Person and ball -> segments: the tables, growing up, measured lengths, and what is refused.

Oracle: `model/published/segment_parameters.csv` (de Leva 1996 for adults; Jensen for children), read here row by row;
DESIGN 2 for the blend between ages; the definition I = m (k L)^2 for the rest. Table values must be the file's digits.
"""

import csv
import math
import re
from dataclasses import replace
from decimal import Decimal
from importlib.resources import files

import numpy as np
import pytest

from model.ball import BALL_LIMITS, Ball, beyond_the_hand_m
from model.checks import InputError
from model.motion import reference_motion
from model.person import PERSON_LIMITS, Person
from model.segments import ADULT, Arm, Segment, arm_of, mass_share, stack
from tests.model.helpers import ADULT as REFERENCE
from tests.model.helpers import CHILD, path_loads_of

SEGMENTS = ("upper_arm", "forearm", "hand")
ENDPOINTS = {"upper_arm": "SJC-EJC", "forearm": "EJC-WJC", "hand": "WJC-MET3"}  # joint centres; hand to third knuckle


@pytest.fixture(scope="module")
def published() -> list[dict[str, str]]:
    text = files("model.published").joinpath("segment_parameters.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def row_of(published: list[dict[str, str]], source: str, group: str, segment: str, parameter: str) -> dict[str, str]:
    rows = [
        row
        for row in published
        if row["source"].startswith(source)
        and row["sex_or_group"].startswith(group)
        and row["segment"] == segment.replace("_", " ")
        and row["parameter"].startswith(parameter)
    ]
    assert len(rows) == 1, f"{source}, {group}, {segment}, {parameter}: {len(rows)} rows in segment_parameters.csv"
    return rows[0]


def value_of(published: list[dict[str, str]], source: str, group: str, segment: str, parameter: str) -> float:
    """As a plain ratio or in mm: per cents are divided by 100 exactly, as decimals."""
    row = row_of(published, source, group, segment, parameter)
    number = Decimal(row["value"])
    return float(number / 100) if row["unit"].startswith("%") else float(number)


# ---- tables ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("segment", SEGMENTS)
@pytest.mark.parametrize("sex", ["male", "female"])
def test_adult_tables_are_the_published_ones(published, sex, segment):
    table = ADULT[sex][segment]

    def found(parameter: str) -> float:
        return value_of(published, "de Leva", sex, segment, parameter)

    assert row_of(published, "de Leva", sex, segment, "mass")["endpoints"] == ENDPOINTS[segment]
    assert table.mass_share == found("mass")
    assert table.centre_share == found("CM from proximal endpoint")
    radii = tuple(found(f"radius of gyration, {axis}") for axis in ("sagittal", "transverse", "longitudinal"))
    assert table.radii_share == radii  # about x forward, y across (flexion), z along
    remark = row_of(published, "de Leva", sex, segment, "reference length at mean stature")["remark"]
    stature_mm = 1000.0 * float(re.search(rf"\b{sex}s ([\d.]+) m", remark)[1])
    assert table.length_share == pytest.approx(found("reference length at mean stature") / stature_mm, rel=1e-14)


@pytest.mark.parametrize("segment", SEGMENTS)
@pytest.mark.parametrize("age", [6, 12])
def test_childrens_mass_shares_are_the_published_ones(published, age, segment):
    share = value_of(published, "Jensen", f"{age} y", segment, "mass")
    for sex in ("male", "female"):
        assert mass_share(sex, segment, float(age)) == pytest.approx(share, rel=1e-14)


@pytest.mark.parametrize("sex", ["male", "female"])
def test_the_reference_arm_is_worked_out_by_hand(sex):
    """1.88 m, 90 kg: length = share of stature, I = m (k L)^2; the forearm by de Leva's row, written out."""
    row = {  # mass %, centre %, radii % (sagittal, transverse, longitudinal), length mm, stature mm
        "male": (1.62, 45.74, (27.6, 26.5, 12.1), 268.9, 1741.0),
        "female": (1.38, 45.59, (26.1, 25.7, 9.4), 264.3, 1735.0),
    }[sex]
    mass, length = 90.0 * row[0] / 100.0, 1.88 * row[3] / row[4]
    fore = arm_of(replace(REFERENCE, sex=sex)).forearm
    assert fore.mass_kg == pytest.approx(mass, rel=1e-14)
    assert fore.length_m == pytest.approx(length, rel=1e-14)
    assert fore.centre_m == pytest.approx(length * row[1] / 100.0, rel=1e-14)
    inertias = (fore.inertia_x_kg_m2, fore.inertia_y_kg_m2, fore.inertia_z_kg_m2)
    assert inertias == pytest.approx([mass * (k / 100.0 * length) ** 2 for k in row[2]], rel=1e-14)


def test_the_shoulder_stands_in_the_trunk_where_the_blueprint_puts_it():
    arm = arm_of(CHILD)
    ours = (arm.shoulder_x_m, arm.shoulder_y_m, arm.shoulder_z_m)
    assert ours == pytest.approx((0.02 * 1.50, 0.29 * 1.50, 0.113 * 1.50), rel=1e-14)
    assert arm.stature_m == 1.50


# ---- growing up -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("segment", SEGMENTS)
@pytest.mark.parametrize("sex", ["male", "female"])
def test_mass_share_is_level_below_six_and_from_eighteen_and_straight_between(sex, segment):
    def share(age: float) -> float:
        return mass_share(sex, segment, age)

    assert share(4.0) == share(5.5) == share(6.0)
    assert share(18.0) == share(30.0) == share(80.0) == ADULT[sex][segment].mass_share
    assert share(9.0) == pytest.approx((share(6.0) + share(12.0)) / 2.0, rel=1e-14)
    assert share(14.0) == pytest.approx((2.0 * share(12.0) + share(18.0)) / 3.0, rel=1e-14)


def ageing(sex: str, ages: np.ndarray) -> Arm:
    """The arms of one body (1.60 m, 52 kg) at many ages."""
    return stack([arm_of(Person(sex, 1.60, 52.0, float(age))) for age in ages])


@pytest.mark.parametrize("sex", ["male", "female"])
def test_an_arm_changes_with_age_no_faster_than_its_published_shares(sex):
    """Steepest in the table: a woman's hand, from 0.90 % at 12 to 0.56 % at 18, 0.34 / 0.56 / 6 = 10.12 % a year.

    From 5 to 20 years in steps of 0.01 no number of the arm moves by more than that pace: a jump would.
    """
    ages = np.linspace(5.0, 20.0, 1501)
    steepest = 0.1012 * 0.01
    arms = ageing(sex, ages)
    for name in SEGMENTS:
        for field, values in vars(getattr(arms, name)).items():
            assert np.abs(np.diff(values) / values[1:]).max() <= steepest, (name, field)


@pytest.mark.parametrize("sex", ["male", "female"])
def test_no_birthday_brings_a_jump_in_torque(sex):
    """A millionth of a year to either side: masses move by 2e-7 at most, torque, with terms that cancel, by a few."""
    birthdays = np.arange(5.0, 21.0)
    phases = np.linspace(0.0, 1.25, 26)
    before, after = (
        path_loads_of(reference_motion(), ageing(sex, birthdays + step), beyond_the_hand_m(0.073), phases)
        for step in (-1e-6, 1e-6)
    )
    for eve, day in ((before.arm, after.arm), (before.arm_weight, after.arm_weight)):
        peaks = np.abs(eve).max(axis=1)
        assert np.all(np.abs(day - eve).max(axis=1) <= 2e-6 * peaks)
    assert np.allclose(before.ball, after.ball, rtol=1e-9, atol=1e-9)  # the ball does not age
    assert not np.array_equal(before.arm, after.arm)


# ---- measured lengths -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("segment", SEGMENTS)
def test_a_measured_length_changes_length_mass_centre_and_inertia_but_not_mass(segment):
    scaled = arm_of(REFERENCE)
    before: Segment = getattr(scaled, segment)
    longer = 1.08
    measured = arm_of(replace(REFERENCE, **{f"{segment}_length_m": longer * before.length_m}))
    after: Segment = getattr(measured, segment)
    assert after.mass_kg == before.mass_kg
    assert after.length_m == pytest.approx(longer * before.length_m, rel=1e-14)
    assert after.centre_m == pytest.approx(longer * before.centre_m, rel=1e-14)
    for axis in "xyz":
        field = f"inertia_{axis}_kg_m2"
        assert getattr(after, field) == pytest.approx(longer**2 * getattr(before, field), rel=1e-14)
    others_alone(scaled, measured, segment)


def others_alone(scaled: Arm, measured: Arm, segment: str) -> None:
    for name in vars(scaled):
        if name != segment:
            assert getattr(scaled, name) == getattr(measured, name), name


def test_handedness_does_not_change_the_arm():
    assert arm_of(replace(REFERENCE, handedness="left")) == arm_of(REFERENCE)


def test_the_mark_of_one_who_is_still_growing_does_not_change_the_arm():
    assert arm_of(replace(REFERENCE, still_growing=True)) == arm_of(REFERENCE)


def test_the_reference_throwers_ball_is_centred_111_mm_beyond_the_wrist():
    """Hand 1.88 m x 86.2 / 1741 = 93.1 mm, half the radius of a 73 mm ball 18.25 mm: 111.3 mm (DESIGN: 0.111 m)."""
    beyond_wrist_m = arm_of(REFERENCE).hand.length_m + beyond_the_hand_m(0.073)
    assert beyond_wrist_m == pytest.approx(1.88 * 86.2e-3 / 1.741 + 0.073 / 4.0, rel=1e-14)
    assert beyond_wrist_m == pytest.approx(0.111, abs=0.0005)


def test_a_ball_is_a_73_mm_sphere_unless_told_otherwise():
    assert Ball(0.3) == Ball(0.3, 0.073)


def test_stacked_arms_keep_their_order_and_no_arms_are_refused():
    arms = [arm_of(REFERENCE), arm_of(CHILD)]
    both = stack(arms)
    assert both.forearm.mass_kg.tolist() == [arm.forearm.mass_kg for arm in arms]
    assert both.stature_m.tolist() == [1.88, 1.50]
    with pytest.raises(ValueError, match="no arm"):
        stack([])


# ---- what is refused ------------------------------------------------------------------------------------------------

NO_NUMBERS = [math.nan, math.inf, -math.inf, "1.5", "", "1,5", b"1", True, False, [1.5], (), {}, 1.5j, object()]
GOOD = {
    "sex": "male",
    "stature_m": 1.88,
    "body_mass_kg": 90.0,
    "age_years": 25.0,
    "upper_arm_length_m": 0.30,
    "forearm_length_m": 0.29,
    "hand_length_m": 0.09,
    "handedness": "right",
}
REQUIRED = ("stature_m", "body_mass_kg", "age_years")


def refused(make, field: str, given: object) -> InputError:
    with pytest.raises(InputError) as caught:
        make()
    error = caught.value
    assert error.field == field
    assert error.given is given
    assert str(error).startswith(f"{field}: ")
    assert str(error).endswith(f"; accepted: {error.accepted}")
    return error


@pytest.mark.parametrize("given", [*NO_NUMBERS, -1.0, 0.0, 1e9, 10**400], ids=lambda given: repr(given)[:16])
@pytest.mark.parametrize("field", PERSON_LIMITS)
def test_a_measure_that_cannot_be_is_refused_by_field_value_and_range(field, given):
    error = refused(lambda: Person(**{**GOOD, field: given}), field, given)
    limit = PERSON_LIMITS[field]
    assert error.accepted == f"a number from {limit.low:g} to {limit.high:g} {limit.unit}"


@pytest.mark.parametrize("field", REQUIRED)
def test_a_measure_that_is_needed_cannot_be_left_out(field):
    refused(lambda: Person(**{**GOOD, field: None}), field, None)


def test_a_segment_length_can_be_left_out():
    person = Person("female", 1.7, 60.0, 30.0)
    assert person.upper_arm_length_m is person.forearm_length_m is person.hand_length_m is None


@pytest.mark.parametrize(
    ("field", "given", "meant"),
    [
        ("stature_m", 188.0, "centimetres"),
        ("stature_m", 6.2, "feet"),
        ("stature_m", 74.0, "inches"),
        ("body_mass_kg", 90000.0, "grams"),
        ("body_mass_kg", 0.09, "tonnes"),
        ("forearm_length_m", 28.5, "centimetres"),
        ("upper_arm_length_m", 305.0, "millimetres"),
        ("hand_length_m", 9.3, "centimetres"),
        ("hand_length_m", 0.19, "to the fingertip"),
        ("age_years", 1999.0, "a year of birth"),
    ],
)
def test_a_measure_in_the_wrong_unit_is_refused(field, given, meant):
    error = refused(lambda: Person(**{**GOOD, field: given}), field, given)
    assert PERSON_LIMITS[field].unit in error.accepted, meant


@pytest.mark.parametrize("field", PERSON_LIMITS)
def test_both_ends_of_a_range_are_accepted_and_a_hair_beyond_is_not(field):
    limit = PERSON_LIMITS[field]
    for good in (limit.low, limit.high):
        assert getattr(Person(**{**GOOD, field: good}), field) == good
    for bad in (math.nextafter(limit.low, -math.inf), math.nextafter(limit.high, math.inf)):
        refused(lambda bad=bad: Person(**{**GOOD, field: bad}), field, bad)


@pytest.mark.parametrize("given", ["Male", "m", "", " male", None, 1, True, ["male"]], ids=repr)
def test_a_sex_there_is_no_table_for_is_refused(given):
    assert refused(lambda: Person(**{**GOOD, "sex": given}), "sex", given).accepted == "male or female"


@pytest.mark.parametrize("given", ["R", "both", "", None, -1, False], ids=repr)
def test_a_hand_that_is_neither_is_refused(given):
    assert refused(lambda: Person(**{**GOOD, "handedness": given}), "handedness", given).accepted == "right or left"


@pytest.mark.parametrize("given", ["yes", "", None, 1, 0.0], ids=repr)
def test_a_mark_that_is_neither_true_nor_false_is_refused(given):
    error = refused(lambda: Person(**GOOD, still_growing=given), "still_growing", given)
    assert error.accepted == "True or False"


@pytest.mark.parametrize("given", [*NO_NUMBERS, None, -0.1, 0.0, 145.0, 1e9], ids=lambda given: repr(given)[:16])
@pytest.mark.parametrize("field", BALL_LIMITS)
def test_a_ball_that_cannot_be_is_refused_by_field_value_and_range(field, given):
    error = refused(lambda: Ball(**{"mass_kg": 0.145, "diameter_m": 0.073, field: given}), field, given)
    limit = BALL_LIMITS[field]
    assert error.accepted == f"a number from {limit.low:g} to {limit.high:g} {limit.unit}"


def test_whole_numbers_and_numbers_of_numpy_are_numbers():
    person = Person("male", np.float64(1.88), np.int64(90), 25)
    assert person == Person("male", 1.88, 90.0, 25.0)
    assert all(type(value) is float for value in (person.stature_m, person.body_mass_kg, person.age_years))
    assert type(Ball(np.float32(0.25)).mass_kg) is float
