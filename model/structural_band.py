"""Differences between throws with all that is not known of them: motion, body, ball and radar.

A difference is R - 1 with R the ratio of a readout of a throw to that of a reference. Its best estimate is the clock
law's. Of what is not known

    motion   the field of `structural_field`: one for all throws of an athlete
    body     the arm's masses, radii, centres and lengths (`body_spread`): one arm for all throws of an athlete
    ball     each ball's mass, +-2 % evenly; the same ball is the same in both throws
    radar    the scatter of the readings; a calibration that all readings of one device share, which leaves ratios alone

so that what two throws share drops out of their difference. A level, or two athletes side by side, share none of it:
each has its own draws, and the way that people of one size differ from one another at one speed is added.

The same is told from the speeds alone, as if everybody kept to the clock law: what a radar can know.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from model.band_table import KEYS, Key
from model.checks import InputError
from model.drawn_throws import ORIGIN, Subject, Thrown, read_throw
from model.interval import LEVEL, tails_of
from model.structural_field import field, is_claimed

Array = NDArray[np.float64]

SUPPORTED = 0.90  # probability from which a claim is supported; from 1 - this of it down it is not (judgement)
READINGS_HELP = 0.25  # probability that exact speeds would settle it from which more readings help (judgement)
NO_DIFFERENCE = 0.005  # relative: below it prints as 0 %, and 0.1 m/s more at 30 m/s move a peak by more
MAIN: tuple[Key, ...] = tuple(("varus", field) for field in ("peak", "loaded_s", "rise_rate", "area"))


@dataclass(frozen=True)
class BandDifference:
    """How a readout of a throw differs from that of the reference, relative.

    Attributes
    ----------
    best : float
        By the clock law at the best estimates.
    low, high : float
        Interval with everything that is not known.
    probability_more, probability_less : float
        Probability that it is larger, and smaller, than in the reference.
    radar_low, radar_high, radar_probability_more, radar_probability_less : float
        The same from the speeds alone.
    settled_by_speeds : float
        Probability that more or less would be supported if the speeds were known exactly.
    undefined : float
        Share of the draws in which there is no such readout.
    outside : bool
        Whether either throw lies beyond what was solved for.
    no_claim : bool
        Whether so little is known that nothing should be said.
    """

    reading: str
    readout: str
    best: float
    low: float
    high: float
    probability_more: float
    probability_less: float
    radar_low: float
    radar_high: float
    radar_probability_more: float
    radar_probability_less: float
    settled_by_speeds: float
    undefined: float
    outside: bool
    no_claim: bool

    @property
    def not_defined(self) -> bool:
        """Whether most draws have no such readout."""
        return self.undefined > 0.5

    @property
    def none_to_speak_of(self) -> bool:
        """Whether the whole interval lies nearer to nought than `NO_DIFFERENCE`, and something may be said."""
        return not self.no_claim and not self.not_defined and -NO_DIFFERENCE < self.low <= self.high < NO_DIFFERENCE

    def answer(self, more: bool) -> "Answer":
        """What becomes of a claim.

        Parameters
        ----------
        more : bool
            Whether more is claimed of the throw than of the reference; else less.
        """
        if self.no_claim or self.not_defined:
            return Answer("no claim", np.nan, False)
        probability = self.probability_more if more else self.probability_less
        if self.none_to_speak_of:
            return Answer("not supported", probability, False)
        if probability >= SUPPORTED:
            return Answer("supported", probability, False)
        if 1.0 - probability >= SUPPORTED:
            return Answer("not supported", probability, False)
        return Answer("cannot tell", probability, self.settled_by_speeds >= READINGS_HELP)


@dataclass(frozen=True)
class Answer:
    """What becomes of a claim.

    Attributes
    ----------
    verdict : {'supported', 'not supported', 'cannot tell', 'no claim'}
        From `SUPPORTED` on; from 1 - `SUPPORTED` down, or no difference to speak of; between; or nothing should be
        said.
    probability : float
        Of what is claimed.
    readings_help : bool
        Whether it has a fair chance to be settled if the speeds were known exactly: else hardly any radar can.
    """

    verdict: str
    probability: float
    readings_help: bool


@dataclass(frozen=True)
class BandLevel:
    """A readout of one throw, in SI: best estimate and interval."""

    reading: str
    readout: str
    best: float
    low: float
    high: float
    outside: bool


def differences(
    subject: Subject, throws: Sequence[Thrown], reference: Thrown, keys: Sequence[Key] = MAIN, level: float = LEVEL
) -> tuple[dict[Key, BandDifference], ...]:
    """Hold an athlete's throws against one of them.

    Parameters
    ----------
    keys : sequence of (str, str)
        Readings and readouts, of `grid_table.KEYS`.
    level : float
        Probability of the intervals.

    Returns
    -------
    tuple of dict of (str, str) to BandDifference
        For each throw.

    Raises
    ------
    InputError
        If a key or the level is not accepted.
    """
    keys, tails = _checked(keys), tails_of(level)
    at, start = subject.place(reference), read_throw(subject, reference, keys)
    found = []
    for throw in throws:
        place, here = subject.place(throw), read_throw(subject, throw, keys)
        apart = {}
        for key in keys:
            apart[key] = _difference(
                key,
                _ratio(here.best[key], start.best[key]),
                here.drawn[key] - start.drawn[key] + field(key, place, at),
                here.radar[key] - start.radar[key],
                tails,
                place.outside or at.outside,
                not is_claimed(key, place, at),
            )
        found.append(apart)
    return tuple(found)


def log_ratios(
    subject: Subject, throws: Sequence[Thrown], reference: Thrown, keys: Sequence[Key] = MAIN
) -> tuple[dict[Key, Array], ...]:
    """The draws themselves: ln of each readout's ratio to the reference, with everything that is not known.

    Draw by draw they belong to one athlete, so that questions about several throws or readouts at once can be asked.

    Parameters
    ----------
    keys : sequence of (str, str)
        Reading and readout of each.

    Returns
    -------
    tuple of dict of (str, str) to ndarray (DRAWS,)
        For each throw; NaN where there is no such readout.

    Raises
    ------
    InputError
        If a key is not accepted.
    """
    keys = _checked(keys)
    at, start = subject.place(reference), read_throw(subject, reference, keys)
    found = []
    for throw in throws:
        place, here = subject.place(throw), read_throw(subject, throw, keys)
        found.append({key: here.drawn[key] - start.drawn[key] + field(key, place, at) for key in keys})
    return tuple(found)


def differences_between(
    one: tuple[Subject, Thrown], other: tuple[Subject, Thrown], keys: Sequence[Key] = MAIN, level: float = LEVEL
) -> dict[Key, BandDifference]:
    """Hold one athlete's throw against another's: nothing that is not known is shared but the radar and the ball.

    Parameters
    ----------
    one, other : (Subject, Thrown)
        The second is the reference.
    keys : sequence of (str, str)
        Reading and readout of each.
    level : float
        Probability of the intervals.

    Returns
    -------
    dict of (str, str) to BandDifference
        By reading and readout.

    Raises
    ------
    InputError
        If a key or the level is not accepted.
    """
    keys, tails = _checked(keys), tails_of(level)
    here, there = (read_throw(subject, throw, keys, stream) for stream, (subject, throw) in enumerate((one, other)))
    places = [subject.place(throw) for subject, throw in (one, other)]
    found = {}
    for key in keys:
        drawn = [read_off.alone(key, place) for read_off, place in zip((here, there), places, strict=True)]
        found[key] = _difference(
            key,
            _ratio(here.best[key], there.best[key]),
            drawn[0] - drawn[1],
            here.radar[key] - there.radar[key],
            tails,
            any(place.outside for place in places),
            not all(is_claimed(key, place, ORIGIN) for place in places),
        )
    return found


def levels(subject: Subject, throw: Thrown, keys: Sequence[Key] = MAIN, level: float = LEVEL) -> dict[Key, BandLevel]:
    """What is known of a throw's readouts themselves.

    Parameters
    ----------
    keys : sequence of (str, str)
        Reading and readout of each.
    level : float
        Probability of the intervals.

    Returns
    -------
    dict of (str, str) to BandLevel
        By reading and readout.

    Raises
    ------
    InputError
        If a key or the level is not accepted.
    """
    keys, (low, _, high) = _checked(keys), tails_of(level)
    read_off, place = read_throw(subject, throw, keys), subject.place(throw)
    found = {}
    for key in keys:
        drawn = read_off.alone(key, place)
        drawn = drawn[np.isfinite(drawn)]
        ends = np.exp(np.quantile(drawn, (low, high))).tolist() if drawn.size else [np.nan, np.nan]
        sign = -1.0 if key[1] == "work_in_j" else 1.0
        best = sign * float(np.exp(read_off.best[key]))
        bounds = sorted(sign * end for end in ends)
        found[key] = BandLevel(*key, best, bounds[0], bounds[1], place.outside)
    return found


def _checked(keys: Sequence[Key]) -> tuple[Key, ...]:
    for key in keys:
        if key not in KEYS:
            raise InputError("keys", key, "a reading of channels.READINGS with a readout of grid_table.FIELDS")
    return tuple(keys)


def _ratio(here: float, there: float) -> float:
    return float(np.expm1(here - there))


def _difference(
    key: Key, best: float, drawn: Array, radar: Array, tails: list[float], outside: bool, no_claim: bool
) -> BandDifference:
    there = np.isfinite(drawn)
    undefined = 1.0 - float(there.mean())
    drawn, radar = drawn[there], radar[np.isfinite(radar)]
    low, high = _ends(drawn, tails)
    radar_low, radar_high = _ends(radar, tails)
    return BandDifference(
        *key,
        best,
        low,
        high,
        _share(drawn > 0.0),
        _share(drawn < 0.0),
        radar_low,
        radar_high,
        _share(radar > 0.0),
        _share(radar < 0.0),
        _settled_by_speeds(drawn, radar),
        undefined,
        outside,
        no_claim,
    )


def _ends(values: Array, tails: list[float]) -> tuple[float, float]:
    if not values.size:
        return np.nan, np.nan
    low, _, high = np.expm1(np.quantile(values, tails)).tolist()
    return low, high


def _share(which: NDArray[np.bool_]) -> float:
    return float(which.mean()) if which.size else np.nan


def _settled_by_speeds(drawn: Array, radar: Array) -> float:
    """How probable the speeds are with which the rest, as if it were normal, would leave more or less supported."""
    if drawn.size < 2 or not radar.size:
        return 0.0
    variance = float(drawn.var()) - float(radar.var())
    sd = np.sqrt(max(variance, 1e-18))
    return _share(ndtr(np.abs(radar) / sd) >= SUPPORTED)
