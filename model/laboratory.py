"""A throw as a laboratory would see it: markers, sampling, low-pass filter, noise, then inverse dynamics.

Laboratories filter the markers' positions before they compute. Two markers stand at each joint, across the axis that
the joint bends about, and two each at hips and neck; a joint's centre is their middle. Of the filtered centres and axes
the segments' frames are built anew, and the recursion of `dynamics` runs on those:

    z from the joint to the next one,    x = across x z,    y = z x x

The filter (`filtered`) is applied to positions, velocities and accelerations alike, without the error of taking
differences. Noise has no exact derivative; its own are central differences, after the filter. What is filtered goes on
before foot contact and after the follow-through, and the path does not say how. Taken is that every joint comes to
rest, critically damped (`REST_S`), or that the record ends there and is turned about its end points, as filters do with
such a record. What is seen of the last hundredths of a second hangs on it.
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import make_interp_spline

from model.ball import beyond_the_hand_m
from model.chain import (
    Frame,
    Frames,
    Point,
    Points,
    State,
    X,
    Y,
    Z,
    angular_velocities,
    cross,
    dot,
    frames_of,
    points_of,
)
from model.channels import CHANNELS, INDEX
from model.checks import InputError, Limit, check_choice, check_number
from model.dynamics import grip_fraction, inverse_dynamics, resolve
from model.filtered import Moving, low_passed
from model.motion import PHASES, Motion, reference_motion
from model.readouts import Readouts, read, reading_of
from model.segments import Arm, arm_of
from model.solve_recipe import Throwing
from model.throw import Throw, clock_of

Array = NDArray[np.float64]

LIMITS = {
    "rate_hz": Limit(60.0, 20000.0, "Hz"),
    "cut_off_hz": Limit(1.0, 1000.0, "Hz"),
    "marker_m": Limit(0.001, 0.2, "m"),
    "noise_m": Limit(0.0, 0.02, "m"),
}
RECORDS = ("rest", "cut")
REST_S = 0.025  # time constant of coming to rest: a tenth of a second (judgement; 15 and 40 ms see much the same)
BEYOND_S = 0.25  # how long the record goes on at either end


@dataclass(frozen=True)
class Laboratory:
    """How a laboratory records and filters.

    Parameters
    ----------
    cut_off_hz : float or None
        Frequency at which the filter takes off 3 dB in all (Hz); None for no filter.
    rate_hz : float
        Samples a second (Hz); one falls on release.
    marker_m : float
        Distance of each marker from the joint's centre (m).
    noise_m : float
        Standard deviation of each coordinate of each marker (m), independent from sample to sample.
    record : {'rest', 'cut'}
        What lies beyond foot contact and the follow-through: joints that come to rest, or nothing.
    seed : int
        Of the noise.

    Raises
    ------
    InputError
        If a value is outside its accepted range, or the cut-off above 45 % of the rate.
    """

    cut_off_hz: float | None = 13.4
    rate_hz: float = 240.0
    marker_m: float = 0.04
    noise_m: float = 0.0
    record: str = "rest"
    seed: int = 1

    def __post_init__(self) -> None:
        check_choice("record", self.record, RECORDS)
        for field, limit in LIMITS.items():
            if getattr(self, field) is not None:
                object.__setattr__(self, field, check_number(field, getattr(self, field), limit))
        if self.cut_off_hz is not None and self.cut_off_hz > 0.45 * self.rate_hz:
            raise InputError("cut_off_hz", self.cut_off_hz, f"up to 45 % of the {self.rate_hz:g} Hz of the record")


@dataclass(frozen=True)
class View:
    """What a laboratory sees of one throw.

    Attributes
    ----------
    phase, time_s : ndarray (N,)
        Of the samples; time 0 is release.
    values : dict of str to ndarray (N,)
        Torques (N m) and forces (N) by key of `channels.CHANNELS`, of a right-hander.
    speeds : dict of str to ndarray (N,)
        Angular velocities (rad/s) by key of `chain.angular_velocities`, in the sense of the torque of that name.
    external_rotation : ndarray (N,)
        Angle (rad).
    phase_s : float
        Duration of a phase (s).
    frames : Frames
        Of the segments, as they follow from the filtered markers.
    """

    phase: Array
    time_s: Array
    values: dict[str, Array]
    speeds: dict[str, Array]
    external_rotation: Array
    phase_s: float
    frames: Frames

    def read(self, key: str) -> Readouts:
        """Read one quantity, by the definitions of `readouts.read`; between samples the curve is a cubic spline.

        Parameters
        ----------
        key : str
            As for `readouts.reading_of`.

        Returns
        -------
        Readouts
            Of plain numbers; no work, no time above a level.
        """
        reading = reading_of(key)
        curve = reading.sign * self.at_phases(self.values[reading.channel])
        found = read(PHASES, curve, window=(reading.start_phase, reading.end_phase)).in_time(self.phase_s)
        return Readouts(**{name: value.item() for name, value in vars(found).items()})

    def at_phases(self, curve: Array) -> Array:
        """A sampled curve at `motion.PHASES`, by a cubic spline.

        Parameters
        ----------
        curve : ndarray (N,)

        Returns
        -------
        ndarray (501,)
        """
        return np.asarray(make_interp_spline(self.phase, curve, k=3)(PHASES))


def seen_by(laboratory: Laboratory, throw: Throw) -> View:
    """See a throw on the reference path."""
    return seen_of(laboratory, reference_motion(), Throwing(throw.person, throw.ball, clock_of(throw)))


def seen_of(laboratory: Laboratory, motion: Motion, throwing: Throwing) -> View:
    """See a throw on any path.

    Parameters
    ----------
    throwing : Throwing
        Who throws what, at which time-scale factor.
    """
    phase_s = motion.duration_s / throwing.clock
    phase = sample_phases(laboratory.rate_hz, phase_s)
    arm, beyond_m = arm_of(throwing.person), beyond_the_hand_m(throwing.ball.diameter_m)
    extra = 0 if laboratory.record == "cut" else round(BEYOND_S * laboratory.rate_hz)
    state = _state(motion, throwing.clock, phase, extra, 1.0 / (laboratory.rate_hz * phase_s))
    centres, across = ({k: one.middle(extra) for k, one in of.items()} for of in _markers(laboratory, state, arm))
    frames, points = _chain_of(centres, across, arm, beyond_m)
    loads = resolve(frames, inverse_dynamics(frames, points, arm, throwing.ball.mass_kg, grip_fraction(phase)))
    turned = np.arctan2(
        dot(frames.upper_arm.axis(Y), -frames.shoulder.axis(X)), dot(frames.upper_arm.axis(Y), frames.shoulder.axis(Y))
    )
    return View(
        phase,
        (phase - 1.0) * phase_s,
        {key: loads[:, INDEX[key]] for key in CHANNELS},
        angular_velocities(frames),
        np.unwrap(turned),
        phase_s,
        frames,
    )


def sample_phases(rate_hz: float, phase_s: float) -> Array:
    """Phases of the samples: all that fall within 0 to 1.25, one on release.

    Parameters
    ----------
    rate_hz : float
        Samples a second.
    phase_s : float
        Duration of a phase (s).

    Returns
    -------
    ndarray (N,)
    """
    step = 1.0 / (rate_hz * phase_s)
    before, after = int(np.floor(1.0 / step + 1e-9)), int(np.floor(0.25 / step + 1e-9))
    return np.clip(1.0 + step * np.arange(-before, after + 1), 0.0, PHASES[-1])


def _state(motion: Motion, clock: float, phase: Array, extra: int, step: float) -> State:
    """The motion at its samples, and as many more at either end over which every joint comes to rest."""
    inside = motion.state(phase, clock)
    if not extra:
        return inside
    after_s = np.arange(1, extra + 1)[:, None] * step * motion.duration_s / clock
    names = ("angles", "rates", "accelerations"), ("travel", "travel_rate", "travel_acceleration")
    parts: dict[str, Array] = {}
    for of in names:
        ends = []
        for at, way in ((0, -1.0), (-1, 1.0)):
            q, v, a = (np.atleast_1d(getattr(inside, name)[at]) for name in of)
            ends.append(_to_rest(q, way * v, a, after_s, way))
        before, after = ends
        for name, early, late in zip(of, before, after, strict=True):
            middle = getattr(inside, name)
            shape = (-1, *middle.shape[1:])
            parts[name] = np.concatenate((early[::-1].reshape(shape), middle, late.reshape(shape)))
    return State(**parts)


def _to_rest(q: Array, v: Array, a: Array, elapsed_s: Any, way: float) -> tuple[Array, Array, Array]:
    """Critically damped from a place, speed and acceleration: q + A + (B t / T - A) e^(-t / T), A = 2 T v + T2 a."""
    t = elapsed_s / REST_S
    far = 2.0 * REST_S * v + REST_S**2 * a
    slope = REST_S * v - far
    fading = np.exp(-t)
    along = -far + slope * t
    return (
        q + far + along * fading,
        way * (slope - along) * fading / REST_S,
        (along - 2.0 * slope) * fading / REST_S**2,
    )


def _markers(laboratory: Laboratory, state: State, arm: Arm) -> tuple[dict[str, Moving], dict[str, Moving]]:
    """Centre of each joint's two filtered markers, and the vector from one to the other."""
    frames = frames_of(state)
    points = points_of(frames, state, arm, 0.0)
    neck = _on(points.hips, frames.trunk, Y, arm.shoulder_y_m)
    places = {
        "hips": (points.hips, frames.trunk, Z),
        "neck": (neck, frames.trunk, Z),
        "shoulder": (points.shoulder, frames.upper_arm, Y),
        "elbow": (points.elbow, frames.forearm, Y),
        "wrist": (points.wrist, frames.hand, Y),
        "hand_end": (points.ball, frames.hand, Y),
    }
    noise = np.random.default_rng(laboratory.seed)
    centres, across = {}, {}
    for name, (point, frame, axis) in places.items():
        sides = (laboratory.marker_m, -laboratory.marker_m)
        one, other = (_recorded(laboratory, _on(point, frame, axis, side), noise) for side in sides)
        centres[name], across[name] = (one + other).times(0.5), one + other.times(-1.0)
    return centres, across


