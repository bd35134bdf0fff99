"""After a session: what was noted of the arm, and the most that the next session may be.

One table (`RULES`): of the rules that apply the strictest decides. Rules about *muscle soreness* are those of
Axe, Wickham and Snyder-Mackler 2001 (values.csv 9-load-rules-12, from memory; 9-load-rules-15, the same rules as two
clinics print them). Rules about *pain at a joint* are stricter and our own judgement. Stop signs are common practice,
no source. The decision of a licensed clinician goes before both.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from model.checks import InputError, Limit, check_choice, check_number

PRINTED, JUDGEMENT, COMMON = "printed", "judgement", "common practice"
"""Where a rule comes from: the printed soreness rules; our own judgement; common practice, no source."""

PAIN_LIMIT = Limit(0, 10, "(0 none, 10 the worst)")
SEVERE_FROM = 5  # of 10: common practice, no source
SITES = ("elbow", "shoulder", "unknown")
WHEN = ("before", "throwing", "hour_after", "next_morning")

STOP_SIGNS = {
    "numbness": "numbness or tingling",
    "swelling": "swelling",
    "lost_motion": "loss of motion",
    "weakness": "weakness",
    "sharp_pain": "a pop, or sharp pain",
    "rest_pain": "joint pain at rest",
    "night_pain": "joint pain at night",
    "lost_speed": "a sudden loss of speed",
}
"""Signs that a person enters: key, and in words."""

URGENT_SIGNS = {"deformity": "deformity", "cold_hand": "a cold, pale or blue hand"}
"""Signs that ask for urgent care: key, and in words."""

FOUND_SIGNS = {
    "severe": f"joint pain of {SEVERE_FROM} of 10 or more",
    "morning_pain": "joint pain still there the next morning",
    "third_in_a_row": "joint pain in three sessions in a row",
    "no_painless": "joint pain before the first throw, and no painless session yet to go back to",
}
"""Stop signs that follow from the ratings: key, and in words."""

ALL_SIGNS = {**URGENT_SIGNS, **STOP_SIGNS, **FOUND_SIGNS}

ACTIONS = ("go_on", "repeat", "session_before", "step_back", "closed", "stop", "urgent")
"""The most that may come next, from the most to the least: the next session of the plan; this one again; the one before
it again; one step back; nothing before the entries are there; nothing under a stop sign; urgent care.
"""
OPEN = ("go_on", "repeat", "session_before", "step_back")
"""Those after which there is a next session."""


@dataclass(frozen=True)
class JointPain:
    """Pain at a joint, rated 0 (none) to 10 (the worst). What is None was not entered, which is not none.

    Parameters
    ----------
    site : str
        One of `SITES`; empty where there is no pain.
    before, throwing, hour_after, next_morning : int, optional
        Before the first throw; while throwing; an hour after; on the next morning.

    Raises
    ------
    InputError
        If a rating is no whole number from 0 to 10, or there is pain without a site.
    """

    site: str = ""
    before: int | None = None
    throwing: int | None = None
    hour_after: int | None = None
    next_morning: int | None = None

    def __post_init__(self) -> None:
        for name in WHEN:
            rating = getattr(self, name)
            if rating is not None and check_number(name, rating, PAIN_LIMIT) != int(rating):
                raise InputError(name, rating, f"a whole number from {PAIN_LIMIT}")
        if self.site or self.worst > 0:
            check_choice("site", self.site, SITES)

    @property
    def worst(self) -> int:
        """The highest rating; 0 where none was entered."""
        return max(getattr(self, name) or 0 for name in WHEN)


@dataclass(frozen=True)
class Soreness:
    """Soreness of the muscles. What is None was not entered.

    Parameters
    ----------
    before : bool, optional
        In the warm-up.
    throwing : bool, optional
        After the first throws: it stayed, or came, or came again.
    hour_after, next_morning : bool, optional
        Longer than an hour after; on the next day.
    over_three_days, one_spot : bool
        Either is treated as pain at the joint.
    """

    before: bool | None = None
    throwing: bool | None = None
    hour_after: bool | None = None
    next_morning: bool | None = None
    over_three_days: bool = False
    one_spot: bool = False

    @property
    def as_pain(self) -> bool:
        """Whether it is treated as pain at the joint."""
        return self.over_three_days or self.one_spot


@dataclass(frozen=True)
class Notes:
    """What was noted of a session.

    Parameters
    ----------
    signs : iterable of str
        Keys of `STOP_SIGNS` and `URGENT_SIGNS`.
    painkiller : bool, optional
        Whether one was taken before; with one no session counts as painless.
    speed_held : bool, optional
        Whether the speed of the step was held to the end; None if it was not measured.

    Raises
    ------
    InputError
        If a sign is unknown.
    """

    pain: JointPain = field(default_factory=JointPain)
    soreness: Soreness = field(default_factory=Soreness)
    signs: Sequence[str] = ()
    painkiller: bool | None = None
    speed_held: bool | None = None

    def __post_init__(self) -> None:
        known = {**STOP_SIGNS, **URGENT_SIGNS}
        given = {check_choice("signs", sign, known) for sign in self.signs}
        object.__setattr__(self, "signs", tuple(sign for sign in ALL_SIGNS if sign in given))

    @property
    def painful(self) -> bool:
        """Whether there was pain at a joint, or soreness that is treated as such."""
        return self.pain.worst > 0 or self.soreness.as_pain

    @property
    def missing(self) -> tuple[str, ...]:
        """Which ratings of pain at a joint were not entered; keys of `WHEN`."""
        return tuple(name for name in WHEN if getattr(self.pain, name) is None)

    @property
    def painless(self) -> bool:
        """Whether it counts as a session without pain: entered before, while throwing and on the next morning as none,
        without a painkiller and without a stop sign.
        """
        entered = all(getattr(self.pain, name) is not None for name in ("before", "throwing", "next_morning"))
        return entered and not self.painful and self.painkiller is False and not tuple(self.signs)


@dataclass(frozen=True)
class Facts:
    """What the rules look at.

    Attributes
    ----------
    thrown : int
        Throws of the session.
    painful_in_a_row : int
        Sessions with pain at a joint since the last painless one, this one among them.
    painless_before : bool
        Whether any session before it was painless.
    was_repeat : bool
        Whether, because of soreness in the warm-up, the session before was thrown again in its place.
    withdrawn : frozenset of str
        Stop signs of this session that were withdrawn, as entered by mistake; keys of `ALL_SIGNS`.
    """

    notes: Notes
    thrown: int
    painful_in_a_row: int = 0
    painless_before: bool = False
    was_repeat: bool = False
    withdrawn: frozenset[str] = frozenset()

    @property
    def thrown_up_to_pain(self) -> int:
        """Throws before the pain came: none where it was there before the first throw."""
        return 0 if (self.notes.pain.before or 0) > 0 else self.thrown

    @property
    def found_signs(self) -> tuple[str, ...]:
        """Stop signs that follow from the ratings; keys of `FOUND_SIGNS`."""
        pain = self.notes.pain
        found = {
            "severe": pain.worst >= SEVERE_FROM,
            "morning_pain": (pain.next_morning or 0) > 0,
            "third_in_a_row": self.painful_in_a_row >= 3,
            "no_painless": self.notes.painful and self.thrown_up_to_pain == 0 and not self.painless_before,
        }
        return tuple(sign for sign, there in found.items() if there)

    @property
    def signs(self) -> tuple[str, ...]:
        """All signs, entered and found, that were not withdrawn; keys of `ALL_SIGNS`."""
        return tuple(sign for sign in (*self.notes.signs, *self.found_signs) if sign not in self.withdrawn)


@dataclass(frozen=True)
class Rule:
    """One line of the table.

    Attributes
    ----------
    applies : callable
        Of the facts.
    action : str
        The most that may come next; one of `ACTIONS`.
    days_off : int or None
        Days without throwing first; None where nobody but a clinician says when.
    source : str
        `PRINTED`, `JUDGEMENT` or `COMMON`.
    """

    key: str
    applies: Callable[[Facts], bool]
    action: str
    days_off: int | None
    source: str


def _not_entered(facts: Facts) -> bool:
    pain = facts.notes.pain
    return pain.before is None or (pain.throwing is None and pain.before == 0)


def _sore_in_the_warm_up(facts: Facts) -> bool:
    sore = facts.notes.soreness
    return sore.before is True and sore.throwing is not True and not facts.was_repeat


def _sore_later(facts: Facts) -> bool:
    return facts.notes.soreness.hour_after is True or facts.notes.soreness.next_morning is True


RULES = (
    Rule("urgent", lambda f: any(sign in URGENT_SIGNS for sign in f.signs), "urgent", None, COMMON),
    Rule("stop_sign", lambda f: bool(f.signs), "stop", None, COMMON),
    Rule("not_entered", _not_entered, "closed", None, JUDGEMENT),
    Rule("pain_twice", lambda f: f.notes.painful and f.painful_in_a_row >= 2, "step_back", 2, JUDGEMENT),
    Rule("pain_before", lambda f: f.notes.painful and f.thrown_up_to_pain == 0, "step_back", 2, JUDGEMENT),
    Rule("pain", lambda f: f.notes.painful, "repeat", 2, JUDGEMENT),
    Rule("sore_throwing", lambda f: f.notes.soreness.throwing is True, "step_back", 2, PRINTED),
    Rule("sore_warm_up", _sore_in_the_warm_up, "session_before", 0, PRINTED),
    Rule("sore_later", _sore_later, "repeat", 1, PRINTED),
    Rule("painkiller", lambda f: f.notes.painkiller is not False, "repeat", 0, JUDGEMENT),
    Rule("morning_missing", lambda f: f.notes.pain.next_morning is None, "repeat", 0, JUDGEMENT),
    Rule("speed_not_held", lambda f: f.notes.speed_held is False, "repeat", 0, COMMON),
    Rule("none", lambda _: True, "go_on", 0, PRINTED),
)


@dataclass(frozen=True)
class Advice:
    """What the rules allow.

    Attributes
    ----------
    rule : Rule
        That decides.
    also : tuple of Rule
        Others that apply, in the order of the table.
    signs : tuple of str
        Keys of `ALL_SIGNS`.
    """

    rule: Rule
    also: tuple[Rule, ...]
    signs: tuple[str, ...]

    @property
    def action(self) -> str:
        """The most that may come next; one of `ACTIONS`."""
        return self.rule.action

    @property
    def days_off(self) -> int | None:
        """Days without throwing first: the most that any rule that applies asks for; None where no day is given."""
        days = [rule.days_off for rule in (self.rule, *self.also) if rule.days_off is not None]
        return None if self.rule.days_off is None else max(days)


def advise(facts: Facts) -> Advice:
    """Find what the rules allow after a session."""
    applying = [rule for rule in RULES if rule.applies(facts)]
    deciding = max(applying, key=lambda rule: ACTIONS.index(rule.action))  # of equals the first of the table
    return Advice(deciding, tuple(one for one in applying if one not in (deciding, RULES[-1])), facts.signs)


def no_more_than(action: str, most: str) -> str:
    """The less of two: what is decided, held against what the rules allow.

    Parameters
    ----------
    action, most : str
        Of `ACTIONS`.
    """
    return max(action, most, key=ACTIONS.index)
