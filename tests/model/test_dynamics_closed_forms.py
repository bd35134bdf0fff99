"""Inverse dynamics against closed forms: a planar chain derived in SymPy, a swinging arm and still arms by hand.

Oracles: Lagrange's equations for the torques and Newton's for the forces, derived in SymPy for links in one plane; for
one link and for statics, the arithmetic written out beside each check, with the sense of every channel told in words of
anatomy, not of axes. Tolerance: rounding (1e-10 of the largest value).
"""

from collections.abc import Callable

import numpy as np
import pytest
import sympy as sp

from model.ball import beyond_the_hand_m
from model.chain import State, frames_of, points_of
from model.channels import CHANNELS
from model.dynamics import inverse_dynamics, resolve
from model.segments import Arm, arm_of
from tests.model.helpers import ADULT, apart, posture

ROUNDING = 1e-10
ARM = arm_of(ADULT)
BALL_KG, DIAMETER_M = 0.275, 0.097
BEYOND_M = beyond_the_hand_m(DIAMETER_M)
G = 9.80665  # m/s2, standard gravity (CGPM 1901)


def loads(state: State, arm: Arm = ARM, ball_kg: float = BALL_KG) -> dict[str, np.ndarray]:
    """The model's channels with the ball firmly in the hand."""
    frames = frames_of(state)
    points = points_of(frames, state, arm, BEYOND_M)
    found = resolve(frames, inverse_dynamics(frames, points, arm, ball_kg, np.ones(len(state.angles))))
    return {key: found[:, i] for i, key in enumerate(CHANNELS)}


# ---- a planar chain -------------------------------------------------------------------------------------------------


def planar_chain() -> Callable[..., list[np.ndarray]]:
    r"""Lagrange and Newton for an arm that moves in one plane, its base driven along n.

        n ^        o ball                 q1  upper arm from u
          |       /                       q2  forearm from the upper arm
          |   __o'  wrist                 q3  hand from the forearm
          | /                             b   the shoulder's place along n (prescribed)
          o elbow                         gravity: g_u along u, g_n along n
         /
        o shoulder -----> u

    Each link: mass m, length l, centre of mass c along it, I about that and square to the plane; ball: a point.
    Torque of joint i is d/dt dL/dq_i' - dL/dq_i. Force across a joint is the sum of m (a - g) beyond it.
    Returns a function of all symbols: [T1, T2, T3, shoulder force along and across the link, elbow force likewise].
    """
    q, dq, ddq = (sp.symbols(f"{name}1:4") for name in ("q", "dq", "ddq"))
    b, db, ddb = sp.symbols("b db ddb")
    m, length, c, inertia = (sp.symbols(f"{name}1:4") for name in ("m", "l", "c", "I"))
    ball, reach, g_u, g_n = sp.symbols("m_b r g_u g_n")

    def rate(expression: sp.Expr | sp.Matrix) -> sp.Expr | sp.Matrix:  # d/dt by the chain rule
        moving = [*zip(q, dq, strict=True), *zip(dq, ddq, strict=True), (b, db), (db, ddb)]
        return sum((expression.diff(x) * dx for x, dx in moving), expression * 0)

    turn = [sum(q[: i + 1]) for i in range(3)]
    along = [sp.Matrix([sp.cos(angle), sp.sin(angle)]) for angle in turn]
    joints = [sp.Matrix([0, b])]
    for i in range(2):
        joints.append(joints[i] + length[i] * along[i])
    masses = [(m[i], joints[i] + c[i] * along[i]) for i in range(3)] + [(ball, joints[2] + reach * along[2])]
    gravity = sp.Matrix([g_u, g_n])

    kinetic = sum(mass * rate(place).dot(rate(place)) for mass, place in masses) / 2
    kinetic += sum(inertia[i] * rate(turn[i]) ** 2 for i in range(3)) / 2
    lagrangian = kinetic + sum(mass * gravity.dot(place) for mass, place in masses)
    torques = [rate(lagrangian.diff(speed)) - lagrangian.diff(angle) for angle, speed in zip(q, dq, strict=True)]

    forces = []
    for joint in (0, 1):
        push = sum((mass * (rate(rate(place)) - gravity) for mass, place in masses[joint:]), sp.zeros(2, 1))
        across = sp.Matrix([-sp.sin(turn[joint]), sp.cos(turn[joint])])
        forces += [push.dot(along[joint]), push.dot(across)]

    symbols = [*q, *dq, *ddq, ddb, *m, *length, *c, *inertia, ball, reach, g_u, g_n, db]
    return sp.lambdify(symbols, [*torques, *forces], cse=True)


