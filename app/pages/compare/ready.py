"""Ready comparisons: a list of throws made at once from the reference throw and the athlete's balls. Pure."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.pages.compare.acts import Values
from app.pages.compare.holding import as_held
from app.show.listed_throw import MOST_THROWS, OTHER, ListedThrow
from app.units.conversion import from_si, to_si
from model.ball import Ball
from model.checks import InputError
from model.speed_readings import SAME_BALL_KG

READY = {
    "neighbours": "one ball heavier, one lighter",
    "rack": "the whole rack",
    "speeds": "one ball at three speeds",
    "throwers": "two athletes with the same ball",
}
"""What can be chosen, in the trade's words."""

NO_REFERENCE = "A ready comparison starts from the reference throw: give its ball mass and speed first."
NO_SECOND = "Say first of one throw that another athlete throws it."
SHARES = (1.0, 0.9, 0.8)
BESIDE = 1.25  # times the own ball, up and down, where the rack has no heavier or no lighter one
STEP_G = 5.0  # such a ball is rounded to this
FULL = {"hold": "profile", "number": 1.0}


@dataclass(frozen=True)
class Ready:
    """A ready comparison.

    Attributes
    ----------
    throws : tuple of mapping of str to object
        What stands behind the reference throw then, as values by column; empty if it cannot be made.
    said : str
        What was done, or what is missing.
    """

    throws: tuple[Values, ...]
    said: str


def ready(
    own: ListedThrow | None,
    key: object,
    rack: Sequence[Ball],
    on_profile: Collection[str],
    others: Mapping[str, str],
) -> Ready:
    """Make a ready comparison; the reference throw stays, and comes first.

    Parameters
    ----------
    own : ListedThrow or None
        The reference throw.
    key : object
        A key of `READY`, as the browser sent it.
    rack : sequence of Ball
        The athlete's balls.
    on_profile : collection of str
        The throwers who have readings, so that their throws can be held on the speed profile; else they get the
        reference's own speed.
    others : mapping of str to str
        uid of the second thrower, by `OTHER`; empty where there is none.

    Returns
    -------
    Ready
    """
    if not isinstance(key, str) or key not in READY:
        return Ready((), "")
    if own is None or own.ball is None or own.value is None:
        return Ready((), NO_REFERENCE)
    if key == "throwers" and not others:
        return Ready((), NO_SECOND)
    ball, base, profiled = own.ball, _values(own, others), own.thrower in on_profile
    makers: dict[str, Callable[[], list[dict[str, Any]]]] = {
        "neighbours": lambda: [_with(base, other, profiled) for other in _neighbours(ball, rack)],
        "rack": lambda: [_with(base, one, profiled) for one in _others(ball, rack)],
        "speeds": lambda: [_slower(base, share) for share in SHARES[1:]],
        "throwers": lambda: _by_another(own, base, on_profile, others),
    }
    made = makers[key]()
    if not made:
        return Ready((), "There is no other ball: add one on the Athletes page.")
    left_out = max(0, len(made) - (MOST_THROWS - 1))
    how = ", each at full speed by the profile" if profiled else ", all at the same speed"
    if key == "speeds":
        how = ""
    if key == "throwers":
        how = ": at the same speed" + (", and at the second thrower’s own full speed" if len(made) > 1 else "")
    more = f" {left_out} of the rack did not fit." if left_out else ""
    return Ready(tuple(made[: MOST_THROWS - 1]), f"{READY[key].capitalize()}{how}.{more}")


def _values(own: ListedThrow, others: Mapping[str, str]) -> dict[str, Any]:
    made: dict[str, Any] = {"hold": own.hold, "number": own.value}
    if own.ball is not None:
        made |= {"mass_kg": own.ball.mass_kg, "diameter_m": own.ball.diameter_m}
    return made | ({"thrower": others[own.thrower]} if own.thrower in others else {})


def _others(own: Ball, rack: Sequence[Ball]) -> list[Ball]:
    return [ball for ball in rack if abs(ball.mass_kg - own.mass_kg) >= SAME_BALL_KG]


def _neighbours(own: Ball, rack: Sequence[Ball]) -> list[Ball]:
    """The next lighter and the next heavier ball of the rack, or a ball a quarter away."""
    lighter = [ball for ball in _others(own, rack) if ball.mass_kg < own.mass_kg]
    heavier = [ball for ball in _others(own, rack) if ball.mass_kg > own.mass_kg]
    found = [
        max(lighter, key=lambda ball: ball.mass_kg) if lighter else _beside(own, 1.0 / BESIDE),
        min(heavier, key=lambda ball: ball.mass_kg) if heavier else _beside(own, BESIDE),
    ]
    return [ball for ball in found if ball is not None]


def _beside(own: Ball, factor: float) -> Ball | None:
    grams = STEP_G * round(from_si(own.mass_kg, "g") * factor / STEP_G)
    try:
        return Ball(to_si(grams, "g"), own.diameter_m)
    except InputError:
        return None  # beyond what a ball can be


def _with(own: Values, ball: Ball, on_profile: bool) -> dict[str, Any]:
    return {**own, "mass_kg": ball.mass_kg, "diameter_m": ball.diameter_m, **(FULL if on_profile else {})}


def _by_another(
    own: ListedThrow, base: dict[str, Any], on_profile: Collection[str], others: Mapping[str, str]
) -> list[dict[str, Any]]:
    """The same throw by the other thrower; and their own full effort with that ball, where readings tell its speed."""
    by = "" if own.thrower else OTHER
    other = {name: value for name, value in base.items() if name != "thrower"}
    other |= {"thrower": others[by]} if by else {}
    return [other, other | FULL] if by in on_profile else [other]


def _slower(own: dict[str, Any], share: float) -> dict[str, Any]:
    return own | {"number": as_held(own["hold"], share * own["number"])}
