"""Fields of what is asked before a plan is made, and of what is noted after a session and not kept yet."""

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from app.records.fields import Field
from app.records.tables import LONGEST_INITIALS, LONGEST_NAME
from model.build_up import METRICS, RISE_LIMIT, SHARE_LIMIT, STEPS_LIMIT
from model.calendar_plan import AREA_LIMIT, EASIER_LIMIT, EVERY_LIMIT, REPEATS_LIMIT, THROWS_LIMIT
from model.calendar_plan import RISE_LIMIT as WEEKLY_LIMIT
from model.checks import Limit
from model.session_log import DAYS_OFF_LIMIT, DECISIONS, NOT_DECIDED, THROWN_LIMIT
from model.session_rules import PAIN_LIMIT, WHEN
from model.stop_signs import CLEARING_ROLES, ROLES
from model.throw import SPEED_LIMIT

OF_SESSION = "@"
"""Behind the path of a field that stands once for each session, before the plan's uid and the session's place."""
LONGEST_WORDS = 200

PLAN_AIMS = {
    "after_off": "back after time off",
    "after_injury": "back after an injury (a clinician leads)",
    "fast_block": "into a block of fast throwing",
    "in_season": "keep level in season",
    "ease_off": "ease off",
}
ORDERS = {
    "own": "The own ball, from slow to fast",
    "heavy": "The heaviest ball slow, then lighter and faster",
    "between": "A ball in between, slow, then on to the own ball",
}
HOLDS = {
    "steps": "for the first steps",
    "weeks": "for the first weeks",
    "cleared": "until somebody clears them, with initials",
}
BY_AIM, OWN, USUAL = "aim", "own", "usual"
"""A lead readout as the aim has it; the goal's ball; the ball in between as the order has it."""

CAP_LIMITS = {
    "rise_rate": ("N·m/s", Limit(1.0, 100_000.0, "N·m/s")),
    "peak": ("N·m", Limit(0.1, 1_000.0, "N·m")),
    "shoulder_peak": ("N·m", Limit(0.1, 1_000.0, "N·m")),
    "loaded_s": ("ms", Limit(0.001, 10.0, "s")),
    "area": ("N·m·s", Limit(0.01, 100.0, "N·m·s")),
    "braking": ("N·m", Limit(0.1, 1_000.0, "N·m")),
    "speed": ("m/s", Limit(1.0, 60.0, "m/s")),
}
"""Unit and accepted range of a cap, by metric."""


def _percent(name: str, label: str, limit: Limit, hint: str = "") -> Field:
    return Field(f"plan.{name}", label, "number", "%", replace(limit, unit=""), hint=hint)


def _count(name: str, label: str, limit: Limit, hint: str = "") -> Field:
    return Field(name if "." in name else f"plan.{name}", label, "whole", limit.unit, limit, hint=hint)


def _text(path: str, label: str, longest: int = LONGEST_NAME, **more: Any) -> Field:
    return Field(path, label, "text", longest=longest, **more)


def _choice(path: str, label: str, choices: Mapping[str, str], **more: Any) -> Field:
    return Field(path, label, "choice", choices=MappingProxyType(dict(choices)), **more)


def _words(keys: Any) -> dict[str, str]:
    return {key: key.replace("_", " ") for key in keys}