@pytest.fixture(scope="module")
def closed_form() -> Callable[..., list[np.ndarray]]:
    function = planar_chain()

    def answer(q, dq, ddq, base_acceleration, gravity) -> list[np.ndarray]:
        links = (ARM.upper_arm, ARM.forearm, ARM.hand)
        numbers = [getattr(link, field) for field in ("mass_kg", "length_m", "centre_m") for link in links]
        numbers += [link.inertia_y_kg_m2 for link in links]  # all turn about their axis of flexion
        reach = ARM.hand.length_m + BEYOND_M
        # the base's own speed must not matter (Galileo): any value will do
        return function(*q, *dq, *ddq, base_acceleration, *numbers, BALL_KG, reach, *gravity, 7.7)

    return answer


def moving_angles(links: int, n: int = 60) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Random angles (rad), rates and accelerations (3, n) as large as a throw's; joints past `links` are held still."""
    random = np.random.default_rng(20261125)
    q = random.uniform(-2.5, 2.5, (3, n))
    dq, ddq = random.uniform(-60.0, 60.0, (3, n)), random.uniform(-3000.0, 3000.0, (3, n))
    dq[links:], ddq[links:] = 0.0, 0.0
    if links == 2:
        q[2] = np.radians(-25.0)  # a hand held bent back
    return q, dq, ddq


@pytest.mark.parametrize("links", [2, 3])
def test_links_in_an_upright_plane_need_the_torques_of_lagrange(closed_form, links):
    """Frontal plane, weight in it: upper arm raised sideways from hanging, forearm bending upward.

    Externally rotated by 90 degrees the elbow bends in the plane in which the arm is raised. u is down, n to the right.
    """
    q, dq, ddq = moving_angles(links)
    names = ("abduction", "elbow_flexion", "wrist_flexion")
    state = posture(
        {**dict(zip(names, np.degrees(q), strict=True)), "external_rotation": 90.0},
        dict(zip(names, dq, strict=True)),
        dict(zip(names, ddq, strict=True)),
    )
    found = loads(state)
    expected = closed_form(q, dq, ddq, 0.0, (G, 0.0))
    ours = (
        found["abduction"],
        found["elbow_flexion"],
        found["wrist_flexion"],
        -found["shoulder_proximal"],  # along the arm is outward
        found["shoulder_superior"],
        -found["elbow_proximal"],
        found["elbow_anterior"],
    )
    for curve, oracle in zip(ours, expected, strict=True):
        assert apart(curve, oracle) <= ROUNDING
    for key in ("varus", "pronation", "internal_rotation", "horizontal_adduction", "elbow_medial"):
        assert np.abs(found[key]).max() <= ROUNDING * np.abs(found["abduction"]).max(), key  # nothing out of the plane


