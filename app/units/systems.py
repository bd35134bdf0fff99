"""The units a reader has chosen: which unit is shown in the place of each metric one.

Fields and words are made in metric units; what is shown in others is converted in `app.units`.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from app.units.conversion import FEET, PLACES, UNITS, feet_and_inches, from_si, plain, range_in, rounded_down, to_si
from model.checks import Limit

_RANGE = re.compile(r"([0-9.]+) to ([0-9.]+) (m/s|cm|mm|m|kg|g)\b")


@dataclass(frozen=True)
class System:
    """The units a reader has chosen.

    Attributes
    ----------
    key : str
        As it is kept in the browser.
    label : str
        As it stands on the switch.
    units : mapping of str to str
        For a metric unit, the one that is shown in its place; a unit that is not named stays.
    stature : str
        The unit of a person's height.
    """

    key: str
    label: str
    units: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}), hash=False)
    stature: str = "cm"

    def unit(self, metric: str) -> str:
        """The unit shown in the place of a metric one."""
        return self.units.get(metric, metric)

    def converts(self, metric: str) -> bool:
        """Whether another unit than the metric one is shown."""
        return self.unit(metric) != metric

    def value(self, value_si: float, metric: str) -> float:
        """An SI number in the unit that is shown.

        Parameters
        ----------
        value_si : float
        metric : str
            The metric unit in whose place it stands.

        Returns
        -------
        float
        """
        return from_si(value_si, self.unit(metric))

    def number(self, value_si: float, metric: str, least: int = 0, most: int = 2) -> str:
        """Write an SI number in the unit that is shown, without the unit.

        Parameters
        ----------
        value_si : float
        metric : str
            The metric unit in whose place it stands.
        least, most : int
            Fewest and most decimals in the metric unit; another unit has those of `PLACES` at most.

        Returns
        -------
        str
        """
        unit = self.unit(metric)
        return plain(from_si(value_si, unit), least, PLACES[unit] if self.converts(metric) else most)

    def text(self, value_si: float, metric: str, least: int = 0, most: int = 2) -> str:
        """Write an SI number with the unit that is shown, such as "9.7 oz"; see `number`."""
        return f"{self.number(value_si, metric, least, most)} {self.unit(metric)}"

    def as_shown(self, value_si: float, metric: str, places: int = 1) -> float:
        """The SI number that is meant by what is shown of one, so that pages that show the same throw mean the same.

        Parameters
        ----------
        value_si : float
        metric : str
            The metric unit in whose place it stands.
        places : int
            Decimals, of whatever unit.

        Returns
        -------
        float
        """
        return to_si(round(self.value(value_si, metric), places), self.unit(metric))

    def cap(self, value_si: float, metric: str, places: int = 1) -> str:
        """Write an SI number that is not to be gone beyond: rounded down, with the unit that is shown.

        Parameters
        ----------
        value_si : float
        metric : str
            The metric unit in whose place it stands.
        places : int
            Decimals, of whatever unit.

        Returns
        -------
        str
        """
        return f"{rounded_down(self.value(value_si, metric), places):.{places}f} {self.unit(metric)}"

    def height(self, stature_m: float, most: int = 1) -> str:
        """Write a person's height, such as "188 cm" or "6 ft 2 in"."""
        return feet_and_inches(stature_m) if self.stature == FEET else self.text(stature_m, "cm", most=most)

    def retold(self, words: str) -> str:
        """Give the ranges in a sentence of the model, such as "1 to 60 m/s", in the units that are shown.

        Parameters
        ----------
        words : str

        Returns
        -------
        str
        """

        def told(found: re.Match[str]) -> str:
            low, high, metric = found.groups()
            if not self.converts(metric):
                return found[0]
            si = UNITS[metric].si_symbol
            return range_in(Limit(to_si(float(low), metric), to_si(float(high), metric), si), self.unit(metric))

        return _RANGE.sub(told, words)


METRIC = System("metric", "g, m/s")
CUSTOMARY = System(
    "customary",
    "oz, mph",
    MappingProxyType({"g": "oz", "mm": "in", "m/s": "mph", "cm": "in", "kg": "lb", "m": "ft"}),
    stature=FEET,
)
SYSTEMS = (METRIC, CUSTOMARY)


def system_named(key: object) -> System:
    """Find the units by what the browser keeps of them.

    Parameters
    ----------
    key : object
        Whatever the browser sent.

    Returns
    -------
    System
        The metric one if it is none of the keys.
    """
    return next((system for system in SYSTEMS if system.key == key), METRIC)
