"""The path basis: what every arm on one path needs, as one small table times products of the arm's measures.

All arms on a path share its joint angles, and so the directions e_U, e_F, e_H of upper arm, forearm and hand (shoulder
to elbow to wrist to hand's end), the angular velocities of their frames, and the accelerations a_U, a_F, a_H of unit
arrows' tips along them. The hips' travel and the shoulder's place in the trunk grow with stature h, so that the
shoulder's acceleration is h a_R. With lengths Lu, Lf, masses m, distances c of the centres of mass from the proximal
joints, principal inertias I about the centres of mass, and gravity g, put

    Me = mf + mh,    Ms = mu + Me                                       masses beyond elbow and shoulder
    Sh = mh ch,      Sf = mf cf + mh Lf,      Su = mu cu + Me Lu        first moments, all beyond hung at the distal end
    Jh = Ih + mh ch2 d,   Jf = If + (mf cf2 + mh Lf2) d,   Ju = Iu + (mu cu2 + Me Lu2) d,    d = (1, 1, 0)

Forces first. What lies beyond the elbow has its mass at h a_R + Lu a_U, and the rest of its acceleration along forearm
and hand; the same one joint nearer (F is what the nearer part exerts on the farther):

    F_elbow    = Me h a_R + Me Lu a_U + Sf a_F + Sh a_H - Me g
    F_shoulder = Ms h a_R + Su a_U    + Sf a_F + Sh a_H - Ms g

A moment about a proximal joint is that about the next one, plus the segment's own change of angular momentum about the
proximal joint, plus its length crossed with the force at its distal end. With s_k = (alpha . e_k) e_k + (omega . e_k)
omega x e_k for each axis of a segment's frame, sum_k J_k s_k is the change of angular momentum about its proximal joint
as if that stood still: since e x a = sum_k d_k s_k for the segment's own arrow, the parallel-axis terms of all that
hangs at the distal end fold into J. What is left are the first moments' moments against the joint's own acceleration:

    M_wrist    = Jh s_H + Sh e_H x (h a_R + Lu a_U + Lf a_F - g)
    M_elbow    = Jh s_H + Jf s_F + Sh Lf (e_H x a_F + e_F x a_H)
                 + Sh e_H x (h a_R + Lu a_U - g) + Sf e_F x (h a_R + Lu a_U - g)
    M_shoulder = Jh s_H + Jf s_F + Ju s_U + Sh Lf (e_H x a_F + e_F x a_H) + Sh Lu (e_H x a_U + e_U x a_H)
                 + Sf Lu (e_F x a_U + e_U x a_F) + (Sh e_H + Sf e_F + Su e_U) x (h a_R - g)

(Lf e_F x F_wrist gives Sh Lf e_F x a_H, and of its mh Lf e_F x (h a_R + Lu a_U + Lf a_F - g) the last goes into Jf and
the others make Sf of mf cf; Lu e_U x F_elbow does the same one joint nearer.) A ball is the same formulas with a "hand"
of one kilogram, all of it at the ball's distance b beyond the wrist and nothing else: Me = Ms = 1, Sh = b, Sf = Lf,
Su = Lu, Jh = b2 d, Jf = Lf2 d, Ju = Lu2 d; times the share of it that the fingers still hold. The ball's velocity at
release is linear in (h, Lu, Lf, b), and the path's own speed its length.

So each channel is a table (terms, N), resolved along its axis, times the products: exact, for every arm. The tables of
the moments do not have full rank (their terms are not independent): products are put in, never fitted.
"""

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.chain import Frame, Frames, Point, X, Y, Z, cross, frames_of, reached, unit_arrow
from model.channels import CHANNELS
from model.dynamics import GRAVITY_M_S2, Wrench, Wrenches, grip_fraction, resolve, spin_of
from model.motion import PHASES, Motion, reference_motion
from model.segments import SHOULDER_SHARE, Arm

Array = NDArray[np.float64]

PRODUCTS = (
    *(f"J{part}_{axis}" for part in "hfu" for axis in "xyz"),
    *("Sh Lf", "Sh Lu", "Sf Lu", "Sh h", "Sf h", "Su h", "Me h", "Me Lu", "Ms h", "Su", "Sf", "Sh", "Me", "Ms"),
)
"""Products of an arm's measures, in SI, in the order of every vector of products; those of weight are the last five."""