def _on(point: Point, frame: Frame, axis: int, distance_m: Any) -> Point:
    """A point fixed in a frame, a distance along one of its axes from another."""
    arm = distance_m * frame.axis(axis)
    swing = cross(frame.omega, arm)
    turned = cross(frame.alpha, arm) + cross(frame.omega, swing)
    return Point(point.position + arm, point.velocity + swing, point.acceleration + turned)


def _recorded(laboratory: Laboratory, marker: Point, noise: np.random.Generator) -> Moving:
    """A marker as it is seen after noise and filter."""
    seen = low_passed(
        Moving(marker.position, marker.velocity, marker.acceleration), laboratory.cut_off_hz, laboratory.rate_hz
    )
    if laboratory.noise_m == 0.0:
        return seen
    wobble = noise.normal(scale=laboratory.noise_m, size=marker.position.shape)
    wobble = low_passed(
        Moving(wobble, np.zeros_like(wobble), np.zeros_like(wobble)), laboratory.cut_off_hz, laboratory.rate_hz
    ).now
    rate = np.gradient(wobble, 1.0 / laboratory.rate_hz, axis=0, edge_order=2)
    return seen + Moving(wobble, rate, np.gradient(rate, 1.0 / laboratory.rate_hz, axis=0, edge_order=2))


