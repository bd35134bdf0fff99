"""The mass-speed identity against the full recursion, and what must hold whatever the numbers.

    tau(phase; m, s) = s^2 [A + m B] + [G_A + m G_B],   t = phase T / s

Oracles: the recursion itself at the very mass and speed (no scaling in it); weights hung on levers for G; and
invariances of Newton's laws: running time backward, and drawing everything larger. Tolerance 1e-10 of a channel's own
peak, as asked for: a few hundred thousand roundings, and no screen shows the ninth digit.
"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from model.ball import beyond_the_hand_m
from model.chain import State, frames_of, points_of
from model.channels import CHANNELS, INDEX
from model.dynamics import inverse_dynamics, resolve
from model.identity import PathLoads, throw_loads
from model.motion import PHASES, reference_motion
from model.person import PERSON_LIMITS, Person
from model.segments import Arm, Segment, arm_of, stack
from tests.model.helpers import ADULT, CHILD, GRAVITY_M_S2, LEFT_HANDED_GIRL, apart, borne_by_the_hand, path_loads_of

TOLERANCE = 1e-10
MOTION = reference_motion()
FORCES = [INDEX[key] for key, channel in CHANNELS.items() if channel.unit == "N"]
TORQUES = [INDEX[key] for key, channel in CHANNELS.items() if channel.unit == "N·m"]
AFTER = PHASES >= 1.0


def within(field: str) -> st.SearchStrategy[float]:
    return st.floats(PERSON_LIMITS[field].low, PERSON_LIMITS[field].high)


PERSONS = st.builds(
    Person,
    sex=st.sampled_from(["male", "female"]),
    stature_m=within("stature_m"),
    body_mass_kg=within("body_mass_kg"),
    age_years=within("age_years"),
    upper_arm_length_m=st.none() | within("upper_arm_length_m"),
    forearm_length_m=st.none() | within("forearm_length_m"),
    hand_length_m=st.none() | within("hand_length_m"),
)
MASSES_KG = st.just(0.0) | st.floats(0.001, 2.0)
SPEEDS_M_S = st.floats(5.0, 50.0)
DIAMETERS_M = st.floats(0.04, 0.20)


def assert_same_channels(ours: np.ndarray, oracle: np.ndarray, tolerance: float = TOLERANCE) -> None:
    """Arrays (N, C), each channel over its own peak."""
    for key, i in INDEX.items():
        assert apart(ours[:, i], oracle[:, i]) <= tolerance, key


def loads_of(person: Person, diameter_m: float = 0.073) -> PathLoads:
    return path_loads_of(MOTION, arm_of(person), beyond_the_hand_m(diameter_m))


# ---- identity and recursion -----------------------------------------------------------------------------------------


@settings(max_examples=150)
@given(person=PERSONS, mass_kg=MASSES_KG, speed_m_s=SPEEDS_M_S, diameter_m=DIAMETERS_M)
def test_identity_and_recursion_agree_for_any_arm_ball_and_speed(person, mass_kg, speed_m_s, diameter_m):
    basis = loads_of(person, diameter_m)
    clock = float(basis.clock(speed_m_s))
    full = throw_loads(MOTION, arm_of(person), mass_kg, beyond_the_hand_m(diameter_m), clock)
    assert_same_channels(basis.loads(mass_kg, clock), full)


@settings(max_examples=30)
@given(person=PERSONS, speed_m_s=SPEEDS_M_S, diameter_m=DIAMETERS_M)
def test_the_clock_releases_the_ball_at_the_speed_asked_for(person, speed_m_s, diameter_m):
    arm, beyond = arm_of(person), beyond_the_hand_m(diameter_m)
    state = MOTION.state(np.array([1.0]), float(loads_of(person, diameter_m).clock(speed_m_s)))
    velocity = points_of(frames_of(state), state, arm, beyond).ball.velocity[0]
    assert np.linalg.norm(velocity) == pytest.approx(speed_m_s, rel=1e-12)


def test_without_a_ball_there_is_the_arm_and_its_weight_only():
    basis = loads_of(ADULT)
    assert np.array_equal(basis.loads(0.0, 1.0), basis.arm + basis.arm_weight)
    for key in ("ball_x", "ball_y", "ball_z"):
        assert np.all(basis.loads(0.0, 1.0)[:, INDEX[key]] == 0.0)


def test_many_throws_of_one_arm_at_once_are_those_throws_one_by_one():
    basis = loads_of(ADULT)
    masses, clocks = np.array([0.0, 0.095, 0.470, 2.0]), np.array([1.3, 1.0, 0.5, 0.2])
    together = basis.loads(masses, clocks)
    assert together.shape == (4, len(PHASES), len(CHANNELS))
    for row, mass_kg, clock in zip(together, masses, clocks, strict=True):
        assert np.array_equal(row, basis.loads(mass_kg, clock))


def test_many_arms_at_once_are_those_arms_one_by_one():
    people, diameters = (ADULT, CHILD, LEFT_HANDED_GIRL), (0.073, 0.060, 0.097)
    masses, speeds = np.array([0.145, 0.095, 0.275]), np.array([37.0, 21.0, 18.0])
    arms = [arm_of(person) for person in people]
    basis = path_loads_of(MOTION, stack(arms), beyond_the_hand_m(np.array(diameters)))
    clocks = basis.clock(speeds)
    together = basis.loads(masses, clocks)
    assert together.shape == (3, len(PHASES), len(CHANNELS))
    for i, (person, diameter_m) in enumerate(zip(people, diameters, strict=True)):
        alone = loads_of(person, diameter_m)
        assert clocks[i] == pytest.approx(float(alone.clock(speeds[i])), rel=1e-14)
        assert_same_channels(together[i], alone.loads(masses[i], float(alone.clock(speeds[i]))), 1e-13)


# ---- weight ---------------------------------------------------------------------------------------------------------


def test_weight_has_no_speed():
    """Recursions at the clocks s and 2 s, inertia taken away by s^2: 4 tau(s) - tau(2 s) = 3 G, for any s."""
    basis, arm, beyond = loads_of(ADULT), arm_of(ADULT), beyond_the_hand_m(0.073)
    weight = basis.arm_weight + 0.3 * basis.ball_weight
    for clock in (0.1, 0.4):
        slow, fast = (throw_loads(MOTION, arm, 0.3, beyond, c) for c in (clock, 2.0 * clock))
        assert_same_channels((4.0 * slow - fast) / 3.0, weight)
    assert_same_channels(throw_loads(MOTION, arm, 0.3, beyond, 0.0), weight)  # no motion: weight is all there is


def test_weight_is_what_levers_and_weights_say():
    """Moment about a joint = - sum of (centre of mass - joint) x m g; force = - sum of m g; by numpy's own cross."""
    person, mass_kg = CHILD, 0.3
    basis, arm = loads_of(person), arm_of(person)
    state = MOTION.state(PHASES)
    frames = frames_of(state)
    points = points_of(frames, state, arm, beyond_the_hand_m(0.073))
    parts = [
        (arm.upper_arm.mass_kg, points.upper_arm_centre.position),
        (arm.forearm.mass_kg, points.forearm_centre.position),
        (arm.hand.mass_kg, points.hand_centre.position),
        (mass_kg * borne_by_the_hand(PHASES)[:, None], points.ball.position),
    ]

    def held_at(joint: np.ndarray, beyond: list) -> tuple[np.ndarray, np.ndarray]:
        moment = -sum(np.cross(place - joint, m * GRAVITY_M_S2) for m, place in beyond)
        force = -sum(np.broadcast_to(m * GRAVITY_M_S2, place.shape) for m, place in beyond)
        return moment, force

    def along(vectors: np.ndarray, axis: np.ndarray) -> np.ndarray:
        return np.sum(vectors * axis, axis=1)

    shoulder, push = held_at(points.shoulder.position, parts)
    elbow, pull = held_at(points.elbow.position, parts[1:])
    girdle, fore = frames.shoulder, frames.forearm
    expected = {
        "internal_rotation": -along(shoulder, girdle.axis(2)),
        "horizontal_adduction": along(shoulder, girdle.axis(1)),
        "abduction": -along(shoulder, girdle.axis(0)),
        "shoulder_superior": along(push, girdle.axis(1)),
        "varus": along(elbow, fore.axis(0)),
        "elbow_flexion": along(elbow, fore.axis(1)),
        "pronation": -along(elbow, fore.axis(2)),
        "elbow_proximal": -along(pull, fore.axis(2)),
    }
    weight = basis.arm_weight + mass_kg * basis.ball_weight
    for key, curve in expected.items():
        assert apart(weight[:, INDEX[key]], curve) <= 1e-12, key