_PLACE = {product: i for i, product in enumerate(PRODUCTS)}
_SPINS = PRODUCTS[:9]
_TERMS = {  # of motion, and of weight
    "wrist": ((*_SPINS[:3], "Sh Lf", "Sh Lu", "Sh h"), ("Sh",)),
    "elbow": ((*_SPINS[:6], "Sh Lf", "Sh Lu", "Sf Lu", "Sh h", "Sf h"), ("Sh", "Sf")),
    "shoulder": ((*_SPINS, "Sh Lf", "Sh Lu", "Sf Lu", "Sh h", "Sf h", "Su h"), ("Sh", "Sf", "Su")),
    "elbow force": (("Me h", "Me Lu", "Sf", "Sh"), ("Me",)),
    "shoulder force": (("Ms h", "Su", "Sf", "Sh"), ("Ms",)),
}
_GROUP = {
    key: channel.joint + (" force" if channel.unit == "N" else "") for key, channel in CHANNELS.items()
} | dict.fromkeys(("ball_x", "ball_y", "ball_z"), "elbow force")  # one kilogram alone: its force is that at the elbow
_PASSES_ON = {"wrist": 0, "F": 1, "elbow": 1, "U": 2, "shoulder": 2}  # joints, and the segments that end before them
_BALL_ONLY = ("ball_x", "ball_y", "ball_z")


@dataclass(frozen=True)
class Table:
    """One channel over phase, for each product.

    Attributes
    ----------
    terms, weight_terms : ndarray of int (T,), (G,)
        Places in `PRODUCTS`.
    motion, weight : ndarray (T, N), (G, N)
        N m or N for each unit of product, at time-scale factor 1.
    ball_only : bool
        Whether the arm has no part in it.
    """

    terms: NDArray[np.intp]
    weight_terms: NDArray[np.intp]
    motion: Array
    weight: Array
    ball_only: bool


@dataclass(frozen=True)
class PathBasis:
    """What every arm on a path needs.

    Attributes
    ----------
    phase, held : ndarray (N,)
        Phases, and the share of the ball's force that the hand bears there.
    tables : dict of str to Table
        By key of `channels.CHANNELS`.
    release : ndarray (4, 3)
        Velocity (m/s) of the ball's centre at release, for each metre of stature, upper arm, forearm, wrist to ball.
    duration_s : float
        Foot contact to release at time-scale factor 1 (s).
    max_external_rotation_phase : float
        As `PathLoads` has it.
    """

    phase: Array
    held: Array
    tables: dict[str, Table]
    release: Array
    duration_s: float
    max_external_rotation_phase: float

    def path_speed_m_s(self, arm: Arm, beyond_hand_m: Any) -> Any:
        """Release speed of the ball's centre at time-scale factor 1.

        Parameters
        ----------
        arm : Arm
            One, or many stacked.
        beyond_hand_m : float or ndarray (n,)
            Distance of the ball's centre beyond the hand's end (m).

        Returns
        -------
        float or ndarray (n,)
            m/s.
        """
        ball_m = arm.hand.length_m + np.asarray(beyond_hand_m)
        lengths = np.broadcast_arrays(arm.stature_m, arm.upper_arm.length_m, arm.forearm.length_m, ball_m)
        speed = np.sqrt(np.square(np.stack(lengths, axis=-1) @ self.release).sum(axis=-1))
        return float(speed) if speed.ndim == 0 else speed

    def loads(self, key: str, products: Array, ball: bool = False) -> tuple[Array, Array]:
        """One channel of arms, or of a kilogram of ball in their hands: of motion at factor 1, and of weight.

        Parameters
        ----------
        key : str
            A key of `channels.CHANNELS`.
        products : ndarray (..., P)
            From `products_of_arm`, or with `ball` from `products_of_ball`.

        Returns
        -------
        motion, weight : ndarray (..., N)
            N m or N; for the ball for each kg, as long as the hand bears it.
        """
        table = self.tables[key]
        if table.ball_only and not ball:
            nothing = np.zeros((*products.shape[:-1], self.phase.size))
            return nothing, nothing
        motion, weight = products[..., table.terms] @ table.motion, products[..., table.weight_terms] @ table.weight
        return (motion * self.held, weight * self.held) if ball else (motion, weight)

    def curves(self, key: str, arm: Array, ball: Array, mass_kg: Array, clock: Array, samples: slice) -> Array:
        """One channel of many throws, each with its own arm: s2 (A + m B) + (G_A + m G_B).

        Parameters
        ----------
        key : str
            A key of `channels.CHANNELS`.
        arm, ball : ndarray (R, P)
            From `products_of_arm` and `products_of_ball`; one row (1, P) serves all throws.
        mass_kg, clock : ndarray (R,)
            Ball mass (kg) and time-scale factor s.
        samples : slice
            Of the phases.

        Returns
        -------
        ndarray (R, M)
            N m or N.
        """
        table, held = self.tables[key], self.held[samples]
        used = np.concatenate((table.terms, table.weight_terms))
        squared = np.ones((clock.size, used.size))
        squared[:, : table.terms.size] = clock[:, None] ** 2
        rows = np.concatenate((table.motion[:, samples], table.weight[:, samples]))
        of_ball = squared * mass_kg[:, None] * ball[:, used]
        of_arm = np.zeros_like(of_ball) if table.ball_only else squared * arm[:, used]
        whole, part = int(np.count_nonzero(held == 1.0)), int(np.count_nonzero(held > 0.0))  # held falls, once
        found = np.empty((clock.size, held.size))
        np.matmul(of_arm + of_ball, rows[:, :whole], out=found[:, :whole])
        np.matmul(of_arm, rows[:, whole:], out=found[:, whole:])
        found[:, whole:part] += of_ball @ (rows[:, whole:part] * held[whole:part])
        return found


