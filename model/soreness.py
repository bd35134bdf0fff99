"""After a session: what the soreness rules suggest for the next one. The person who leads decides.

The rules are those of Axe, Wickham and Snyder-Mackler 2001 (values.csv 9-load-rules-12: paraphrased from memory there;
the same rules as two clinics print them are 9-load-rules-15). They speak of soreness as there or not; taking a rating
of 1 or more as there, the rating from which to refer, and what speed does, are common practice, no source. Pain that
lasts, numbness, swelling, or loss of motion or speed ends the session.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from model.checks import InputError, Limit, check_choice, check_number

RULE_ROW = "9-load-rules-12"
COMMON = "common practice, no source"
PAIN_LIMIT = Limit(0, 10, "(0 none, 10 the worst)")
SORE_FROM = 1  # common practice, no source
REFER_FROM = 5  # common practice, no source
STOP_SIGNS = ("numbness", "swelling", "loss of motion")
ACTIONS = {
    "advance": "go on to the next step",
    "repeat": "repeat this step",
    "step_back": "go back one step",
    "rest_and_refer": "rest, and see a licensed clinician before the next throw",
}
ENDS_SESSION = "pain, numbness, swelling, or loss of motion or speed ends the session"


@dataclass(frozen=True)
class After:
    """What was said of a session.

    Parameters
    ----------
    pain_before, pain_after : int
        0 to 10: at its beginning (warm-up) and at its end.
    pain_next_morning : int, optional
        0 to 10; None while it is not yet known.
    speed_held : bool, optional
        Whether the speed of the step was held to the end; None if it was not measured.
    signs : iterable of str
        Any of `STOP_SIGNS`.

    Raises
    ------
    InputError
        If a rating is no whole number from 0 to 10, or a sign is unknown.
    """

    pain_before: int
    pain_after: int
    pain_next_morning: int | None = None
    speed_held: bool | None = None
    signs: Iterable[str] = ()

    def __post_init__(self) -> None:
        for name in ("pain_before", "pain_after", "pain_next_morning"):
            given = getattr(self, name)
            if given is None and name == "pain_next_morning":
                continue
            if check_number(name, given, PAIN_LIMIT) != int(given):
                raise InputError(name, given, f"a whole number from {PAIN_LIMIT}")
        object.__setattr__(self, "signs", tuple(check_choice("signs", sign, STOP_SIGNS) for sign in self.signs))


@dataclass(frozen=True)
class Suggestion:
    """What the rules suggest.

    Attributes
    ----------
    action : str
        A key of `ACTIONS`.
    days_off : int or None
        Days without throwing first; None where a clinician says when.
    reason, source : str
        In words; and the row of `values.csv` or `COMMON`.
    provisional : bool
        Whether the next morning is still to come: it can only make the suggestion more cautious.
    """

    action: str
    days_off: int | None
    reason: str
    source: str
    provisional: bool


def suggest(after: After) -> Suggestion:
    """Suggest what comes next.

    Parameters
    ----------
    after : After

    Returns
    -------
    Suggestion
        The first of these that applies: a stop sign or a high rating; soreness that lasted through the session;
        soreness after it or on the next morning; soreness that went away; speed not held; none of them.
    """
    morning = after.pain_next_morning
    ratings = [after.pain_before, after.pain_after, *(() if morning is None else (morning,))]
    provisional = morning is None

    def said(action: str, days_off: int | None, reason: str, source: str) -> Suggestion:
        return Suggestion(action, days_off, reason, source, provisional and action != "rest_and_refer")

    signs = tuple(after.signs)
    if signs:
        return said("rest_and_refer", None, f"{' and '.join(signs)} ends the session", COMMON)
    if max(ratings) >= REFER_FROM:
        return said("rest_and_refer", None, f"pain rated {max(ratings)}, {REFER_FROM} or more", COMMON)
    before, later = after.pain_before >= SORE_FROM, after.pain_after >= SORE_FROM
    if before and later:
        return said("step_back", 2, "sore in the warm-up and still at the end: two days off", RULE_ROW)
    if later or (morning is not None and morning >= SORE_FROM):
        when = "after the session" if later else "on the next morning"
        return said("repeat", 1, f"sore {when}: one day off", RULE_ROW)
    if before:
        return said("repeat", 0, "sore in the warm-up, gone by the end", RULE_ROW)
    if after.speed_held is False:
        return said("repeat", 0, "no soreness, but the speed of the step was not held", COMMON)
    if provisional:
        return said("advance", 0, "no soreness before or after; the next morning is still to come", RULE_ROW)
    return said("advance", 0, "no soreness before, after or on the next morning", RULE_ROW)