# ---- after release --------------------------------------------------------------------------------------------------


def test_after_release_every_ball_at_the_same_clock_leaves_every_channel_the_same():
    arm, empty = arm_of(ADULT), loads_of(ADULT).loads(0.0, 0.9)
    for mass_kg, diameter_m in ((0.095, 0.073), (0.470, 0.073), (2.0, 0.20)):
        by_identity = loads_of(ADULT, diameter_m).loads(mass_kg, 0.9)
        by_recursion = throw_loads(MOTION, arm, mass_kg, beyond_the_hand_m(diameter_m), 0.9)
        assert np.array_equal(by_identity[AFTER], empty[AFTER])
        for key, i in INDEX.items():
            assert np.abs(by_recursion[AFTER, i] - empty[AFTER, i]).max() <= TOLERANCE * np.abs(empty[:, i]).max(), key
        for key in ("varus", "internal_rotation", "shoulder_proximal"):
            assert not np.allclose(by_identity[~AFTER, INDEX[key]], empty[~AFTER, INDEX[key]], rtol=0.01), key


# ---- Newton's laws do not mind --------------------------------------------------------------------------------------


def backward(state: State) -> State:
    """The same postures passed through in the opposite order: speeds turn round, accelerations do not."""
    return State(
        state.angles[::-1],
        -state.rates[::-1],
        state.accelerations[::-1],
        state.travel[::-1],
        -state.travel_rate[::-1],
        state.travel_acceleration[::-1],
    )