@pytest.mark.parametrize("links", [2, 3])
def test_links_in_a_level_plane_on_a_driven_base_need_the_torques_of_lagrange(closed_form, links):
    """Level plane at shoulder height: arm sideways, drawn forward, elbow bending forward, hips pushed to the target.

    u is to the right, n toward the target. Weight stands square to the plane: it must be borne, and nothing else.
    """
    q, dq, ddq = moving_angles(links)
    names = ("horizontal_adduction", "elbow_flexion", "wrist_flexion")
    push = np.linspace(-40.0, 40.0, q.shape[1])  # m/s2
    state = posture(
        {**dict(zip(names, np.degrees(q), strict=True)), "abduction": 90.0},
        dict(zip(names, dq, strict=True)),
        dict(zip(names, ddq, strict=True)),
        travel_acceleration=push / ADULT.stature_m,
    )
    found = loads(state)
    expected = closed_form(q, dq, ddq, push, (0.0, 0.0))
    ours = (
        found["horizontal_adduction"],
        found["elbow_flexion"],
        found["wrist_flexion"],
        -found["shoulder_proximal"],
        found["shoulder_anterior"],
        -found["elbow_proximal"],
        found["elbow_anterior"],
    )
    for curve, oracle in zip(ours, expected, strict=True):
        assert apart(curve, oracle) <= ROUNDING
    beyond_elbow = ARM.forearm.mass_kg + ARM.hand.mass_kg + BALL_KG
    assert apart(found["shoulder_superior"], np.full(60, (beyond_elbow + ARM.upper_arm.mass_kg) * G)) <= ROUNDING
    assert apart(found["elbow_medial"], np.full(60, -beyond_elbow * G)) <= ROUNDING  # held up from the thumb side


# ---- one link by hand -----------------------------------------------------------------------------------------------


def parts_of_a_straight_arm() -> list[tuple[float, float]]:
    """Mass (kg) and distance from the shoulder (m) of upper arm, forearm, hand and ball."""
    upper, fore, hand = ARM.upper_arm, ARM.forearm, ARM.hand
    elbow, wrist = upper.length_m, upper.length_m + fore.length_m
    return [
        (upper.mass_kg, upper.centre_m),
        (fore.mass_kg, elbow + fore.centre_m),
        (hand.mass_kg, wrist + hand.centre_m),
        (BALL_KG, wrist + hand.length_m + BEYOND_M),
    ]


def test_a_straight_arm_swung_sideways_is_a_compound_pendulum():
    r"""Abduction a from hanging; elbow and wrist straight, so that three segments and the ball swing as one link.

              o shoulder          R  along the arm, T across it (the shoulder on the arm)
             /|\                  M  torque that raises the arm
          R / | \
           /  |a \  T             M = I_s a'' + sum(m r) g sin a        I_s = sum(I + m r^2)
              |   \ .             R = sum(m r) a'^2 + sum(m) g cos a
              v    o--> a''       T = sum(m r) a'' + sum(m) g sin a
             g      \
                     m g (down)
    """
    parts = parts_of_a_straight_arm()
    mass, first = sum(m for m, _ in parts), sum(m * r for m, r in parts)
    spin = sum(segment.inertia_x_kg_m2 for segment in (ARM.upper_arm, ARM.forearm, ARM.hand))  # palm forward: about x
    second = sum(m * r * r for m, r in parts) + spin
    angle, rate, acceleration = np.radians([0.0, 30.0, 75.0, 120.0]), np.array([9.0, -3.0, 14.0, 0.0]), 250.0
    found = loads(posture({"abduction": np.degrees(angle)}, {"abduction": rate}, {"abduction": acceleration}))
    expected = {
        "abduction": second * acceleration + first * G * np.sin(angle),
        "shoulder_proximal": first * rate**2 + mass * G * np.cos(angle),
        "shoulder_superior": first * acceleration + mass * G * np.sin(angle),
    }
    for key, curve in expected.items():
        assert apart(found[key], curve) <= ROUNDING, key


