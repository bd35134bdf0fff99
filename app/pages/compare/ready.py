"""Ready comparisons: a list of throws made at once from the reference throw and the athlete's balls. Pure."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace

from app.show.checks import check_throw
from app.show.throw_form import MOST_THROWS, OTHER, Form, ThrowForm
from app.units.conversion import from_si, plain, to_si
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.checks import InputError
from model.speed_readings import SAME_BALL_KG

READY = {
    "neighbours": "one ball heavier, one lighter",
    "rack": "the whole rack",
    "speeds": "one ball at three speeds",
    "throwers": "two athletes with the same ball",
}
"""What can be chosen, in the trade's words."""

NO_SECOND = "Say first of one throw that another athlete throws it."
SHARES = (1.0, 0.9, 0.8)
BESIDE = 1.25  # times the own ball, up and down, where the rack has no heavier or no lighter one
STEP_G = 5.0  # such a ball is rounded to this


@dataclass(frozen=True)
class Ready:
    """A ready comparison.

    Attributes
    ----------
    form : Form
        The same form if it cannot be made.
    said : str
        What was done, or what is missing.
    """

    form: Form
    said: str


def ready(form: Form, key: object, rack: Sequence[Ball], on_profile: Collection[str]) -> Ready:
    """Put a ready comparison in the place of the list; the reference throw stays, and comes first.

    Parameters
    ----------
    form : Form
    key : object
        A key of `READY`, as the browser sent it.
    rack : sequence of Ball
        The athlete's balls.
    on_profile : collection of str
        The throwers who have readings, so that their throws can be held on the speed profile; else they get the
        reference's own speed.

    Returns
    -------
    Ready
    """
    place = form.place(form.reference)
    makers: dict[str, Callable[[ThrowForm, Ball], list[ThrowForm]]] = {
        "neighbours": lambda own, ball: [_with(own, other, profiled) for other in _neighbours(ball, rack)],
        "rack": lambda own, ball: [_with(own, one, profiled) for one in _others(ball, rack)],
        "speeds": lambda own, _: [_slower(own, share) for share in SHARES[1:]],
        "throwers": lambda own, _: _by_another(own, on_profile),
    }
    if not isinstance(key, str) or key not in makers:
        return Ready(form, "")
    own = form.throws[place] if place >= 0 else ThrowForm("")
    line, profiled = check_throw(own), own.thrower in on_profile
    ball = line.ball
    if ball is None or line.value is None:
        return Ready(form, "A ready comparison starts from the reference throw: give its ball mass and speed first.")
    if key == "throwers" and not form.two:
        return Ready(form, NO_SECOND)
    made = makers[key](own, ball)
    left_out = max(0, len(made) - (MOST_THROWS - 1))
    throws = [own, *made[: MOST_THROWS - 1]]
    keyed = tuple(replace(throw, key=f"t{i}") for i, throw in enumerate(throws, start=1))
    if len(keyed) == 1:
        return Ready(form, "There is no other ball: add one on the Athletes page.")
    how = ", each at full speed by the profile" if profiled else ", all at the same speed"
    if key == "speeds":
        how = ""
    if key == "throwers":
        how = ": at the same speed" + (", and at the second thrower’s own full speed" if len(made) > 1 else "")
    more = f" {left_out} of the rack did not fit." if left_out else ""
    return Ready(replace(form, throws=keyed, reference="t1", headline=""), f"{READY[key].capitalize()}{how}.{more}")


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


def _with(own: ThrowForm, ball: Ball, on_profile: bool) -> ThrowForm:
    diameter = own.ball_diameter_mm if ball.diameter_m == DEFAULT_DIAMETER_M else plain(from_si(ball.diameter_m, "mm"))
    other = replace(own, ball_mass_g=plain(from_si(ball.mass_kg, "g")), ball_diameter_mm=diameter)
    return other.holding("profile", "100") if on_profile else other


def _by_another(own: ThrowForm, on_profile: Collection[str]) -> list[ThrowForm]:
    """The same throw by the other thrower; and their own full effort with that ball, where readings tell its speed."""
    other = replace(own, by="" if own.thrower else OTHER)
    return [other, other.holding("profile", "100")] if other.thrower in on_profile else [other]


def _slower(own: ThrowForm, share: float) -> ThrowForm:
    value = check_throw(own).value
    return own if value is None else own.holding(own.held, plain(share * value, least=1))