def products_of_arm(arm: Arm) -> Array:
    """Products of an arm's own measures.

    Parameters
    ----------
    arm : Arm
        One, or many stacked; its shoulder lies at `segments.SHOULDER_SHARE` of stature.

    Returns
    -------
    ndarray (P,) or (n, P)
        In the order of `PRODUCTS`, SI.

    Raises
    ------
    ValueError
        If a shoulder lies elsewhere: its stature would not say how it moves.
    """
    shoulder = np.stack((arm.shoulder_x_m, arm.shoulder_y_m, arm.shoulder_z_m), axis=-1)
    if not np.allclose(shoulder, np.asarray(arm.stature_m)[..., None] * np.array(SHOULDER_SHARE), rtol=1e-12, atol=0.0):
        raise ValueError(f"shoulder at {shoulder.tolist()} m given; accepted: {SHOULDER_SHARE} of stature")
    parts = (arm.hand, arm.forearm, arm.upper_arm)
    (mh, mf, mu), (ch, cf, cu) = ([getattr(part, f) for part in parts] for f in ("mass_kg", "centre_m"))
    lf, lu, h = arm.forearm.length_m, arm.upper_arm.length_m, arm.stature_m
    me = mf + mh
    folded = (mh * ch**2, mf * cf**2 + mh * lf**2, mu * cu**2 + me * lu**2)
    inertias = [
        inertia
        for part, far in zip(parts, folded, strict=True)
        for inertia in (part.inertia_x_kg_m2 + far, part.inertia_y_kg_m2 + far, part.inertia_z_kg_m2)
    ]
    return _products(inertias, (mh * ch, mf * cf + mh * lf, mu * cu + me * lu), (me, mu + me), (lf, lu, h))


def products_of_ball(arm: Arm, beyond_hand_m: Any) -> Array:
    """Products of one kilogram of ball in an arm's hand, and of nothing else.

    Parameters
    ----------
    arm : Arm
        One, or many stacked.
    beyond_hand_m : float or ndarray (n,)
        Distance of the ball's centre beyond the hand's end (m).

    Returns
    -------
    ndarray (P,) or (n, P)
        In the order of `PRODUCTS`, SI for each kg.
    """
    b, lf, lu = arm.hand.length_m + np.asarray(beyond_hand_m), arm.forearm.length_m, arm.upper_arm.length_m
    inertias = [number for length in (b, lf, lu) for number in (length**2, length**2, 0.0 * length)]
    return _products(inertias, (b, lf, lu), (1.0, 1.0), (lf, lu, arm.stature_m))


def _products(inertias: list[Any], first: tuple[Any, ...], masses: tuple[Any, ...], lengths: tuple[Any, ...]) -> Array:
    (sh, sf, su), (me, ms), (lf, lu, h) = first, masses, lengths
    products = (sh * lf, sh * lu, sf * lu, sh * h, sf * h, su * h, me * h, me * lu, ms * h, su, sf, sh, me, ms)
    return np.stack(np.broadcast_arrays(*inertias, *products), axis=-1)


