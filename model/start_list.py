"""The balls of a rack that fit the limits, in the order of a stated aim; or which limit keeps them all out.

Each ball is taken at the greatest share that the limits allow, so that the list compares balls and not slowness: slower
is longer and gentler with any ball. Only the aim of a wanted peak looks for the share that comes nearest to it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from model.ball import Ball
from model.ceilings import BOUNDS, SHARE_LIMIT, TORQUE_LIMIT, Amount, Bound, Ceilings
from model.checks import InputError, check_choice, check_number
from model.critical_speed import critical_speeds
from model.interval import LEVEL
from model.quantity import Quantity
from model.readouts import Readouts, read_curves
from model.start import FULL, SLOWEST, Field, label_of, quantile_rank, region
from model.throw import Throw, curves, path_loads

PEAK = Quantity("varus", "peak")

AIMS = {
    "longest_loaded": "longest time loaded under the limits",
    "slowest_rise": "slowest rise at the limits",
    "nearest_peak": "nearest to a wanted peak",
}


@dataclass(frozen=True)
class BallRange:
    """What a ball may be thrown at.

    Attributes
    ----------
    ball : Ball
    least, most : float
        Shares of full speed with it; it fits if the least is not above the most.
    least_by, most_by : str
        What sets each (`start.label_of` names it).
    full_speed_m_s : float
        Best estimate of full speed with it (m/s).
    lines : dict of str to float
        Each limit's own edge, by its key.
    """

    ball: Ball
    least: float
    most: float
    least_by: str
    most_by: str
    full_speed_m_s: float
    lines: dict[str, float]

    @property
    def fits(self) -> bool:
        """Whether any share keeps every limit."""
        return self.least <= self.most


@dataclass(frozen=True)
class Margin:
    """How far a throw stays from a limit.

    Attributes
    ----------
    key, label : str
        Of the limit.
    amount : Amount
        The limit.
    held : float
        What the throw stays within (of a least time: stays above) with the stated certainty, as the amount counts.
    room : float
        What is left, relative to the limit; 0 at it, negative beyond it.
    """

    key: str
    label: str
    amount: Amount
    held: float
    room: float


@dataclass(frozen=True)
class Choice:
    """One line of the short list.

    Attributes
    ----------
    range : BallRange
    share, speed_m_s : float
        Of full speed with the ball, and that speed by the best estimate (m/s).
    elbow, shoulder, braking : Readouts
        Of varus, internal-rotation and braking horizontal-abduction torque, at that speed.
    margins : tuple of Margin
    together : float
        Probability that all limits are kept at once; each by itself is with the stated certainty.
    reason : str
        One line, from the numbers.
    """

    range: BallRange
    share: float
    speed_m_s: float
    elbow: Readouts
    shoulder: Readouts
    braking: Readouts
    margins: tuple[Margin, ...]
    together: float
    reason: str


@dataclass(frozen=True)
class Relaxation:
    """One limit and how far it would have to be relaxed.

    Attributes
    ----------
    key, label : str
        Of the limit.
    amount, needed : Amount
        As it is, and as it would have to be.
    """

    key: str
    label: str
    amount: Amount
    needed: Amount

    @property
    def change(self) -> float:
        """Relative size of the change, the same for doubling and halving."""
        return abs(float(np.log(self.needed.value / self.amount.value)))


@dataclass(frozen=True)
class NothingFits:
    """No ball of the rack keeps every limit at any share looked at.

    Attributes
    ----------
    ball : Ball
        The one that the least relaxation lets in.
    relax : tuple of Relaxation
        One limit if relaxing one is enough, and it is the least such relaxation; else the fewest together.
    """

    ball: Ball
    relax: tuple[Relaxation, ...]

    @property
    def sentence(self) -> str:
        """Say it, in the limits' own units."""
        said = " and ".join(
            f"{one.label} from {_amount(one.key, one.amount)} to {_amount(one.key, one.needed)}" for one in self.relax
        )
        alone = "the least single change" if len(self.relax) == 1 else "no single change is enough"
        return f"nothing fits; the {1000 * self.ball.mass_kg:.0f} g ball would with {said} ({alone})"


