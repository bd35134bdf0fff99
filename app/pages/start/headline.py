"""The answer in a sentence: which ball stands first and why, or how many fit; and what closes a ball to every speed."""

from collections.abc import Sequence

from app.pages.start import words
from app.pages.start.answers import StartAnswer
from app.pages.start.limits import AIMS
from app.show.ball_words import ball_words
from app.show.numbers import percent
from app.units.conversion import plain, rounded_down, rounded_up_to
from model.start import FULL, SLOWEST
from model.start_list import BallRange
from model.throw import SPEED_LIMIT

CHOOSE = "Choose what matters most, and the balls are put in that order."
REASONS = {
    "growing": "this thrower is still growing",
    "before_injury": "the reference is from before an injury",
    "no_other_ball": "no speed with another ball was ever measured",
}
"""Why the own ball stands first whatever is chosen, by `StartAnswer.careful`."""

OWN_FLOOR = "which is this program’s own floor and no limit of yours"


def sentence(answer: StartAnswer) -> tuple[str, str]:
    """Say the answer: what stands out, and the rest.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    (str, str)
        Both empty without an answer. No ball is named before an aim is chosen.
    """
    found = answer.found
    if found is None:
        return "", ""
    sure = f"each limit with {words.certainty_words(answer)} certainty"
    if not found.listed:
        return "Nothing fits", f": no ball keeps every limit, {sure}, at any speed that is computed."
    limited = bool(answer.asked.limits)
    count = f"{how_many(answer)}, {sure}." if limited else "No limit is set: every ball may go up to full speed."
    if not answer.asked.aim:
        strong = how_many(answer) if limited else "No limit is set"
        return strong, f"{count.removeprefix(strong)} {CHOOSE}"
    if not answer.careful and answer.first is not None:
        return words.throw_text(answer.first, answer), f": first for “{AIMS[answer.asked.aim]}”. {count}"
    order = f"The order for “{AIMS[answer.asked.aim]}” follows below. {count}"
    if answer.first is not None:
        return words.throw_text(answer.first, answer), f". {why_own(answer)} {order}"
    own = closed_by(answer, [answer.own_range]) if answer.own_range else ""
    name = words.own_words(answer.case.own_ball, True, answer.case.system)
    why = f" {why_own(answer)}" if answer.careful else ""
    return f"{name} fits at no speed", f": {own}{why} {order}"


def how_many(answer: StartAnswer) -> str:
    """Say how many balls keep every limit."""
    found = answer.found
    count, every = (len(found.listed), len(found.ranges)) if found else (0, 0)
    if every == 1:
        return "The one ball ticked keeps every limit"
    return f"{count} of {every} balls keep{'s' if count == 1 else ''} every limit"


def why_own(answer: StartAnswer) -> str:
    """Say why the own ball stands first whatever is chosen; nothing where it does not."""
    reasons = [REASONS[key] for key in answer.careful]
    if not reasons:
        return ""
    *others, last = reasons
    told = f"{', '.join(others)} and {last}" if others else last
    return f"The own ball stands first whatever is chosen, because {told}."


def closed_words(answer: StartAnswer) -> list[str]:
    """Say of the balls that no share fits which limit closes them, and what each limit allows by itself.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of str
        Empty where every ball fits.
    """
    found = answer.found
    if found is None:
        return []
    groups: dict[tuple[object, ...], list[BallRange]] = {}
    for one in found.ranges:
        if not one.fits:
            shapes = tuple(shape_of(one, key) for key in one.closed_by)
            apart = one.ball if "both" in shapes else None  # two spans of numbers in a row cannot be read
            groups.setdefault((one.closed_by, one.below_floor, shapes, apart), []).append(one)
    said = []
    for balls in groups.values():
        names = [ball_words(one.ball, answer.case.system) for one in balls]
        whole = len(names) == len(found.ranges) > 1
        listed = f"{', '.join(names[:-1])} and {names[-1]}" if names[1:] else names[0]
        told = f"All {len(names)} balls" if whole else listed
        said.append(f"{told} fit{'' if names[1:] else 's'} at no speed: {closed_by(answer, balls)}")
    return said


def closed_by(answer: StartAnswer, balls: Sequence[BallRange]) -> str:
    """Say what closes balls that the same limits close in the same way.

    Parameters
    ----------
    answer : StartAnswer
    balls : sequence of BallRange
        One or more; those of which `shape_of` is the same.

    Returns
    -------
    str
        After a colon.
    """
    one = balls[0]
    alone = any(_none_alone(one, key) for key in one.closed_by)
    said = []
    for key in one.closed_by:
        limit, share, speed = words.limit_words(key, answer), *allowed_words(answer, balls, key)
        told = f"{limit} allows {share}{f', {speed}' if speed else ''}" if alone else f"{limit} ({share})"
        if key in one.below_floor:
            told += f"; nothing is computed below {percent(SLOWEST)}, {OWN_FLOOR}"
        said.append(told)
    return f"{'; '.join(said)}." if alone else f"no speed keeps these together: {', '.join(said)}."


def allowed_words(answer: StartAnswer, balls: Sequence[BallRange], key: str) -> tuple[str, str]:
    """Say what a limit by itself allows balls of one `shape_of`, in shares of full speed and in speeds.

    Parameters
    ----------
    answer : StartAnswer
    balls : sequence of BallRange
    key : str
        Of the limit.

    Returns
    -------
    (str, str)
        As shares, and as speeds where there are any.
    """
    shape, system = shape_of(balls[0], key), answer.case.system
    if shape == "none":
        return f"no speed from {system.text(SPEED_LIMIT.low, 'm/s', 1, 1)} up", ""
    if shape == "all":
        return "every speed up to full speed", ""
    unit = system.unit("m/s")
    lows, highs = ([(one.alone[key][end], one.full_speed_m_s) for one in balls] for end in (0, 1))
    start = stop = start_speed = stop_speed = ""
    if shape in ("from", "both"):
        start = _span([plain(rounded_up_to(100.0 * low, 1), most=1) for low, _ in lows])
        start_speed = _span([words.up(low * full, "m/s", system) for low, full in lows])
    if shape in ("up to", "both"):
        stop = _span([plain(rounded_down(100.0 * high, 1), most=1) for high, _ in highs])
        stop_speed = _span([words.down(high * full, "m/s", system) for high, full in highs])
    if shape == "up to":
        return f"up to {stop} % of full speed", f"{stop_speed} {unit}"
    if shape == "from":
        return f"only from {start} % of full speed on", f"{start_speed} {unit}"
    return f"{start} to {stop} % of full speed", f"{start_speed} to {stop_speed} {unit}"


def shape_of(one: BallRange, key: str) -> str:
    """Tell what kind of range a limit by itself allows a ball: 'none', 'all', 'up to', 'from' or 'both' ends.

    Parameters
    ----------
    one : BallRange
    key : str
        Of the limit.

    Returns
    -------
    str
    """
    low, high = one.alone[key]
    slowest = SPEED_LIMIT.low / one.full_speed_m_s
    if low > high or (high < one.floor and key not in one.below_floor):
        return "none"  # or in throws slower than any that is accepted
    if high >= FULL and low <= max(one.floor, slowest):
        return "all"
    if low <= slowest:
        return "up to"
    return "from" if high >= FULL else "both"


def _none_alone(one: BallRange, key: str) -> bool:
    low, high = one.alone[key]
    return max(low, one.floor) > min(high, FULL)


def _span(texts: Sequence[str]) -> str:
    """The least and the greatest of numbers as they are written; one where they are alike."""
    low, high = min(texts, key=float), max(texts, key=float)
    return low if low == high else f"{low} to {high}"