def path_basis_of(motion: Motion, phase: ArrayLike = PHASES) -> PathBasis:
    """Find the basis of a path.

    Parameters
    ----------
    phase : array_like (N,)
    """
    phase = np.asarray(phase, dtype=float)
    state = motion.state(phase)
    frames = frames_of(state)
    root = _root(frames, state.travel_acceleration)
    arrows = {"R": root, **{k: unit_arrow(f, Z).acceleration for k, f in _segments(frames).items()}}
    moving, weight = _motion_terms(frames, arrows), _weight_terms(frames)
    tables = {}
    for place, (key, group) in enumerate(_GROUP.items()):
        terms, weight_terms = _TERMS[group]
        tables[key] = Table(
            np.array([_PLACE[term] for term in terms]),
            np.array([_PLACE[term] for term in weight_terms]),
            np.stack([_along(frames, group, place, moving[group, term]) for term in terms]),
            np.stack([_along(frames, group, place, weight[group, term]) for term in weight_terms]),
            key in _BALL_ONLY,
        )
    return PathBasis(
        phase, grip_fraction(phase), tables, _release(motion), motion.duration_s, motion.max_external_rotation_phase
    )


@cache
def reference_basis() -> PathBasis:
    """The basis of the reference path.

    Returns
    -------
    PathBasis
        At `motion.PHASES`.
    """
    return path_basis_of(reference_motion())


def _segments(frames: Frames) -> dict[str, Frame]:
    return {"H": frames.hand, "F": frames.forearm, "U": frames.upper_arm}


def _root(frames: Frames, travel_acceleration: Array) -> Array:
    """Acceleration of the shoulder for each metre of stature."""
    toward_target = np.array([1.0, 0.0, 0.0])
    nothing = np.zeros((travel_acceleration.size, 3))
    hips = Point(nothing, nothing, travel_acceleration[:, None] * toward_target)
    out = [(share, unit_arrow(frames.trunk, axis)) for share, axis in zip(SHOULDER_SHARE, (X, Y, Z), strict=True)]
    return reached(hips, *out).acceleration


def _motion_terms(frames: Frames, a: dict[str, Array]) -> dict[tuple[str, str], Array]:
    """Vector of each joint's moment or force for each product, (N, 3) in the lab frame."""
    e = {k: frame.axis(Z) for k, frame in _segments(frames).items()}
    spins = [spin_of(frame, axis) for frame in _segments(frames).values() for axis in (X, Y, Z)]
    shared = dict(zip(_SPINS, spins, strict=True))
    shared |= {f"S{k.lower()} h": cross(e[k], a["R"]) for k in "HFU"}
    shared |= {"Sh": a["H"], "Sf": a["F"], "Su": a["U"], "Me Lu": a["U"], "Me h": a["R"], "Ms h": a["R"]}
    found = {}
    for group, (terms, _) in _TERMS.items():
        for term in terms:
            if term in shared:
                found[group, term] = shared[term]
                continue
            first, length = term[1].upper(), term[-1].upper()  # Sh Lf: the hand's first moment on the forearm's length
            found[group, term] = cross(e[first], a[length])
            if _PASSES_ON[group] >= _PASSES_ON[length]:  # the moment of the force at that segment's distal end
                found[group, term] = found[group, term] + cross(e[length], a[first])
    return found


def _weight_terms(frames: Frames) -> dict[tuple[str, str], Array]:
    """The same of weight: moments - e x g, forces - g."""
    up = np.broadcast_to(-GRAVITY_M_S2, frames.hand.axis(Z).shape)
    levers = {f"S{k.lower()}": cross(frame.axis(Z), up) for k, frame in _segments(frames).items()}
    found = {}
    for group, (_, terms) in _TERMS.items():
        for term in terms:
            found[group, term] = levers.get(term, up)
    return found


def _along(frames: Frames, group: str, place: int, vector: Array) -> Array:
    """A channel's component of a joint's moment or force, by the very axes and signs of `dynamics.resolve`."""
    nothing = np.zeros_like(vector)
    none = Wrench(nothing, nothing)
    wrench = Wrench(vector, nothing) if "force" in group else Wrench(nothing, vector)
    joint = group.split()[0]
    ball = Wrench(vector, nothing) if group == "elbow force" else none
    parts = {name: wrench if name == joint else none for name in ("shoulder", "elbow", "wrist")}
    return np.ascontiguousarray(resolve(frames, Wrenches(**parts, ball=ball))[:, place])


def _release(motion: Motion) -> Array:
    state = motion.state(np.array([1.0]))
    frames = frames_of(state)
    toward_target = np.array([1.0, 0.0, 0.0])
    hips = Point(np.zeros(3), state.travel_rate[0] * toward_target, np.zeros(3))
    out = [(share, unit_arrow(frames.trunk, axis)) for share, axis in zip(SHOULDER_SHARE, (X, Y, Z), strict=True)]
    rows = [reached(hips, *out).velocity, *(unit_arrow(f, Z).velocity for f in reversed(_segments(frames).values()))]
    return np.stack([row.reshape(3) for row in rows])
