"""An athlete's throws as the band sees them: what is read off them when the arm, the ball and the speed are drawn.

Of what is not known of one throw, the ball's mass lies evenly within 2 % of what is printed on it, and the same ball is
the same wherever it is thrown; the radar's readings scatter; its calibration is shared by all of them; and the arm is
that of `body_spread`.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from model.ball import Ball
from model.band_table import Key
from model.body_spread import ArmProducts, best_products, drawn_products
from model.channels import CHANNELS, READINGS, Reading
from model.equivalent_mass import equivalent_mass
from model.path_basis import reference_basis
from model.person import Person
from model.readouts import path_angular_velocity, read
from model.speed import SpeedProfile
from model.speed_draws import draws_of
from model.structural_field import DRAWS, Place, deviates, evenly, field, place_of
from model.throw import path_loads

Array = NDArray[np.float64]

BALL_MASS = 0.02  # half width of what a ball's mass may differ from what is printed on it, relative (judgement)
CALIBRATION_SD = 0.01  # of a radar, relative: half a mile an hour in fifty (judgement)
PEOPLE_SD = {"N·m": 0.15, "N": 0.09, "s": 0.10}
"""How people differ at one size and speed, relative, of a torque, a force and a time: what Solomito 2013 (1-kinetics-52
and -53, 19 and 21 %) and Fleisig 1995 (1-kinetics-07 to -13) leave when size and speed are taken out (judgement)."""

EVERY = 4  # every so many phases of `motion.PHASES` for drawn curves: spreads need no more
_POWER = {"peak": 2.0, "area": 1.0, "rise_rate": 3.0, "work_in_j": 2.0, "work_out_j": 2.0}  # of speed; times: -1


ORIGIN = Place(0.0, 0.0, 0.0, 0.0, False)  # the own ball at full effort


@dataclass(frozen=True)
class Subject:
    """Who throws, as the band must know it.

    Attributes
    ----------
    full_speed_m_s : float
        Full-effort release speed with the own ball (m/s); the zero of y for all throws.
    calibration_sd : float
        Relative error that all readings of the radar share: of levels, not of differences.
    """

    person: Person
    own_ball: Ball
    full_speed_m_s: float
    calibration_sd: float = CALIBRATION_SD

    def place(self, throw: "Thrown") -> Place:
        """Where a throw lies in the field."""
        own_kg = self.own_ball.mass_kg
        mu_kg = _mu_kg(self.person, self.own_ball)
        return place_of(throw.ball.mass_kg, throw.speed_m_s, own_kg, mu_kg, self.full_speed_m_s)


@lru_cache(maxsize=256)
def _mu_kg(person: Person, ball: Ball) -> float:
    return equivalent_mass(path_loads(person, ball.diameter_m), ball.mass_kg).mass_kg


@dataclass(frozen=True)
class Thrown:
    """A throw to be compared.

    Attributes
    ----------
    speed_m_s : float
        Best estimate of the release speed (m/s).
    speeds_m_s : ndarray (DRAWS,) or None
        What the radar leaves open of it, draw by draw (m/s); None where it is taken as exact.
    """

    ball: Ball
    speed_m_s: float
    speeds_m_s: Array | None = None


def subject_of(person: Person, own_ball: Ball, profile: SpeedProfile) -> Subject:
    """An athlete as the band must know one, from the radar readings.

    Returns
    -------
    Subject
        Calibrated as the readings' correction says, if there is one.

    Raises
    ------
    InputError
        Without any full-effort reading or own-ball speed.
    """
    own_speed = float(profile.own_speed().estimate)
    return Subject(person, own_ball, own_speed, profile.common_relative_sd or CALIBRATION_SD)


def on_profile(profile: SpeedProfile, balls: Iterable[Ball]) -> tuple[Thrown, ...]:
    """An athlete's mean full-effort throws: what the readings leave open is drawn once for all of them.

    Raises
    ------
    InputError
        Without any full-effort reading or own-ball speed, or if a mass is not accepted.
    """
    drawn = draws_of(profile, DRAWS.bit_length() - 1)
    found = []
    for ball in balls:
        best = float(profile.mean_speed(ball.mass_kg).estimate)
        found.append(Thrown(ball, best, np.exp(drawn.log_own - drawn.p * profile.x(ball.mass_kg))))
    return tuple(found)


def with_scatter(throw: Thrown, relative_sd: float, name: str) -> Thrown:
    """A throw read with a scatter of its own.

    Parameters
    ----------
    relative_sd : float
        Standard deviation of the speed, relative.
    name : str
        Another for each throw: its scatter is independent of all others'.
    """
    speeds = throw.speed_m_s if throw.speeds_m_s is None else throw.speeds_m_s
    return Thrown(throw.ball, throw.speed_m_s, speeds * np.exp(relative_sd * deviates(f"scatter {name}")))


@dataclass(frozen=True)
class ReadThrow:
    """Logarithms of what is read off one throw.

    Attributes
    ----------
    stream : int
        Which athlete's draws.
    best : dict of (str, str) to float
        By the clock law at the best estimates.
    radar : dict of (str, str) to ndarray (DRAWS,) or (1,)
        From the speeds alone; one number where the speed is taken as exact.
    drawn : dict of (str, str) to ndarray (DRAWS,)
        With body, ball and speed drawn.
    """

    subject: Subject
    stream: int
    best: dict[Key, float]
    radar: dict[Key, Array]
    drawn: dict[Key, Array]

    def alone(self, key: Key, place: Place) -> Array:
        """A readout's logarithm with nothing shared: the athlete's own field, way of moving and radar added."""
        found = self.drawn[key] + spread_of_people(key) * deviates("people " + "|".join(key), self.stream)
        found = found + _POWER.get(key[1], -1.0) * self.subject.calibration_sd * deviates("calibration")
        return found + field(key, place, ORIGIN, self.stream)


def read_throw(subject: Subject, throw: Thrown, keys: tuple[Key, ...], stream: int = 0) -> ReadThrow:
    """Read a throw, with all that is not known of it.

    Parameters
    ----------
    keys : tuple of (str, str)
        Readings and readouts.
    stream : int
        Which athlete's draws.
    """
    drawn = None if throw.speeds_m_s is None else throw.speeds_m_s.tobytes()
    return _read_once(subject, throw.ball, throw.speed_m_s, drawn, keys, stream)


@lru_cache(maxsize=64)
def _read_once(
    subject: Subject, ball: Ball, speed_m_s: float, drawn: bytes | None, keys: tuple[Key, ...], stream: int
) -> ReadThrow:
    speeds_m_s = None if drawn is None else np.frombuffer(drawn)
    return _read_throw(subject, Thrown(ball, speed_m_s, speeds_m_s), keys, stream)


def _read_throw(subject: Subject, throw: Thrown, keys: tuple[Key, ...], stream: int) -> ReadThrow:
    diameter_m, mass_kg = throw.ball.diameter_m, throw.ball.mass_kg
    arm, one = best_products(subject.person, diameter_m), np.array([throw.speed_m_s])
    finely, coarsely = (_logs(arm, np.array([mass_kg]), one, keys, every) for every in (1, EVERY))
    speeds = one if throw.speeds_m_s is None else throw.speeds_m_s
    radar = _logs(arm, np.full(speeds.size, mass_kg), speeds, keys, EVERY)
    masses = mass_kg * (1.0 + BALL_MASS * (2.0 * evenly(f"ball {mass_kg:.6f} {diameter_m:.6f}") - 1.0))
    arms = drawn_products(subject.person, diameter_m, stream)
    drawn = _logs(arms, masses, np.broadcast_to(speeds, (DRAWS,)), keys, EVERY)
    apart = {key: finely[key] - coarsely[key] for key in keys}  # fewer phases read a little otherwise
    return ReadThrow(
        subject,
        stream,
        {key: float(finely[key][0]) for key in keys},
        {key: radar[key] + apart[key] for key in keys},
        {key: drawn[key] + apart[key] for key in keys},
    )


def spread_of_people(key: Key) -> float:
    """How a readout differs among people of one size at one speed, relative.

    Parameters
    ----------
    key : (str, str)
        Reading and readout.

    Returns
    -------
    float
        Standard deviation of its logarithm.
    """
    reading, readout = key
    size, time = PEOPLE_SD[READINGS[reading].unit], PEOPLE_SD["s"]
    if readout.endswith("_s"):
        return time
    return float(np.hypot(size, time)) if readout in ("area", "rise_rate") else size


def _logs(arms: ArmProducts, mass_kg: Array, speed_m_s: Array, keys: tuple[Key, ...], every: int) -> dict[Key, Array]:
    """Natural logarithms of the sizes of readouts (n,); NaN where there is none."""
    basis = reference_basis()
    clock = speed_m_s / arms.path_speed_m_s
    found = {}
    for name in dict.fromkeys(reading for reading, _ in keys):
        reading = READINGS[name]
        samples = slice(0, _last(reading) + 1, every)
        curves = reading.sign * basis.curves(reading.channel, arms.arm, arms.ball, mass_kg, clock, samples)
        worked = CHANNELS[reading.channel].turns is not None and any(
            of == name and readout.startswith("work") for of, readout in keys
        )
        rate = path_angular_velocity(reading) if worked else None
        window = (reading.start_phase, reading.end_phase)
        rates = None if rate is None else rate[samples]
        read_off = read(basis.phase[samples], curves, window=window, rate=rates).in_time(basis.duration_s / clock)
        for of, readout in keys:
            if of == name:
                sizes = np.abs(getattr(read_off, readout))
                found[of, readout] = np.log(np.where(sizes > 0.0, sizes, np.nan))
    return found


def _last(reading: Reading) -> int:
    return int(np.searchsorted(reference_basis().phase, reading.end_phase - 1e-9))