def ranges(
    field: Field, ceilings: Ceilings, rack: Sequence[Ball], *, certainty: float = LEVEL
) -> tuple[BallRange, ...]:
    """Find what each ball of a rack may be thrown at.

    Parameters
    ----------
    field : Field
    ceilings : Ceilings
    rack : sequence of Ball
    certainty : float
        As for `start.region`.

    Returns
    -------
    tuple of BallRange
        In the order of the rack.

    Raises
    ------
    InputError
        If the rack is empty, or as `start.region` says.
    """
    if not rack:
        raise InputError("rack", "no ball", "one ball or more")
    found: dict[int, BallRange] = {}
    for diameter_m in dict.fromkeys(ball.diameter_m for ball in rack):
        which = [i for i, ball in enumerate(rack) if ball.diameter_m == diameter_m]
        one = region(field, ceilings, [rack[i].mass_kg for i in which], diameter_m=diameter_m, certainty=certainty)
        for j, i in enumerate(which):
            lines = {key: float(line[j]) for key, line in one.lines.items()}
            edges = (float(one.least[j]), float(one.most[j]), one.least_by[j], one.most_by[j])
            found[i] = BallRange(rack[i], *edges, float(one.full_speed_m_s[j]), lines)
    return tuple(found[i] for i in range(len(rack)))


def short_list(
    field: Field,
    ceilings: Ceilings,
    rack: Sequence[Ball],
    aim: str = "longest_loaded",
    *,
    wanted_peak: Amount | None = None,
    certainty: float = LEVEL,
    length: int = 3,
    every: Sequence[BallRange] | None = None,
) -> tuple[Choice, ...] | NothingFits:
    """Rank the balls that fit for an aim.

    Parameters
    ----------
    field : Field
    ceilings : Ceilings
    rack : sequence of Ball
    aim : str
        A key of `AIMS`.
    wanted_peak : Amount, optional
        Of varus torque (a share of the reference throw's, or N m); needed for 'nearest_peak'.
    certainty : float
        As for `start.region`.
    length : int
        How many at most.
    every : sequence of BallRange, optional
        What `ranges` found for all this, if it was asked before.

    Returns
    -------
    tuple of Choice, or NothingFits
        The one that serves the aim most first.

    Raises
    ------
    InputError
        If a value is not accepted.
    """
    check_choice("aim", aim, AIMS)
    if every is None:
        every = ranges(field, ceilings, rack, certainty=certainty)
    fitting = [one for one in every if one.fits]
    if not fitting:
        return nothing_fits(field, ceilings, every, certainty=certainty)
    wanted_nm = _wanted_nm(field, wanted_peak) if aim == "nearest_peak" else 0.0
    found = []
    for one in fitting:
        share = _share_for(field, one, wanted_nm) if aim == "nearest_peak" else one.most
        throw = Throw(field.thrower.person, one.ball, share * one.full_speed_m_s)
        elbow = read_curves(curves(throw), "varus")
        found.append((_merit(aim, elbow, wanted_nm), one, share, throw, elbow))
    found.sort(key=lambda row: row[0])
    listed = []
    for rank, (_, one, share, throw, elbow) in enumerate(found[:length]):
        drawn = {bound.key: field.held(bound, amount, one.ball, share) for bound, amount in ceilings.given()}
        kept = np.ones(field.p.size, dtype=bool)
        for bound, amount in ceilings.given():
            kept &= _keeps(bound, drawn[bound.key], amount.value)
        listed.append(
            Choice(
                one,
                share,
                throw.speed_m_s,
                elbow,
                read_curves(curves(throw), "internal_rotation"),
                read_curves(curves(throw), "horizontal_abduction"),
                tuple(_margin(bound, amount, drawn[bound.key], certainty) for bound, amount in ceilings.given()),
                float(kept.mean()),
                _reason(aim, rank, len(found), one, share, elbow, wanted_nm),
            )
        )
    return tuple(listed)


def nothing_fits(
    field: Field, ceilings: Ceilings, every: Sequence[BallRange], *, certainty: float = LEVEL
) -> NothingFits:
    """Find which limit keeps all balls out, and by how much it would have to give.

    A ball fits at the least share it may be thrown at if every limit on how fast allows that much, or at the greatest
    if the one on how slowly does. Both are looked at for each ball; the fewest limits, and of these the least relative
    change, are told.

    Parameters
    ----------
    field : Field
    ceilings : Ceilings
    every : sequence of BallRange
        None of which fits.
    certainty : float
        That they were found with.

    Returns
    -------
    NothingFits
    """
    amounts = {bound.key: amount for bound, amount in ceilings.given()}
    options = []
    for one in every:
        too_slow = [bound for bound, _ in ceilings.given() if bound.upper_edge and one.lines[bound.key] < one.least]
        if one.least <= FULL:
            options.append((one, too_slow, one.least))
        if one.least_by in amounts:
            floor = [bound for bound, _ in ceilings.given() if bound.key == one.least_by]
            still = [bound for bound, _ in ceilings.given() if bound.upper_edge and one.lines[bound.key] < SLOWEST]
            options.append((one, still + floor, max(one.most, SLOWEST)))
    found = []
    for one, bounds, share in options:
        relax = tuple(_relaxation(field, bound, amounts[bound.key], one.ball, share, certainty) for bound in bounds)
        found.append(NothingFits(one.ball, relax))
    return min(found, key=lambda one: (len(one.relax), sum(part.change for part in one.relax)))