@pytest.mark.parametrize("gravity", [np.zeros(3), GRAVITY_M_S2], ids=["inertia alone", "with weight"])
def test_a_throw_run_backward_needs_the_same_torques(gravity):
    arm, beyond, held = arm_of(ADULT), beyond_the_hand_m(0.073), borne_by_the_hand(PHASES)

    def recursion(state: State, held: np.ndarray) -> np.ndarray:
        frames = frames_of(state)
        return resolve(
            frames, inverse_dynamics(frames, points_of(frames, state, arm, beyond), arm, 0.145, held, gravity)
        )

    forward = MOTION.state(PHASES)
    assert_same_channels(recursion(backward(forward), held[::-1])[::-1], recursion(forward, held), 1e-13)


LARGER = 1.17


def drawn_larger(arm: Arm) -> Arm:
    """Every length of the arm and of the trunk times `LARGER`; masses kept, so inertias times its square."""

    def segment(part: Segment) -> Segment:
        inertias = (part.inertia_x_kg_m2, part.inertia_y_kg_m2, part.inertia_z_kg_m2)
        lengths = LARGER * part.length_m, LARGER * part.centre_m
        return Segment(lengths[0], part.mass_kg, lengths[1], *(LARGER**2 * inertia for inertia in inertias))

    return replace(
        arm,
        upper_arm=segment(arm.upper_arm),
        forearm=segment(arm.forearm),
        hand=segment(arm.hand),
        shoulder_x_m=LARGER * arm.shoulder_x_m,
        shoulder_y_m=LARGER * arm.shoulder_y_m,
        shoulder_z_m=LARGER * arm.shoulder_z_m,
        stature_m=LARGER * arm.stature_m,
    )


@pytest.fixture(scope="module")
def small_and_large() -> tuple[PathLoads, PathLoads]:
    beyond = beyond_the_hand_m(0.073)
    arm = arm_of(ADULT)
    return path_loads_of(MOTION, arm, beyond), path_loads_of(MOTION, drawn_larger(arm), LARGER * beyond)


def inertial(basis: PathLoads, mass_kg: float, clock: float) -> np.ndarray:
    return clock**2 * (basis.arm + mass_kg * basis.ball)


def test_at_the_same_clock_a_larger_arm_needs_torque_with_the_square_of_its_length_and_force_with_its_length(
    small_and_large,
):
    small, large = (inertial(basis, 0.145, 0.9) for basis in small_and_large)
    for i in TORQUES:
        assert apart(large[:, i], LARGER**2 * small[:, i]) <= 1e-12
    for i in FORCES:
        assert apart(large[:, i], LARGER * small[:, i]) <= 1e-12


def test_at_the_same_release_speed_the_size_of_the_arm_cancels_out_of_the_torque(small_and_large):
    """m L^2 (v / L)^2: no L is left; of force, m L (v / L)^2, one over L is."""
    small, large = (inertial(basis, 0.145, float(basis.clock(30.0))) for basis in small_and_large)
    for i in TORQUES:
        assert apart(large[:, i], small[:, i]) <= 1e-12
    for i in FORCES:
        assert apart(large[:, i], small[:, i] / LARGER) <= 1e-12


def test_weight_grows_with_length_only_in_torque(small_and_large):
    small, large = (basis.arm_weight + 0.145 * basis.ball_weight for basis in small_and_large)
    for i in TORQUES:
        assert apart(large[:, i], LARGER * small[:, i]) <= 1e-12
    for i in FORCES:
        assert apart(large[:, i], small[:, i]) <= 1e-12


def test_a_taller_person_of_the_same_mass_is_an_arm_drawn_larger():
    taller = arm_of(replace(ADULT, stature_m=LARGER * ADULT.stature_m))
    for ours, expected in zip(flat(taller), flat(drawn_larger(arm_of(ADULT))), strict=True):
        assert ours == pytest.approx(expected, rel=1e-14)


def flat(arm: Arm) -> list[float]:
    segments = (arm.upper_arm, arm.forearm, arm.hand)
    numbers = [value for segment in segments for value in vars(segment).values()]
    return [*numbers, arm.shoulder_x_m, arm.shoulder_y_m, arm.shoulder_z_m, arm.stature_m]


@settings(max_examples=25)
@given(person=PERSONS, mass_kg=MASSES_KG, heavier=st.floats(1.1, 3.0))
def test_arm_and_ball_made_heavier_alike_need_torques_heavier_alike(person, mass_kg, heavier):
    """Every load is linear in mass: body mass and ball mass together scale all of it, weight too."""
    if person.body_mass_kg * heavier > PERSON_LIMITS["body_mass_kg"].high:
        heavier = 1.0 / heavier
    if person.body_mass_kg * heavier < PERSON_LIMITS["body_mass_kg"].low:
        heavier = PERSON_LIMITS["body_mass_kg"].low / person.body_mass_kg
    scaled = replace(person, body_mass_kg=person.body_mass_kg * heavier)
    ours = loads_of(scaled).loads(mass_kg * heavier, 0.8)
    assert_same_channels(ours, heavier * loads_of(person).loads(mass_kg, 0.8), 1e-12)
