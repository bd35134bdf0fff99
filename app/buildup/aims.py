"""Ready aims: what should improve, which readout is meant to rise, what ends it, and the values that stand for empty
fields. Every value can be changed; what none has a source for says so.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from model.build_up import RISES
from model.calendar_plan import EASIER_EVERY, EASIER_SHARE, REPEATS, WEEKLY_RISE

COMMON = "common practice, no source"

DEFAULTS: Mapping[str, str] = {
    "start_percent": "70",
    "goal_percent": "100",
    "steps": "",
    **{f"rise_{key}": f"{100.0 * rise:g}" for key, rise in RISES.items()},
    "repeats": str(REPEATS),
    "easier_every": str(EASIER_EVERY),
    "easier_percent": f"{100.0 * EASIER_SHARE:g}",
    "weekly_percent": f"{100.0 * WEEKLY_RISE:g}",
    "first_throws": "25",
    "least_throws": "1",
    "most_throws": "60",
}
"""What stands for an empty field, in its metric unit, unless the aim has another value: common practice, no source."""

DAYS = "0 2 4"
MORE_STEPS = 2  # beyond the fewest that the limits allow, so that the lead readout can rise evenly: judgement


@dataclass(frozen=True)
class Aim:
    """An aim in a coach's words.

    Attributes
    ----------
    label : str
    improves, ends : str
        What should improve; and what ends it.
    lead : str
        The lead readout: a key of `METRICS`.
    start_own : bool
        Whether it starts with the own ball; else with the ball whose lead readout is lowest.
    days : str
        Days of the week, Monday 0, with blanks between them.
    values : mapping of str to str
        What stands for an empty field, where it differs from `DEFAULTS`.
    """

    label: str
    improves: str
    ends: str
    lead: str = "rise_rate"
    start_own: bool = False
    days: str = DAYS
    values: Mapping[str, str] = field(default_factory=dict)

    def value(self, name: str) -> str:
        """What stands for an empty field; empty if nothing does."""
        return self.values.get(name, DEFAULTS.get(name, ""))


AIMS: Mapping[str, Aim] = {
    "after_off": Aim(
        "back after time off",
        "Tolerance of full throws with the own ball: from slow throws with the ball of the lowest rise to full speed.",
        "It ends when the last step was thrown as often as planned, with its speed held and no soreness on the next "
        "morning.",
    ),
    "after_injury": Aim(
        "back after an injury (a clinician leads)",
        "Painless throwing, first slow, then step by step up to full speed with the own ball.",
        "It ends when the last step was thrown as often as planned without soreness, and the clinician who leads "
        "releases the athlete; at any sign named in the cautions it stops before.",
        values={"start_percent": "50", "repeats": "3", "first_throws": "15"},
    ),
    "fast_block": Aim(
        "into a block of fast throwing",
        "Release speed: the arm gets used to speed before a block of throws at full effort begins.",
        "It ends when full speed with the own ball was held through the last step; the block comes after it.",
        lead="speed",
        days="0 3",
        values={"start_percent": "85", "first_throws": "20", "weekly_percent": "5"},
    ),
    "in_season": Aim(
        "keep level in season",
        "Nothing: what was reached is kept. No readout is meant to rise; the throws of games are not counted here.",
        "It ends with its last session, or when the season does.",
        lead="peak",
        start_own=True,
        days="1 4",
        values={
            "start_percent": "90",
            "goal_percent": "90",
            "steps": "1",
            "repeats": "12",
            "weekly_percent": "0",
            "first_throws": "20",
        },
    ),
    "ease_off": Aim(
        "ease off",
        "Rest: the readouts fall from step to step, and the throws do not become more.",
        "It ends with the last step; what comes after it is time off.",
        lead="peak",
        start_own=True,
        values={
            "start_percent": "100",
            "goal_percent": "60",
            "repeats": "1",
            "weekly_percent": "0",
            "most_throws": "25",
        },
    ),
}


def aim_named(key: object) -> Aim:
    """Find an aim by what the browser sent; the first if it is none.

    Parameters
    ----------
    key : object

    Returns
    -------
    Aim
    """
    return AIMS.get(key, AIMS["after_off"]) if isinstance(key, str) else AIMS["after_off"]