PLAN_NUMBERS = (
    _count("weeks_off", "Weeks without throwing", Limit(0, 520, "weeks")),
    _count("throws_week", "Throws a week before that", Limit(0, 2000, "throws")),
    _count("hold_count", "How many of them", Limit(1, STEPS_LIMIT.high, "steps")),
    _percent("start_percent", "Start at", SHARE_LIMIT, "of full speed with that ball"),
    _percent("goal_percent", "Goal at", SHARE_LIMIT, "of full speed with that ball"),
    _count("steps", "Steps", STEPS_LIMIT),
    *(_percent(f"rise_{key}", f"Rise of {label}", RISE_LIMIT) for key, (label, _) in METRICS.items()),
    *(
        Field(f"plan.cap_{key}", f"Cap on {METRICS[key][0]}", "number", unit, limit)
        for key, (unit, limit) in CAP_LIMITS.items()
    ),
    _count("repeats", "Sessions at each step", REPEATS_LIMIT),
    _count("easier_every", "An easier week every", replace(EVERY_LIMIT, low=0), "0 for none"),
    _percent("easier_percent", "Budget in an easier week", EASIER_LIMIT, "of the week before"),
    _count("first_throws", "Throws in the first session", THROWS_LIMIT, "they make the first budget"),
    Field("plan.first_nms", "Or a first budget", "number", "N·m·s", AREA_LIMIT, hint="summed area of a session"),
    _percent("weekly_percent", "Budget’s rise a week", WEEKLY_LIMIT),
    Field("plan.most_nms", "Budget at most", "number", "N·m·s", AREA_LIMIT),
    _count("least_throws", "Throws at least", THROWS_LIMIT),
    _count("most_throws", "Throws at most", THROWS_LIMIT),
)

PLAN_SETTINGS = (
    *PLAN_NUMBERS,
    _choice("plan.aim", "Aim", PLAN_AIMS, default="after_off"),
    _choice("plan.lead", "Lead readout", {BY_AIM: "by the aim", **_words(METRICS)}, default=BY_AIM),
    _text("plan.left_out", "Balls that are left out", 200, default=""),
    _text("plan.thrown", "What was thrown then", LONGEST_WORDS, default=""),
    _text("plan.cleared_by", "Initials of who cleared", LONGEST_INITIALS, default=""),
    _choice("plan.cleared_role", "Role", _words(CLEARING_ROLES)),
    _choice("plan.holds", "How long the limits hold", HOLDS),
    _choice("plan.order", "Order of the balls", ORDERS),
    _text("plan.between_ball", "The ball in between", default=USUAL),
    _text("plan.goal_ball", "To the ball", default=OWN),
    _text("plan.days", "Days to throw on", default=""),
    Field("plan.first_day", "First day", "day", ahead=True),
    Field("plan.target_day", "Target day", "day", ahead=True),
)

NOTED = (
    Field("noted.day", "Day", "day"),
    _choice("noted.again", "Thrown", {"before": "the session before again"}),
    _count("noted.throws", "Throws thrown", THROWN_LIMIT),
    Field("noted.top_speed", "Highest speed read", "number", "m/s", SPEED_LIMIT),
    _choice("noted.site", "Pain at which joint", _words(("elbow", "shoulder", "unknown"))),
    *(
        _count(f"noted.{when}", f"Pain {words}", replace(PAIN_LIMIT, unit=""))
        for when, words in zip(
            WHEN, ("before the first throw", "while throwing", "an hour after", "on the next morning"), strict=True
        )
    ),
    *(_choice(f"noted.sore_{when}", f"Soreness, {when.replace('_', ' ')}", _words(("no", "yes"))) for when in WHEN),
    _text("noted.sore_more", "Sore", LONGEST_NAME),
    _choice("noted.painkiller", "Painkiller taken before", _words(("no", "yes"))),
    _choice("noted.held", "Speed of the step held to the end", _words(("yes", "no"))),
    _text("noted.signs", "Stop signs", LONGEST_WORDS),
    _text("noted.urgent", "Urgent signs", LONGEST_WORDS),
    _choice("noted.decision", "What is decided", _words(key for key in DECISIONS if key != NOT_DECIDED)),
    _count("noted.days_off", "Days off first", DAYS_OFF_LIMIT),
    _text("noted.by", "Initials", LONGEST_INITIALS),
    _choice("noted.role", "Role", _words(ROLES)),
    _text("noted.note", "Note", LONGEST_WORDS),
)
"""What is noted after a session until it is kept, once for each session."""


def base_path(path: str) -> str:
    """The path of a field without the session that it is of."""
    return path.partition(OF_SESSION)[0]
