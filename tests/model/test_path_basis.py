"""The path basis against the full recursion, for every kind of arm and each measure by itself.

Oracle: `identity.throw_loads`, Newton-Euler from the hand inward, which knows no products. Tolerance 1e-12 of a
channel's own peak: a few thousand roundings.
"""

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings

from model.ball import beyond_the_hand_m
from model.chain import frames_of, points_of
from model.channels import CHANNELS, INDEX
from model.identity import throw_loads
from model.motion import PHASES, reference_motion
from model.path_basis import PRODUCTS, path_basis_of, products_of_arm, products_of_ball, reference_basis
from model.person import Person
from model.segments import Arm, Segment, arm_of, stack
from tests.model.helpers import ADULT, apart, path_loads_of
from tests.model.test_identity import DIAMETERS_M, MASSES_KG, PERSONS, SPEEDS_M_S

TOLERANCE = 1e-12
MOTION = reference_motion()
BEYOND_M = beyond_the_hand_m(0.073)
PEOPLE = {
    "man": ADULT,
    "woman": Person("female", 1.66, 58.0, 24.0),
    "girl": Person("female", 1.34, 30.0, 9.0),
    "boy": Person("male", 1.18, 22.0, 6.0),
    "all lengths measured": Person("male", 1.80, 82.0, 30.0, 0.33, 0.29, 0.081),
}
SEGMENTS = ("upper_arm", "forearm", "hand")


def assert_basis_is_recursion(arm: Arm, mass_kg: float, clock: float, beyond_m: float = BEYOND_M) -> None:
    expected = throw_loads(MOTION, arm, mass_kg, beyond_m, clock)
    found = path_loads_of(MOTION, arm, beyond_m).loads(mass_kg, clock)
    for key, i in INDEX.items():
        assert apart(found[:, i], expected[:, i]) <= TOLERANCE, key


@pytest.mark.parametrize("person", PEOPLE.values(), ids=PEOPLE)
@pytest.mark.parametrize(("mass_kg", "clock"), [(0.0, 1.0), (0.145, 1.0), (0.470, 0.6), (2.0, 0.1), (0.3, 0.0)])
def test_the_basis_gives_what_the_recursion_gives(person, mass_kg, clock):
    assert_basis_is_recursion(arm_of(person), mass_kg, clock)


@settings(max_examples=60)
@given(person=PERSONS, mass_kg=MASSES_KG, speed_m_s=SPEEDS_M_S, diameter_m=DIAMETERS_M)
def test_and_so_for_any_arm_ball_and_speed(person, mass_kg, speed_m_s, diameter_m):
    assert_basis_is_recursion(arm_of(person), mass_kg, speed_m_s / 37.0, beyond_the_hand_m(diameter_m))


@pytest.mark.parametrize("name", SEGMENTS)
@pytest.mark.parametrize("measure", [field.name for field in fields(Segment)])
@pytest.mark.parametrize("factor", [0.0, 0.5, 1.7])
def test_each_measure_of_each_segment_may_change_by_itself(name, measure, factor):
    arm = arm_of(ADULT)
    segment = getattr(arm, name)
    changed = replace(segment, **{measure: factor * getattr(segment, measure)})
    assert_basis_is_recursion(replace(arm, **{name: changed}), 0.275, 0.8)


@pytest.mark.parametrize("factor", [0.5, 1.7])
def test_the_trunk_may_grow_without_the_arm(factor):
    arm = arm_of(ADULT)
    trunk = {f"shoulder_{axis}_m": factor * getattr(arm, f"shoulder_{axis}_m") for axis in "xyz"}
    assert_basis_is_recursion(replace(arm, stature_m=factor * arm.stature_m, **trunk), 0.275, 0.8)


@pytest.mark.parametrize("beyond_m", [0.0, 0.05])
def test_the_ball_may_lie_anywhere_along_the_hand(beyond_m):
    assert_basis_is_recursion(arm_of(ADULT), 0.275, 0.8, beyond_m)