def _frame(x: Moving, y: Moving, z: Moving) -> Frame:
    """The moving frame of three unit vectors: omega = sum of e x e' / 2, alpha its derivative."""
    axes = (x, y, z)
    omega, alpha = cross(x.now, x.rate), cross(x.now, x.change)
    for axis in (y, z):
        omega, alpha = omega + cross(axis.now, axis.rate), alpha + cross(axis.now, axis.change)
    return Frame(np.stack([axis.now for axis in axes], axis=-1), 0.5 * omega, 0.5 * alpha)


def _chain_of(
    centres: dict[str, Moving], across: dict[str, Moving], arm: Arm, beyond_m: float
) -> tuple[Frames, Points]:
    """Frames and points of the chain as they follow from the joints' centres and axes."""

    def between(start: str, end: str) -> Moving:
        return (centres[end] + centres[start].times(-1.0)).unit()

    def segment(z: Moving, bends_about: Moving) -> Frame:
        x = bends_about.across(z).unit()
        return _frame(x, z.across(x), z)

    spine, upper, fore, hand = (
        between(*pair) for pair in (("hips", "neck"), ("shoulder", "elbow"), ("elbow", "wrist"), ("wrist", "hand_end"))
    )
    forward = spine.across(across["hips"]).unit()
    girdle = spine.across(upper).unit()
    frames = Frames(
        trunk=_frame(forward, spine, forward.across(spine)),
        shoulder=_frame(girdle, upper.across(girdle), upper),
        upper_arm=segment(upper, across["elbow"]),
        forearm=segment(fore, across["elbow"]),
        hand=segment(hand, across["wrist"]),
    )
    places = {
        "hips": centres["hips"],
        "shoulder": centres["shoulder"],
        "elbow": centres["elbow"],
        "wrist": centres["wrist"],
        "ball": centres["wrist"] + hand.times(arm.hand.length_m + beyond_m),
        "upper_arm_centre": centres["shoulder"] + upper.times(arm.upper_arm.centre_m),
        "forearm_centre": centres["elbow"] + fore.times(arm.forearm.centre_m),
        "hand_centre": centres["wrist"] + hand.times(arm.hand.centre_m),
    }
    return frames, Points(**{name: Point(*vars(place).values()) for name, place in places.items()})
