"""Fields of what is asked before a plan is made, and of what is noted after a session and not kept yet."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from app.records.fields import Field
from app.records.tables import LONGEST_INITIALS, LONGEST_NAME
from model.build_up import METRICS, RISE_LIMIT, SHARE_LIMIT, STEPS_LIMIT
from model.calendar_plan import AREA_LIMIT, EASIER_LIMIT, EVERY_LIMIT, REPEATS_LIMIT, THROWS_LIMIT
from model.calendar_plan import RISE_LIMIT as WEEKLY_LIMIT
from model.checks import Limit
from model.session_log import DAYS_OFF_LIMIT, THROWN_LIMIT
from model.session_rules import PAIN_LIMIT, STOP_SIGNS, URGENT_SIGNS, WHEN
from model.stop_signs import CLEARING_ROLES
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

ROLE_WORDS = {
    "clinician": "licensed clinician",
    "trainer": "athletic trainer",
    "coach": "coach",
    "parent": "parent",
    "athlete": "the athlete",
    "other": "somebody else",
}
DECISION_WORDS = {
    "go_on": "go on to the next session",
    "repeat": "throw this session again",
    "session_before": "throw the session before again",
    "step_back": "go back one step",
    "stop": "stop the plan here",
}
SORE_MORE = {"over_three_days": "for over three days", "one_spot": "in one spot"}
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
NO_DAYS = "-"
"""Of the days to throw on: every one was unticked; empty stands for those of the aim."""
DAY_WORDS = {"": "those of the aim", NO_DAYS: "", **{str(place): name for place, name in enumerate(WEEKDAYS)}}

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


def text(path: str, label: str, longest: int = LONGEST_NAME, **more: Any) -> Field:
    """A field of a short text."""
    return Field(path, label, "text", longest=longest, **more)


def choice(path: str, label: str, choices: Mapping[str, str], **more: Any) -> Field:
    """A field with words to choose from, and what they are called."""
    return Field(path, label, "choice", choices=MappingProxyType(dict(choices)), **more)


def _several(path: str, label: str, called: Mapping[str, str], **more: Any) -> Field:
    """A text of several keys with blanks between, or of one: what each is called."""
    return text(path, label, LONGEST_WORDS, choices=MappingProxyType(dict(called)), **more)


def _labels(metrics: Mapping[str, tuple[str, Any]]) -> dict[str, str]:
    return {key: label for key, (label, _) in metrics.items()}


def words(keys: Iterable[str]) -> dict[str, str]:
    """Keys that are called as they are."""
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
    choice("plan.aim", "Aim", PLAN_AIMS, default="after_off"),
    choice("plan.lead", "Lead readout", {BY_AIM: "by the aim"} | _labels(METRICS), default=BY_AIM),
    _several("plan.left_out", "Balls that are left out", {}, unit="g", default=""),
    text("plan.thrown", "What was thrown then", LONGEST_WORDS, default=""),
    text("plan.cleared_by", "Initials of who cleared", LONGEST_INITIALS, default=""),
    choice("plan.cleared_role", "Role", {role: ROLE_WORDS[role] for role in CLEARING_ROLES}),
    choice("plan.holds", "How long the limits hold", HOLDS),
    choice("plan.order", "Order of the balls", ORDERS),
    _several("plan.between_ball", "The ball in between", {USUAL: "the usual one"}, unit="g", default=USUAL),
    _several("plan.goal_ball", "To the ball", {OWN: "the own ball"}, unit="g", default=OWN),
    _several("plan.days", "Days to throw on", DAY_WORDS, default=""),
    Field("plan.first_day", "First day", "day", ahead=True),
    Field("plan.target_day", "Target day", "day", ahead=True),
)

NOTED = (
    Field("noted.day", "Day", "day"),
    choice("noted.again", "Thrown", {"before": "the session before again"}),
    _count("noted.throws", "Throws thrown", THROWN_LIMIT),
    Field("noted.top_speed", "Highest speed read", "number", "m/s", SPEED_LIMIT),
    choice("noted.site", "Pain at which joint", words(("elbow", "shoulder", "unknown"))),
    *(
        _count(f"noted.{when}", f"Pain {said}", replace(PAIN_LIMIT, unit=""))
        for when, said in zip(
            WHEN, ("before the first throw", "while throwing", "an hour after", "on the next morning"), strict=True
        )
    ),
    *(choice(f"noted.sore_{when}", f"Soreness, {when.replace('_', ' ')}", words(("no", "yes"))) for when in WHEN),
    _several("noted.sore_more", "Sore", SORE_MORE),
    choice("noted.painkiller", "Painkiller taken before", words(("no", "yes"))),
    choice("noted.held", "Speed of the step held to the end", words(("yes", "no"))),
    _several("noted.signs", "Stop signs", STOP_SIGNS),
    _several("noted.urgent", "Urgent signs", URGENT_SIGNS),
    choice("noted.decision", "What is decided", DECISION_WORDS),
    _count("noted.days_off", "Days off first", DAYS_OFF_LIMIT),
    text("noted.by", "Initials", LONGEST_INITIALS),
    choice("noted.role", "Role", ROLE_WORDS),
    text("noted.note", "Note", LONGEST_WORDS),
)
"""What is noted after a session until it is kept, once for each session."""


def base_path(path: str) -> str:
    """The path of a field without the session that it is of."""
    return path.partition(OF_SESSION)[0]