def test_a_shoulder_that_stature_does_not_place_is_refused():
    arm = replace(arm_of(ADULT), shoulder_y_m=0.6)
    with pytest.raises(ValueError, match="shoulder"):
        products_of_arm(arm)


@pytest.mark.parametrize("person", PEOPLE.values(), ids=PEOPLE)
def test_the_path_speed_is_that_of_the_ball_at_release(person):
    arm, state = arm_of(person), MOTION.state(np.array([1.0]))
    velocity = points_of(frames_of(state), state, arm, BEYOND_M).ball.velocity[0]
    assert reference_basis().path_speed_m_s(arm, BEYOND_M) == pytest.approx(np.linalg.norm(velocity), rel=1e-13)


def test_the_ball_is_a_hand_of_one_kilogram_at_its_distance():
    arm = arm_of(ADULT)
    point = Segment(arm.hand.length_m, 1.0, arm.hand.length_m + BEYOND_M, 0.0, 0.0, 0.0)
    nothing = {name: replace(getattr(arm, name), **_massless()) for name in ("upper_arm", "forearm")}
    alone = products_of_arm(replace(arm, hand=point, **nothing))
    assert products_of_ball(arm, BEYOND_M) == pytest.approx(alone, rel=1e-14, abs=1e-15)


def _massless() -> dict[str, float]:
    return dict.fromkeys(("mass_kg", "inertia_x_kg_m2", "inertia_y_kg_m2", "inertia_z_kg_m2"), 0.0)


def test_the_products_of_a_kilogram_are_their_own_names():
    """Two of them by hand: the first moment of the forearm about the elbow, and its moment of inertia there."""
    arm = arm_of(ADULT)
    found = dict(zip(PRODUCTS, products_of_arm(arm), strict=True))
    hand, fore = arm.hand, arm.forearm
    assert found["Sf"] == pytest.approx(fore.mass_kg * fore.centre_m + hand.mass_kg * fore.length_m)
    assert found["Jf_y"] == pytest.approx(
        fore.inertia_y_kg_m2 + fore.mass_kg * fore.centre_m**2 + hand.mass_kg * fore.length_m**2
    )
    assert found["Jf_z"] == fore.inertia_z_kg_m2


def test_many_throws_each_with_its_own_arm_are_those_throws():
    basis = reference_basis()
    arms = stack([arm_of(person) for person in PEOPLE.values()])
    mass_kg, clock = np.array([0.0, 0.145, 0.275, 0.470, 1.0]), np.array([1.0, 0.9, 0.8, 0.5, 0.2])
    own, ball = products_of_arm(arms), products_of_ball(arms, BEYOND_M)
    for samples in (slice(0, 401), slice(0, 501), slice(0, 501, 4)):
        for key, i in INDEX.items():
            found = basis.curves(key, own, ball, mass_kg, clock, samples)
            for row, person in enumerate(PEOPLE.values()):
                whole = throw_loads(MOTION, arm_of(person), mass_kg[row], BEYOND_M, clock[row])[:, i]
                peak = np.abs(whole).max()
                assert np.abs(found[row] - whole[samples]).max() <= TOLERANCE * peak, (key, row)


def test_one_arm_serves_many_throws():
    basis, arm = reference_basis(), arm_of(ADULT)
    own, ball = products_of_arm(arm)[None], products_of_ball(arm, BEYOND_M)[None]
    masses, clocks = np.array([0.1, 0.4]), np.array([1.0, 0.7])
    found = basis.curves("varus", own, ball, masses, clocks, slice(0, 501))
    loads = path_loads_of(MOTION, arm, BEYOND_M).loads(masses, clocks)[..., INDEX["varus"]]
    assert apart(found, loads) <= TOLERANCE


def test_another_path_has_another_basis():
    slower = replace(MOTION, duration_s=2.0 * MOTION.duration_s)
    basis = path_basis_of(slower, PHASES)
    assert set(basis.tables) == set(CHANNELS)
    # the hips' travel is prescribed in metres a second, so only what the joints do is a quarter
    assert basis.tables["varus"].motion[0] == pytest.approx(
        reference_basis().tables["varus"].motion[0] / 4.0, rel=1e-12
    )