def _relaxation(field: Field, bound: Bound, amount: Amount, ball: Ball, share: float, certainty: float) -> Relaxation:
    held = _held(bound, field.held(bound, amount, ball, share), certainty)
    return Relaxation(bound.key, bound.label, amount, Amount(held, amount.absolute))


def _held(bound: Bound, drawn: np.ndarray, certainty: float) -> float:
    """What is kept with a certainty: below it, or of a least amount above it."""
    rank = quantile_rank(certainty if bound.at_most else 1.0 - certainty, drawn.size, not bound.at_most)
    return float(np.partition(drawn, rank)[rank])


def _keeps(bound: Bound, drawn: np.ndarray, value: float) -> np.ndarray:
    rounding = 1e-5  # the curves through the nodes; a hundredth of a per mille of a torque
    return drawn <= value * (1.0 + rounding) if bound.at_most else drawn >= value * (1.0 - rounding)


def _margin(bound: Bound, amount: Amount, drawn: np.ndarray, certainty: float) -> Margin:
    held = _held(bound, drawn, certainty)
    room = 1.0 - held / amount.value if bound.at_most else held / amount.value - 1.0
    return Margin(bound.key, bound.label, amount, held, room)


def _wanted_nm(field: Field, wanted: Amount | None) -> float:
    if wanted is None:
        raise InputError("wanted_peak", None, "a torque, or a share of the reference throw's, for this aim")
    if wanted.absolute:
        return check_number("wanted_peak", wanted.value, TORQUE_LIMIT)
    check_number("wanted_peak", wanted.value, SHARE_LIMIT)
    middle = np.array([np.median(field.log_reference)])
    return float(field.limits_at(BOUNDS["elbow_peak"], wanted, middle)[0])


def _share_for(field: Field, one: BallRange, wanted_nm: float) -> float:
    """The share within a ball's range whose peak comes nearest to the wanted one: peaks rise with speed."""
    loads = path_loads(field.thrower.person, one.ball.diameter_m)
    speed = float(critical_speeds(loads, PEAK, one.ball.mass_kg, wanted_nm))
    return min(max(speed / one.full_speed_m_s, one.least), one.most)


def _merit(aim: str, elbow: Readouts, wanted_nm: float) -> tuple[float, float]:
    """What is smallest of the ball that serves an aim most; of equals the one loaded longest comes first."""
    if aim == "longest_loaded":
        return 0.0, -float(elbow.loaded_s)
    first = float(elbow.rise_rate) if aim == "slowest_rise" else round(abs(float(elbow.peak) - wanted_nm), 2)
    return first, -float(elbow.loaded_s)


def _amount(key: str, amount: Amount) -> str:
    if amount.absolute:
        return f"{amount.value:.4g} {BOUNDS[key].accepted.unit}"
    return f"{100 * amount.value:.4g} % of the reference throw's"


def _reason(aim: str, rank: int, count: int, one: BallRange, share: float, elbow: Readouts, wanted_nm: float) -> str:
    place = "of the only ball that fits" if count == 1 else f"place {rank + 1} of the {count} balls that fit"
    stop = "at full speed" if one.most_by == "full" else f"{label_of(one.most_by)} keeps it from going faster"
    if aim == "longest_loaded":
        return f"loaded {1000 * elbow.loaded_s:.0f} ms, {place}; {stop}"
    if aim == "slowest_rise":
        return f"rises at {elbow.rise_rate:.0f} N·m/s, {place}; {stop}"
    off = elbow.peak - wanted_nm
    stop = ""
    if share in (one.least, one.most):
        stop = f"; {label_of(one.most_by if share == one.most else one.least_by)} keeps it from coming nearer"
    side = "above" if off > 0 else "below"
    near = "at the wanted peak" if abs(off) < 0.05 else f"{abs(off):.1f} N·m {side} the wanted peak"
    return f"peak {elbow.peak:.1f} N·m, {near}, {place}{stop}"
