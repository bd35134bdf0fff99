"""The order of the balls: which there are, and with which ball at which share of full speed each begins. Pure."""

from dataclasses import dataclass

from app.pages.buildup.aims import OWN_FIRST, aim_named
from app.pages.buildup.athlete import Athlete, ball_among, given_balls
from app.pages.buildup.first_limits import FirstLimits, limit_words, rounded_down_share, rounded_up_share
from app.pages.buildup.wanted import Wanted, spec
from app.pages.buildup.words import share_words
from app.records.plan_fields import ORDERS
from app.show.rack import balls_in
from app.show.subject import is_same
from model.ball import Ball
from model.build_up import ROUNDING, SHARE_LIMIT
from model.checks import InputError
from model.full_speeds import SpeedTable
from model.ladder import Most, Row, Rung, fitted

ORDER_SAID = {"heavy": "what many do in rehabilitation (common practice, no source)"}
WHY_OWN_FIRST = (
    "after time off or an injury, and for throwers who are still growing, the own ball never first comes faster"
)


@dataclass(frozen=True)
class Begin:
    """With what an order begins.

    Attributes
    ----------
    ball : Ball
    share : float
    notes : tuple of str
        What was lowered or raised, and why.
    most : Most or None
        What the first session is no more than, after a stop sign.
    """

    ball: Ball
    share: float
    notes: tuple[str, ...] = ()
    most: Most | None = None

    def check_throws(self, wanted: Wanted, area_nms: float) -> None:
        """Refuse more throws in the first session than the last painless one had, by the area of one (N m s)."""
        if self.most is None:
            return
        accepted = min(self.most.throws, int(self.most.area_nms / area_nms * (1.0 + ROUNDING)))
        first = int(wanted.budget(area_nms).first_nms / area_nms * (1.0 + ROUNDING))
        first = min(first, wanted["most_throws"])
        if first > accepted:
            field = "first_nms" if wanted.said("first_nms") else "first_throws"
            said = f"up to {accepted} throws after the stop sign: no more than the last painless session"
            raise InputError(spec(field).label, first, said)


def heaviest_of(wanted: Wanted, athlete: Athlete) -> Ball | None:
    """The heaviest ball that is thrown; None where it is the own one, or lighter."""
    own = athlete.case.own_ball
    balls = balls_in(athlete.case, wanted["left_out"] or "")
    heaviest = max(balls, key=lambda ball: ball.mass_kg, default=own)
    return None if heaviest.mass_kg <= own.mass_kg or is_same(heaviest, own) else heaviest


def between(wanted: Wanted, athlete: Athlete) -> tuple[Ball, ...]:
    """The balls that can be the one in between, the usual one first: that from Start, or the nearest to the middle."""
    own, heaviest = athlete.case.own_ball, heaviest_of(wanted, athlete)
    ends = [own, *((heaviest,) if heaviest is not None else ())]
    given = given_balls(athlete)
    balls = dict.fromkeys([*given, *balls_in(athlete.case, wanted["left_out"] or "")])
    others = [ball for ball in balls if not any(is_same(ball, end) for end in ends)]
    if heaviest is None and not any(ball in given for ball in others):
        return ()
    middle = own.mass_kg * (heaviest or own).mass_kg

    def apart(ball: Ball) -> float:
        square = ball.mass_kg**2
        return max(square / middle, middle / square)

    return tuple(sorted(others, key=lambda ball: (ball not in given, apart(ball))))


def orders_of(wanted: Wanted, athlete: Athlete) -> dict[str, Ball]:
    """The orders there are for an aim and a rack, each with the ball that it begins with."""
    found = {"own": athlete.case.own_ball}
    if aim_named(wanted.care.aim).only_own:
        return found
    heaviest, others = heaviest_of(wanted, athlete), between(wanted, athlete)
    if heaviest is not None:
        found["heavy"] = heaviest
    if others:
        found["between"] = ball_among(wanted["between_ball"], others) or others[0]
    return found


def rack_between(balls: tuple[Ball, ...], first: Ball, last: Ball) -> tuple[Ball, ...]:
    """The balls whose mass lies between those of two, both among them."""
    low, high = sorted((first.mass_kg, last.mass_kg))
    return tuple(dict.fromkeys([first, *(ball for ball in balls if low <= ball.mass_kg <= high), last]))


def begin_of(
    wanted: Wanted,
    athlete: Athlete,
    table: SpeedTable,
    first: FirstLimits | None,
) -> Begin:
    """Find with what the chosen order begins.

    Parameters
    ----------
    first : FirstLimits or None
        Limits from Start.

    Returns
    -------
    Begin
        The share that was typed, else that from Start for its ball, else the aim's; lower where it has to be.

    Raises
    ------
    InputError
        If there is no such order, a typed share is above what the own ball may first come at, or the ball is closed.
    """
    ball = orders_of(wanted, athlete).get(wanted["order"])
    if ball is None:
        raise InputError("Order of the balls", ORDERS.get(wanted["order"], ""), "one of those that stand to choose")
    share, typed, notes = wanted["start_percent"], wanted.said("start_percent"), list[str]()
    system = athlete.case.system
    if first is not None and not typed and is_same(ball, first.ball):
        share = first.share
    if wanted.care.guarded and is_same(ball, athlete.case.own_ball) and share > OWN_FIRST * (1.0 + ROUNDING):
        if typed:
            accepted = f"up to {share_words(OWN_FIRST)} with the own ball: {WHY_OWN_FIRST}"
            raise InputError(spec("start_percent").label, share_words(share), accepted)
        notes.append(f"The start was lowered from {share_words(share)} to {share_words(OWN_FIRST)}: {WHY_OWN_FIRST}.")
        share = OWN_FIRST
    if first is not None:
        low, high = first.shares[ball]
        if low > high:
            closing = "; ".join(limit_words(key, getattr(first.ceilings, key), system) for key in first.closed_by(ball))
            raise InputError(
                "Limits from Start", system.text(ball.mass_kg, "g"), f"a ball that they do not close ({closing})"
            )
        share = _moved(share, low, high, notes)
    if athlete.known.most is not None:
        share = _under(share, ball, athlete, table, athlete.known.most, notes)
    return Begin(ball, share, tuple(notes), athlete.known.most)


def _moved(share: float, low: float, high: float, notes: list[str]) -> float:
    """A share within what the limits from Start allow; told where it is another."""
    moved = min(max(share, rounded_up_share(low)), max(rounded_down_share(high), SHARE_LIMIT.low))
    if abs(moved - share) > ROUNDING:
        word = "lowered" if moved < share else "raised"
        notes.append(
            f"The start was {word} from {share_words(share)} to {share_words(moved)} by the limits from Start."
        )
    return moved


def _under(share: float, ball: Ball, athlete: Athlete, table: SpeedTable, most: Most, notes: list[str]) -> float:
    """A share no higher than the last painless session; told where it is lower than was asked for."""
    person = athlete.case.person
    if person is None:
        return share
    full = dict(zip(table.balls, table.speeds_m_s, strict=True))
    row = Row(person, full, (), (), {})
    found = fitted(row, Rung(0, 0, row.at(ball, share * full[ball])), most)
    if found is None:
        name = athlete.case.system.text(ball.mass_kg, "g")
        raise InputError("Stop sign", name, "a ball with which some throw is no higher than the last painless session")
    moved = max(rounded_down_share(found.step.share), SHARE_LIMIT.low)
    if moved < share - ROUNDING:
        notes.append(
            f"The start was lowered from {share_words(share)} to {share_words(moved)}: after the stop sign, no higher "
            "than the last painless session."
        )
        return moved
    return share
