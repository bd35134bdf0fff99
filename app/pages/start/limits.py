"""The limits and choices of the Start page as the athlete's records have them, and what of them is to be mended."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

from app.records.field_list import COUNTED_AT_FIRST, LIMIT_LABELS, field_of
from app.records.reads import AthleteData
from app.show.kept import refused_settings, setting_of, value_of
from model.ceilings import BOUNDS, Amount, Bound, Ceilings
from model.checks import InputError

SHARE, ABSOLUTE = "share", "absolute"  # how a limit is counted: of the reference throw's, or in its own unit
AIMS = {
    "own": "the own ball",
    "least_area": "least in all (area)",
    "gentlest_rise": "gentlest rise",
    "longest_loaded": "longest time loaded under the limits",
    "nearest_peak": "nearest to a given peak",
}
"""What can matter most: a key of `model.start_list.AIMS`, and the words of the page."""

EXAMPLE = {"elbow_peak": 0.8, "shoulder_peak": 0.8, "rise_rate": 0.7, "braking": 0.8}
"""Limits that stand while nobody has touched them, as shares."""
EXAMPLE_PEAK = 0.75  # of the reference throw's: the wanted peak
WANTED = "wanted_peak"
COUNTED = (*BOUNDS, WANTED)
"""What is counted in one of two ways: the limits, and the wanted peak at the elbow."""

LEAST_ABOVE_MOST = "least_loaded"
"""The limit beneath which it is told that the least time loaded is above the most."""


@dataclass(frozen=True)
class Asked:
    """What is asked of the page.

    Attributes
    ----------
    amounts : mapping of str to Amount
        The limits, and the wanted peak where the aim asks for it, by the keys of `COUNTED`.
    ceilings : Ceilings or None
        None where a limit was refused or two contradict each other: one that is left out by a slip must not count as
        none.
    certainty, doubt : float or None
        The doubt is that of the reference speed; None for what goes with its kind.
    aim : str
        What matters most, a key of `AIMS`; empty until a person has said it.
    base : str
        What 100 % is: a key of `app.show.hundred.BASES`; empty for what goes without choosing.
    left_out : str
        Balls of the rack that were unticked, see `app.show.rack.left_out`.
    by_speed : bool
        Whether the figure's upright axis shows release speed; else the share of full speed.
    to_mend : tuple of str
        Labels of the fields that were refused or are missing.
    """

    amounts: Mapping[str, Amount]
    ceilings: Ceilings | None
    certainty: float | None
    doubt: float | None
    aim: str
    base: str
    left_out: str
    by_speed: bool
    to_mend: tuple[str, ...]

    @property
    def wanted(self) -> Amount | None:
        """The peak at the elbow that is wanted, where the aim asks for one."""
        return self.amounts.get(WANTED)

    @property
    def limits(self) -> dict[str, Amount]:
        """The limits alone."""
        return {key: amount for key, amount in self.amounts.items() if key != WANTED}

    @property
    def is_example(self) -> bool:
        """Whether the limits are those that the page begins with."""
        return self.limits == {key: Amount(share) for key, share in EXAMPLE.items()}


def bound_of(name: str) -> Bound:
    """The model's limit; the wanted peak is counted as the limit on the peak at the elbow."""
    return BOUNDS["elbow_peak" if name == WANTED else name]


def limit_row(data: AthleteData, name: str) -> Any:
    """The row of a limit; while nobody has touched it, one of the example that stands for it."""
    counted = COUNTED_AT_FIRST.get(name, SHARE)
    stands = SimpleNamespace(uid=name, key=name, counted=counted, amount=EXAMPLE.get(name), typed={}, draft={})
    return data.limits.get(name, stands)


def counted_in(data: AthleteData, name: str) -> str:
    """How a limit or the wanted peak is counted: `SHARE` or `ABSOLUTE`."""
    return str(data.settings["start.wanted_peak_counted"] if name == WANTED else limit_row(data, name).counted)


def amount_of(data: AthleteData, name: str) -> Amount | None:
    """A limit, or the wanted peak; None for none, also where its text was refused."""
    if name != WANTED:
        value = value_of(limit_row(data, name), "amount")
    else:
        value = setting_of(data, "start.wanted_peak")
        if value is None and counted_in(data, name) == SHARE and not refused_settings(data, ["start.wanted_peak"]):
            value = EXAMPLE_PEAK
    return None if value is None else Amount(value, counted_in(data, name) == ABSOLUTE)


def asked_of(data: AthleteData) -> Asked:
    """What an athlete's limits and settings ask."""
    aim, known = setting_of(data, "start.aim") or "", data.reference
    wanted = [WANTED] if aim == "nearest_peak" else []
    amounts = {name: amount for name in (*BOUNDS, *wanted) if (amount := amount_of(data, name)) is not None}
    refused = [LIMIT_LABELS[name] for name in BOUNDS if "amount" in limit_row(data, name).draft]
    ceilings = None
    if not refused:
        try:
            ceilings = Ceilings(**{name: amount for name, amount in amounts.items() if name != WANTED})
        except InputError:
            refused.append(LIMIT_LABELS[LEAST_ABOVE_MOST])
    if wanted and WANTED not in amounts:
        refused.append(field_of("start.wanted_peak", data.settings).label)
    if known is not None and "relative_sd" in known.draft:
        refused.append(field_of("reference.relative_sd").label)
    return Asked(
        amounts,
        ceilings,
        setting_of(data, "start.certainty"),
        value_of(known, "relative_sd"),
        aim,
        setting_of(data, "start.base") or "",
        data.settings["start.left_out"],
        data.settings["start.axis"] == "speed",
        (*refused, *refused_settings(data, ["start.certainty"])),
    )