def test_a_bent_arm_spun_about_the_upper_arm_needs_varus_and_internal_rotation_to_be_stopped():
    r"""Upper arm hanging (the spin's axis), elbow bent square, forearm level; spin e outward, slowing: e'' < 0.

            |  upper arm
            o=========o----o      from above: the hand moves outward, on the thumb side, and is being stopped
          elbow    wrist  ball

    About the axis: I = upper arm's I_z + forearm and hand (I_x + m d^2) + ball m d^2; internal rotation = -I e''.
    The elbow passes on all but the upper arm's share of it: varus = -(I - I_z upper arm) e''.
    Toward the axis: elbow proximal = sum(m d) e'^2. Weight only bends: flexion = sum(m d) g.
    """
    fore, hand = ARM.forearm, ARM.hand
    parts = [
        (fore.mass_kg, fore.centre_m, fore.inertia_x_kg_m2),
        (hand.mass_kg, fore.length_m + hand.centre_m, hand.inertia_x_kg_m2),
        (BALL_KG, fore.length_m + hand.length_m + BEYOND_M, 0.0),
    ]
    first = sum(m * d for m, d, _ in parts)
    second = sum(m * d * d + spin for m, d, spin in parts)
    angle, rate, slowing = np.array([0.0, 40.0, 110.0, 170.0]), np.array([5.0, 20.0, -30.0, 0.0]), -4000.0
    found = loads(
        posture(
            {"elbow_flexion": 90.0, "external_rotation": angle},
            {"external_rotation": rate},
            {"external_rotation": slowing},
        )
    )
    expected = {
        "varus": np.full(4, -second * slowing),
        "internal_rotation": np.full(4, -(second + ARM.upper_arm.inertia_z_kg_m2) * slowing),
        "elbow_proximal": first * rate**2,
        "elbow_medial": np.full(4, -first * slowing),
        "elbow_flexion": np.full(4, first * G),
    }
    for key, curve in expected.items():
        assert apart(found[key], curve) <= ROUNDING, key
    assert np.all(found["varus"] > 0.0)


# ---- arms held still: one check of every channel's sense ------------------------------------------------------------

SIDEWAYS = {"abduction": 90.0}  # arm out sideways, level, palm forward, thumb up
LAID_BACK = {"abduction": 90.0, "elbow_flexion": 90.0, "external_rotation": 180.0}
FOREARM_FORWARD = {"abduction": 90.0, "elbow_flexion": 90.0}
CURL = {"elbow_flexion": 90.0}  # upper arm hanging, forearm forward and level, palm up
ON_THE_BACK = {"abduction": 90.0, "trunk_forward_tilt": -90.0}  # lying face up, arm out sideways
OVERHEAD = {"abduction": 180.0}  # arm straight up


def weight_beyond(joint: str) -> float:
    upper, fore, hand = (part.mass_kg for part in (ARM.upper_arm, ARM.forearm, ARM.hand))
    return G * {"shoulder": upper + fore + hand + BALL_KG, "elbow": fore + hand + BALL_KG}[joint]


def weight_moment_of_the_straight_arm() -> float:
    return G * sum(m * r for m, r in parts_of_a_straight_arm())


def weight_moment_about_the_elbow() -> float:
    fore, hand = ARM.forearm, ARM.hand
    return G * (
        fore.mass_kg * fore.centre_m
        + hand.mass_kg * (fore.length_m + hand.centre_m)
        + BALL_KG * (fore.length_m + hand.length_m + BEYOND_M)
    )


def weight_moment_about_the_wrist() -> float:
    return G * (ARM.hand.mass_kg * ARM.hand.centre_m + BALL_KG * (ARM.hand.length_m + BEYOND_M))


