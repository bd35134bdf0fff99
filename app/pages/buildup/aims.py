"""Ready aims: what should improve, which readout is meant to rise, what ends it, and the values that stand for empty
fields. Every value can be changed; what none has a source for says so.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from app.records.plan_fields import PLAN_AIMS
from model.build_up import RISES
from model.calendar_plan import EASIER_EVERY, EASIER_SHARE, WEEKLY_RISE

COMMON = "common practice, no source"

DEFAULTS: Mapping[str, float] = {
    "start_percent": 0.7,
    "goal_percent": 1.0,
    **{f"rise_{key}": rise for key, rise in RISES.items()},
    "easier_every": EASIER_EVERY,
    "easier_percent": EASIER_SHARE,
    "weekly_percent": WEEKLY_RISE,
    "least_throws": 1,
    "most_throws": 60,
}
"""What stands for an empty field, in SI, unless the aim has another value: common practice, no source."""

ASKED = ("repeats", "first_throws", "days")
"""What has no default after time off or an injury; other aims have their own, judgement."""

OWN_FIRST = 0.8
"""The most of full speed at which the own ball may come first after time off or an injury, and for the growing."""

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
    only_own : bool
        Whether it is for the own ball alone.
    asks : bool
        Whether it follows time off or an injury: then `ASKED` and what was before are asked for.
    days : str
        Days of the week, Monday 0, with blanks between them; empty where they are asked for.
    values : mapping of str to float
        What stands for an empty field, where it differs from `DEFAULTS`.
    """

    label: str
    improves: str
    ends: str
    lead: str = "rise_rate"
    only_own: bool = False
    asks: bool = False
    days: str = ""
    values: Mapping[str, float] = field(default_factory=dict)

    def value(self, name: str) -> Any:
        """What stands for an empty field (SI); None if nothing does."""
        return self.days if name == "days" else self.values.get(name, DEFAULTS.get(name))


AIMS: Mapping[str, Aim] = {
    "after_off": Aim(
        PLAN_AIMS["after_off"],
        "Tolerance of full throws with the own ball: from slow throws to full speed.",
        "It ends when the last step was thrown as often as planned, with its speed held and without pain or soreness "
        "up to the next morning.",
        asks=True,
    ),
    "after_injury": Aim(
        PLAN_AIMS["after_injury"],
        "Painless throwing, first slow, then step by step up to full speed with the own ball.",
        "It ends when the last step was thrown as often as planned without pain or soreness, and the clinician who "
        "leads releases the athlete; at any stop sign it stands still before.",
        asks=True,
        values={"start_percent": 0.5},
    ),
    "fast_block": Aim(
        PLAN_AIMS["fast_block"],
        "Release speed: the arm gets used to speed before a block of throws at full effort begins.",
        "It ends when full speed with the own ball was held through the last step; the block comes after it.",
        lead="speed",
        days="1 4",
        values={"start_percent": 0.85, "repeats": 1, "first_throws": 18, "weekly_percent": 0.05},
    ),
    "in_season": Aim(
        PLAN_AIMS["in_season"],
        "Nothing: what was reached is kept. No readout is meant to rise; the throws of games are not counted here.",
        "It ends with its last session, or when the season does.",
        lead="peak",
        only_own=True,
        days="1 4",
        values={
            "start_percent": 0.9,
            "goal_percent": 0.9,
            "steps": 1,
            "repeats": 12,
            "weekly_percent": 0.0,
            "first_throws": 18,
        },
    ),
    "ease_off": Aim(
        PLAN_AIMS["ease_off"],
        "Rest: the readouts fall from step to step, and the throws do not become more.",
        "It ends with the last step; what comes after it is time off.",
        lead="peak",
        only_own=True,
        days="1 4",
        values={
            "start_percent": 1.0,
            "goal_percent": 0.6,
            "repeats": 1,
            "first_throws": 18,
            "weekly_percent": 0.0,
            "most_throws": 18,
        },
    ),
}


@dataclass(frozen=True)
class Care:
    """What an aim, the reference and the thrower ask for.

    Attributes
    ----------
    aim : str
        A key of `AIMS`.
    injury : bool
        Whether there was an injury: by the aim, or as the reference is from before one.
    growing : bool
        Whether the thrower counts as still growing.
    """

    aim: str
    injury: bool
    growing: bool

    @property
    def asks(self) -> bool:
        """Whether what was before is asked for, and throws, days and sessions have no default."""
        return self.injury or aim_named(self.aim).asks

    @property
    def guarded(self) -> bool:
        """Whether the own ball is the goal and never first comes above `OWN_FIRST`."""
        return self.asks or self.growing

    @property
    def order(self) -> str:
        """The order that is chosen unless another is: the own ball, or none."""
        return "own" if self.growing or aim_named(self.aim).only_own else ""

    def value(self, name: str) -> Any:
        """What stands for an empty field (SI); None if nothing does."""
        return None if self.asks and name in ASKED else aim_named(self.aim).value(name)


def aim_named(key: object) -> Aim:
    """Find an aim by what the browser sent; the first if it is none."""
    return AIMS.get(key, AIMS["after_off"]) if isinstance(key, str) else AIMS["after_off"]
