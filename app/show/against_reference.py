"""Throws held against a reference throw with all that is not known of them, and how a page says it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.show.certainty_words import TWO_ATHLETES, Circumstance, circumstance, low_high, uncertainty
from app.show.numbers import READOUT_ORDER
from model.ball import Ball
from model.band_table import KEYS, Key
from model.drawn_throws import Subject, Thrown, on_profile, subject_of
from model.interval import LEVEL
from model.person import Person
from model.speed import SpeedProfile
from model.structural_band import BandDifference, differences, differences_between

PEAK = ("peak",)


@dataclass(frozen=True)
class Against:
    """A throw held against a reference throw.

    Attributes
    ----------
    found : mapping of str to BandDifference
        By readout, in the order of `READOUT_ORDER`; nothing of a quantity that has no band.
    where : Circumstance
        What the two throws differ in.
    """

    found: Mapping[str, BandDifference]
    where: Circumstance

    @property
    def outside(self) -> bool:
        """Whether either throw lies beyond what was solved."""
        return any(one.outside for one in self.found.values())

    def sentence(self, readouts: Sequence[str] = PEAK) -> str:
        """Say how surely they differ; nothing of a quantity that has no band."""
        told = {readout: self.found[readout] for readout in readouts if readout in self.found}
        return uncertainty(told, self.where) if told else ""

    def low_high(self, readout: str) -> str:
        """Write the interval beside a value: "−18 to +4 %", "no claim"; nothing where there is none."""
        one = self.found.get(readout)
        if one is None or one.not_defined:
            return ""
        return "no claim" if one.no_claim else low_high(one.low, one.high)


def who_throws(person: Person, own_ball: Ball, profile: SpeedProfile | None, fastest_m_s: float) -> Subject:
    """An athlete as the band must know one.

    Parameters
    ----------
    fastest_m_s : float
        What counts as full speed with the own ball (m/s) where the profile does not know it.
    """
    if profile is None or profile.posterior.own is None:
        return Subject(person, own_ball, fastest_m_s)
    return subject_of(person, own_ball, profile)


def thrown_as(ball: Ball, speed_m_s: float, profile: SpeedProfile | None = None) -> Thrown:
    """A throw whose speed is exact, or, with a profile, is as uncertain as that of the mean full-effort throw."""
    if profile is None or profile.posterior.own is None:
        return Thrown(ball, speed_m_s)
    (full,) = on_profile(profile, [ball])
    drawn = full.speeds_m_s
    return replace(full, speed_m_s=speed_m_s, speeds_m_s=None if drawn is None else drawn * speed_m_s / full.speed_m_s)


def against(
    subject: Subject, throws: Sequence[Thrown], reference: Thrown, reading: str, level: float = LEVEL
) -> tuple[Against, ...]:
    """Hold an athlete's throws against one of them; what they share drops out of each difference.

    Parameters
    ----------
    reading : str
        Any quantity; one that has no band leaves nothing found.
    level : float
        Probability of the intervals.
    """
    found = differences(subject, throws, reference, _keys(reading), level)
    second = reference.ball, reference.speed_m_s
    return tuple(
        Against(_by_readout(one), circumstance(subject.person, subject.own_ball, (throw.ball, throw.speed_m_s), second))
        for throw, one in zip(throws, found, strict=True)
    )


def against_another(one: tuple[Subject, Thrown], reference: tuple[Subject, Thrown], reading: str) -> Against:
    """Hold an athlete's throw against another athlete's."""
    return Against(_by_readout(differences_between(one, reference, _keys(reading))), TWO_ATHLETES)


def _keys(reading: str) -> list[Key]:
    return [(reading, readout) for readout in READOUT_ORDER if (reading, readout) in KEYS]


def _by_readout(found: Mapping[Key, BandDifference]) -> dict[str, BandDifference]:
    return {readout: one for (_, readout), one in found.items()}