STILL = [
    # arm held out sideways: weight pulls it down; raising (abduction) and pushing it up (superior) hold it
    ("abduction", SIDEWAYS, +1, weight_moment_of_the_straight_arm),
    ("shoulder_superior", SIDEWAYS, +1, lambda: weight_beyond("shoulder")),
    # ... the thumb side of the forearm is up, so it is pushed toward the outer (lateral) side: medial is negative
    ("elbow_medial", SIDEWAYS, -1, lambda: weight_beyond("elbow")),
    # ... the straight forearm sags toward its little-finger side, the inner side: valgus holds it, varus is negative
    ("varus", SIDEWAYS, -1, weight_moment_about_the_elbow),
    # forearm laid back, level: its outer side is down, weight bends it outward; varus holds it, the inner side is up
    ("varus", LAID_BACK, +1, weight_moment_about_the_elbow),
    ("elbow_medial", LAID_BACK, +1, lambda: weight_beyond("elbow")),
    # ... weight turns the upper arm farther outward: internal rotation holds it
    ("internal_rotation", LAID_BACK, +1, weight_moment_about_the_elbow),
    # forearm forward, level: weight turns the upper arm inward: external rotation holds it
    ("internal_rotation", FOREARM_FORWARD, -1, weight_moment_about_the_elbow),
    # a curl: weight straightens elbow and wrist; both flexors hold; the forearm is pushed up, to the side it bends to
    ("elbow_flexion", CURL, +1, weight_moment_about_the_elbow),
    ("wrist_flexion", CURL, +1, weight_moment_about_the_wrist),
    ("elbow_anterior", CURL, +1, lambda: weight_beyond("elbow")),
    # arm hanging: weight pulls it out of the shoulder and the forearm out of the elbow
    ("shoulder_proximal", {}, +1, lambda: weight_beyond("shoulder")),
    ("elbow_proximal", {}, +1, lambda: weight_beyond("elbow")),
    # arm straight up: it rests on the shoulder
    ("shoulder_proximal", OVERHEAD, -1, lambda: weight_beyond("shoulder")),
    # lying on the back: the arm sags behind the body; drawing it forward (horizontal adduction, anterior) holds it
    ("horizontal_adduction", ON_THE_BACK, +1, weight_moment_of_the_straight_arm),
    ("shoulder_anterior", ON_THE_BACK, +1, lambda: weight_beyond("shoulder")),
    # arm sideways, hand bent forward: its weight drops the thumb forward, that is turns the palm down; supination holds
    ("pronation", {**SIDEWAYS, "wrist_flexion": 90.0}, -1, weight_moment_about_the_wrist),
    # ... hand bent back: the thumb drops backward, the palm turns up; pronation holds
    ("pronation", {**SIDEWAYS, "wrist_flexion": -90.0}, +1, weight_moment_about_the_wrist),
    # a ball at rest presses the hand down, whatever the posture
    ("ball_y", CURL, -1, lambda: BALL_KG * G),
]


@pytest.mark.parametrize(("key", "angles_deg", "sense", "size"), STILL)
def test_an_arm_held_still_bears_its_weight_in_the_sense_anatomy_says(key, angles_deg, sense, size):
    assert loads(posture(angles_deg))[key][0] == pytest.approx(sense * size(), rel=1e-12)


def test_a_straight_arm_held_out_sideways_needs_nothing_but_abduction_and_valgus():
    found = loads(posture(SIDEWAYS))
    for key in ("elbow_flexion", "pronation", "wrist_flexion", "internal_rotation", "horizontal_adduction"):
        assert abs(found[key][0]) <= 1e-13, key
    for key in ("shoulder_proximal", "shoulder_anterior", "elbow_proximal", "elbow_anterior", "ball_x", "ball_z"):
        assert abs(found[key][0]) <= 1e-13, key


def test_every_channel_with_a_sense_of_the_body_has_been_given_one():
    checked = {key for key, *_ in STILL}
    assert checked == set(CHANNELS) - {"ball_x", "ball_z"}  # these two at the moving ball, next


def test_a_ball_thrown_to_the_target_presses_back_and_one_swung_to_the_left_presses_right():
    """Arm hanging straight, for an instant at rest; the ball's acceleration is its distance times the turn's.

    Leaning back faster and faster (forward tilt'' < 0) swings everything below the hips, the hand with it, toward the
    target: the ball presses away from it. Adducting a hanging right arm brings the hand to the left: the ball presses
    to the right.
    """
    reach = ARM.upper_arm.length_m + ARM.forearm.length_m + ARM.hand.length_m + BEYOND_M
    below_the_hips = reach - ARM.shoulder_y_m
    found = loads(posture({}, {}, {"trunk_forward_tilt": -50.0}))
    assert below_the_hips > 0.0
    assert found["ball_x"][0] == pytest.approx(-BALL_KG * below_the_hips * 50.0, rel=1e-12)
    found = loads(posture({}, {}, {"abduction": -50.0}))
    assert found["ball_z"][0] == pytest.approx(BALL_KG * reach * 50.0, rel=1e-12)
