"""Published daily limits on throws: limits for games, shown as that and never a budget for the throws of a plan."""

import re
from dataclasses import dataclass
from functools import cache

from model.person import Person
from model.published import values

ROWS = tuple(f"8-pitch-limits-{i:02d}" for i in range(1, 8))
"""One for each age group."""

READ_IN_COPIES = "read in copies that leagues print, not in the guideline itself"


@dataclass(frozen=True)
class GameLimit:
    """A published daily limit for games.

    Attributes
    ----------
    low_years, high_years : int
        The age group, both ends included.
    throws : int
    source : str
        Where it stands, and how it is known.
    """

    low_years: int
    high_years: int
    throws: int
    source: str


@cache
def game_limits() -> tuple[GameLimit, ...]:
    """Read the published limits of all age groups."""
    made = []
    for name in ROWS:
        row = values()[name]
        low, high = map(int, re.findall(r"[0-9]+", row.population))
        known = READ_IN_COPIES if row.status == "found" else "from memory"
        made.append(GameLimit(low, high, round(row.number), f"{row.citation} ({known}; check the current edition)"))
    return tuple(made)


def game_limit(person: Person) -> GameLimit | None:
    """Find the limit of a person's age group.

    Returns
    -------
    GameLimit or None
        None for an age that none is published for.
    """
    years = int(person.age_years)
    return next((one for one in game_limits() if one.low_years <= years <= one.high_years), None)
