"""A claim: "a throw with this ball loads the arm more than one with that ball", put to every readout.

`settled` puts it with all that is not known of the two throws (`structural_band`): supported, not supported, or it
cannot be told. What stands below it rests on the speeds alone, as if everybody kept to the clock law:

Both throws are the athlete's mean full-effort throws, or have a speed that is given. What the radar readings leave open
of the athlete is one set of unknowns (own-ball speed, exponent, scatter), and both speeds come from the same draw of
it: what they share drops out of the difference. Each draw goes through the mass-speed identity as it stands, gravity,
moving peak and all; no first-order law is used. The draws are points that fill the posterior evenly, not random ones:
the same readings give the same answer.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from model.ball import BALL_LIMITS
from model.channels import READINGS, Reading
from model.checks import check_choice, check_number
from model.drawn_throws import Subject, Thrown
from model.identity import PathLoads
from model.interval import LEVEL, Interval, tails_of
from model.quantity import READOUTS, ROWS, curve_parts
from model.readouts import read
from model.speed import SpeedProfile
from model.speed_draws import draws_of
from model.structural_band import BandDifference
from model.structural_band import differences as band_differences
from model.throw import SPEED_LIMIT

Array = NDArray[np.float64]

HOLDS_FROM = 0.90  # probability from which a claim holds, and from which its contrary does (judgement)
NO_DIFFERENCE = 0.005  # relative: below it prints as 0 %, and 0.1 m/s more at 30 m/s move a peak by more
DRAWS_LOG2 = 14  # 16 384 draws: probabilities to about 0.001
NODES = ROWS  # speeds at which a readout is computed; straight between them, its power of the speed taken out


def settled(
    subject: Subject, first: Thrown, second: Thrown, reading: str, level: float = LEVEL
) -> dict[str, BandDifference]:
    """Put a claim to every readout, with all that is not known of the two throws.

    Parameters
    ----------
    subject : Subject
        Who throws both.
    first, second : Thrown
        From `drawn_throws.on_profile`, or speeds that are given.
    reading : str
        A key of `channels.READINGS`.
    level : float
        Probability of the intervals.

    Returns
    -------
    dict of str to BandDifference
        For each key of `quantity.READOUTS`; `BandDifference.answer` says what becomes of the claim.

    Raises
    ------
    InputError
        If the reading or the level is not accepted.
    """
    check_choice("reading", reading, READINGS)
    (found,) = band_differences(subject, [first], second, [(reading, readout) for readout in READOUTS], level)
    return {readout: one for (_, readout), one in found.items()}


@dataclass(frozen=True)
class Draws:
    """Pairs of release speeds, each as probable as the others; one pair for speeds that are given.

    Attributes
    ----------
    first_m_s, second_m_s : ndarray (N,)
        Speeds of the throws with the first and with the second ball (m/s).
    """

    first_m_s: Array
    second_m_s: Array

    @property
    def exact(self) -> bool:
        """Whether there is one pair only: speeds taken as exact."""
        return self.first_m_s.size == 1

    def speed(self, which: str, level: float = LEVEL) -> Interval:
        """One of the two speeds (m/s).

        Parameters
        ----------
        which : str
            'first' or 'second'.
        level : float
            Probability of the interval.
        """
        return _interval(self.first_m_s if which == "first" else self.second_m_s, level)


@dataclass(frozen=True)
class Difference:
    """How a readout of the first throw differs from that of the second.

    Attributes
    ----------
    readout : str
        A key of `quantity.READOUTS`.
    first, second, absolute : Interval
        The readout of either throw, and first less second, in the readout's own unit.
    relative : Interval
        First over second, less 1.
    more, less : float
        Probability that the first is larger, and smaller. What is left to 1 is equal, or not defined.
    undefined : float
        Probability that there is no such readout, or that a speed is none that is accepted.
    draws : ndarray (M,)
        The relative difference of each draw that has one, sorted.
    """

    readout: str
    first: Interval
    second: Interval
    absolute: Interval
    relative: Interval
    more: float
    less: float
    undefined: float
    draws: Array

    @property
    def none_to_speak_of(self) -> bool:
        """Whether the whole interval of the relative difference lies nearer to nought than `NO_DIFFERENCE`."""
        low, high = self.relative.low, self.relative.high
        return self.undefined <= 1.0 - HOLDS_FROM and -NO_DIFFERENCE < low <= high < NO_DIFFERENCE

    def verdict(self, more: bool) -> str:
        """What becomes of the claim.

        Parameters
        ----------
        more : bool
            Whether more is claimed of the first throw than of the second; else less.

        Returns
        -------
        str
            ``undefined`` if most draws have no such readout; ``fails`` if there is no difference to speak of, or if
            the contrary has a probability of `HOLDS_FROM`; ``holds`` if the claim has; else ``open``.
        """
        if self.undefined > 0.5:
            return "undefined"
        if self.none_to_speak_of:
            return "fails"
        claimed, contrary = (self.more, self.less) if more else (self.less, self.more)
        if claimed >= HOLDS_FROM:
            return "holds"
        return "fails" if contrary >= HOLDS_FROM else "open"


def given(first_m_s: float, second_m_s: float) -> Draws:
    """Two speeds that are taken as exact.

    Parameters
    ----------
    first_m_s, second_m_s : float
        Release speeds (m/s).

    Raises
    ------
    InputError
        If a speed is not accepted.
    """
    named = (("first_m_s", first_m_s), ("second_m_s", second_m_s))
    first, second = (np.array([check_number(name, speed, SPEED_LIMIT)]) for name, speed in named)
    return Draws(first, second)


def on_profile(profile: SpeedProfile, first_mass_kg: float, second_mass_kg: float) -> Draws:
    """Both mean full-effort throws of an athlete.

    Parameters
    ----------
    first_mass_kg, second_mass_kg : float
        Ball mass (kg).

    Returns
    -------
    Draws
        Of the mean throw, not of a next one.

    Raises
    ------
    InputError
        Without any full-effort reading or own-ball speed, or if a mass is not accepted.
    """
    drawn = draws_of(profile, DRAWS_LOG2)
    named = (("first_mass_kg", first_mass_kg), ("second_mass_kg", second_mass_kg))
    masses = [check_number(name, mass, BALL_LIMITS["mass_kg"]) for name, mass in named]
    first, second = (np.exp(drawn.log_own - drawn.p * profile.x(mass)) for mass in masses)
    return Draws(first, second)


def at_own_speed(profile: SpeedProfile) -> Draws:
    """Both balls at the athlete's mean full-effort speed with the own ball.

    Raises
    ------
    InputError
        Without any full-effort reading or own-ball speed.
    """
    speed = np.exp(draws_of(profile, DRAWS_LOG2).log_own)
    return Draws(speed, speed)


def differences(
    loads: tuple[PathLoads, PathLoads],
    mass_kg: tuple[float, float],
    reading: str,
    draws: Draws,
    level: float = LEVEL,
) -> dict[str, Difference]:
    """Put a claim to every readout.

    Parameters
    ----------
    loads : (PathLoads, PathLoads)
        Of the arm with the first and with the second ball.
    mass_kg : (float, float)
        Mass of the first and of the second ball (kg).
    reading : str
        A key of `channels.READINGS`.
    draws : Draws
        The speeds.
    level : float
        Probability of the intervals.

    Returns
    -------
    dict of str to Difference
        For each key of `quantity.READOUTS`. Intervals are those of the draws that have the readout; NaN if none has.

    Raises
    ------
    InputError
        If the reading, a mass or the level is not accepted.
    """
    source = READINGS[check_choice("reading", reading, READINGS)]
    named = zip(("first_mass_kg", "second_mass_kg"), mass_kg, strict=True)
    first_kg, second_kg = (check_number(name, mass, BALL_LIMITS["mass_kg"]) for name, mass in named)
    first = _read_off(loads[0], source, first_kg, draws.first_m_s)
    second = _read_off(loads[1], source, second_kg, draws.second_m_s)
    return {key: _difference(key, first[key], second[key], level) for key in READOUTS}


def _difference(readout: str, first: Array, second: Array, level: float) -> Difference:
    with np.errstate(divide="ignore", invalid="ignore"):
        relative = first / second - 1.0
    there = np.isfinite(relative)
    first, second, relative = first[there], second[there], np.sort(relative[there])
    return Difference(
        readout,
        _interval(first, level),
        _interval(second, level),
        _interval(first - second, level),
        _interval(relative, level),
        float((first > second).sum() / there.size),
        float((first < second).sum() / there.size),
        1.0 - float(there.mean()),
        relative,
    )


def _interval(values: Array, level: float) -> Interval:
    if not values.size:
        return Interval(np.nan, np.nan, np.nan, level)
    low, middle, high = np.quantile(values, tails_of(level)).tolist()
    return Interval(middle, low, high, level)


def _read_off(loads: PathLoads, source: Reading, mass_kg: float, speed_m_s: Array) -> dict[str, Array]:
    """Every readout at every speed (N,); NaN at a speed that is not accepted.

    One arm and one ball leave a function of the speed alone, close to a power of it: it is computed on a fine grid.
    """
    accepted = (speed_m_s >= SPEED_LIMIT.low) & (speed_m_s <= SPEED_LIMIT.high)
    if not accepted.any():
        return {key: np.full(speed_m_s.size, np.nan) for key in READOUTS}
    asked = np.unique(speed_m_s[accepted])
    nodes = asked if asked.size <= NODES else np.linspace(asked[0], asked[-1], NODES)
    clock = loads.clock(nodes)
    inertial, weight = curve_parts(loads, source, [mass_kg])
    window = (source.start_phase, source.end_phase)
    found = read(loads.phase, clock[:, None] ** 2 * inertial + weight, window=window)
    in_time = found.in_time(loads.duration_s / clock)
    made = {}
    for key, readout in READOUTS.items():
        factor = nodes**readout.power
        between = np.interp(speed_m_s, nodes, getattr(in_time, key) / factor)
        made[key] = np.where(accepted, between * speed_m_s**readout.power, np.nan)
    return made
