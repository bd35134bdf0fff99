"""Every ball of the rack with all that it comes to, a column for each, light to heavy; and the order of the aim."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.ids import act_id
from app.pages.start import ids, rounded, words
from app.pages.start.answers import StartAnswer
from app.pages.start.found import Listed
from app.pages.start.headline import allowed_words, shape_of
from app.pages.start.limits import AIMS
from app.records.field_list import AMOUNT_UNITS
from app.show.ball_words import ball_words, value_words
from app.show.glossary import explained
from app.show.numbers import percent, share_of
from app.show.subject import is_same
from app.units.conversion import rounded_down
from model.ceilings import BOUNDS
from model.quantity import Quantity
from model.start_list import BallRange, LimitKept

READOUT_ROWS = (
    ("Elbow, peak", Quantity("varus", "peak"), ("elbow_peak",)),
    ("Elbow, rise rate", Quantity("varus", "rise_rate"), ("rise_rate",)),
    ("Elbow, area", Quantity("varus", "area"), ("area",)),
    ("Elbow, time loaded", Quantity("varus", "loaded_s"), ("least_loaded", "most_loaded")),
    ("Shoulder, peak", Quantity("internal_rotation", "peak"), ("shoulder_peak",)),
    ("Braking after release, peak", Quantity("horizontal_abduction", "peak"), ("braking",)),
)
"""What a throw comes to, and the limits on it."""

ON_PAPER = 9  # balls beside one another
FIRST = "first"
NONE = "–"
BY_WEIGHT = "mostly weight"
BY_WEIGHT_NOTE = (
    "Mostly weight: the weight of arm and ball makes more of it here than the motion does. A slower throw lowers it "
    "little or not at all, and an area it makes larger."
)


@dataclass(frozen=True)
class Column:
    """One ball: what it may be thrown at, and the throw where any fits."""

    range: BallRange
    listed: Listed | None


Cell = Callable[[Column], Any]


def plan_button(answer: StartAnswer, listed: Listed, ball: str = "") -> Component:
    """Make the button that takes a throw over to Build up.

    Parameters
    ----------
    answer : StartAnswer
    listed : Listed
    ball : str
        What its id says of the ball; its mass in g unless given.

    Returns
    -------
    Component
    """
    name = f"Plan from this: {words.throw_text(listed, answer)}"
    key = ball or ball_key(listed)
    return html.Button(
        "Plan from this",
        id=act_id(answer.owner, ids.PLAN, key),
        type="button",
        n_clicks=0,
        className="start-plan",
        **{"aria-label": name},
    )


def ball_key(listed: Listed) -> str:
    """A ball's mass in g, as the id of its button has it."""
    return f"{1000.0 * listed.choice.range.ball.mass_kg:g}"


def tables(answer: StartAnswer) -> list[Component]:
    """Show every ball in one table; on paper in as many as it takes.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of Component
        Nothing where there is no answer.
    """
    found = answer.found
    if found is None or answer.basis is None:
        return []
    fits = {one.choice.range.ball: one for one in found.listed}
    columns = [Column(one, fits.get(one.ball)) for one in found.ranges]
    weighs = any(one.choice.by_weight for one in found.listed)
    after = [html.P(BY_WEIGHT_NOTE, className="quiet")] if weighs else []
    scrolls = {"tabIndex": 0, "role": "region", "aria-label": "Ball by ball, scrolls sideways"}
    if len(columns) <= ON_PAPER:
        return [html.Div(_table(answer, columns, True), className="scrolls", **scrolls), *after]
    parts = [columns[i : i + ON_PAPER] for i in range(0, len(columns), ON_PAPER)]
    return [
        html.Div(_table(answer, columns, True), className="scrolls screen-only", **scrolls),
        html.Div([_table(answer, part, False) for part in parts], className="paper-only"),
        *after,
    ]


def _table(answer: StartAnswer, columns: Sequence[Column], pressed: bool) -> Component:
    head = html.Tr([html.Td(""), *(_ball(column, answer) for column in columns)])
    body = [html.Tbody(_speeds(answer, columns, pressed), className="start-speeds")]
    if any(column.listed for column in columns):
        body.append(html.Tbody(_comes_to(answer, columns), className="start-comes-to"))
    if any(not one.fits for one in (answer.found.ranges if answer.found else ())):
        body.append(html.Tbody(_alone(answer, columns), className="start-alone"))
    return html.Table([html.Thead(head), *body], className="start-table", style={"--balls": len(columns)})


def _ball(column: Column, answer: StartAnswer) -> Component:
    place = answer.place(column.listed) if column.listed else 0
    mark = [html.Span(f"{place}", className="start-place", **{"aria-hidden": "true"})] if place else []
    own = is_same(column.range.ball, answer.case.own_ball)
    name = html.Span(ball_words(column.range.ball, answer.case.system), className="start-ball")
    note = [html.Span("own ball", className="note")] if own else []
    return html.Th([*mark, name, *note], scope="col", className="start-own" if own else "")


def _row(label: Any, note: str, cells: Sequence[Any], kind: str = "") -> Component:
    said = explained(label) if isinstance(label, str) else [label]
    head = html.Th([*said, html.Span(note, className="note")] if note else said, scope="row")
    return html.Tr([head, *(html.Td(cell) for cell in cells)], className=kind)


def _group(title: str, note: str, columns: Sequence[Column]) -> Component:
    said = [title, html.Span(note, className="note")] if note else title
    return html.Tr(html.Th(said, colSpan=1 + len(columns), scope="rowgroup"))


def _of(columns: Sequence[Column], said: Callable[[Listed], Any]) -> list[Any]:
    """A cell for each ball that fits, a dash for the others."""
    return [NONE if column.listed is None else said(column.listed) for column in columns]


def _noted(value: str, note: str, strong: bool = False) -> list[Component | str]:
    return [html.Strong(value) if strong else value, html.Span(note, className="note")]


def _speeds(answer: StartAnswer, columns: Sequence[Column], pressed: bool) -> list[Component]:
    """How fast, and what that is by other measures."""
    case, system = answer.case, answer.case.system
    unit, by_peak = system.unit("m/s"), answer.asked.aim == "nearest_peak"

    def fastest(column: Column) -> Any:
        if column.listed is None:
            return html.Strong("none")
        shown = rounded.most(column.range, system)
        return _noted(shown.speed_number, shown.share_text, strong=not by_peak)

    def first(column: Column) -> Any:
        if column.listed is None or column.range.least_by == "slowest":
            return NONE
        shown = rounded.least(column.range, system)
        return _noted(shown.speed_number, shown.share_text)

    note = f"{unit}; share of full speed"
    full = [case.speed(one.range.full_speed_m_s) for one in columns]
    rows = [
        _row("Fastest allowed speed", note, [fastest(one) for one in columns]),
        _row("Full speed with it", f"{unit}, best estimate", full),
    ]
    if any(column.listed and column.range.least_by != "slowest" for column in columns):
        rows.append(_row("Slowest allowed speed", note, [first(one) for one in columns]))
    rows.append(_row("Stopped by", "the limit that is met first", [_stopped(column) for column in columns]))
    if not any(column.listed for column in columns):
        return rows
    if by_peak:
        wanted = words.bare_words("elbow_peak", answer.asked.amounts["wanted_peak"], answer)
        chosen = _of(columns, lambda one: _chosen(one, answer))
        rows.append(_row(f"Speed nearest to a peak of {wanted}", unit, chosen))
    if case.radar is not None:
        shown = _of(columns, lambda one: words.down(one.radar_m_s, "m/s", system))
        rows.append(_row("Radar shows", f"{unit}, of this speed", shown))
    effort = _of(columns, lambda one: words.effort_text(one, answer))
    distance = _of(columns, lambda one: words.distance_text(one, answer))
    rows.append(_row("Asked effort", "that brings this speed", effort))
    rows.append(_row("Distance", f"{system.unit('m')}, thrown this fast", distance))
    if pressed:
        buttons = [NONE if one.listed is None else plan_button(answer, one.listed) for one in columns]
        rows.append(_row("Build up", "", buttons, "start-pressed"))
    return rows


def _chosen(one: Listed, answer: StartAnswer) -> list[Component | str]:
    shown = rounded.chosen(one.choice, answer.case.system)
    return _noted(shown.speed_number, shown.share_text, strong=True)


def _stopped(column: Column) -> str:
    one = column.range
    if one.fits:
        return words.EDGES[one.most_by]
    return ", ".join(words.EDGES[key] for key in one.closed_by)


def _comes_to(answer: StartAnswer, columns: Sequence[Column]) -> list[Component]:
    """What the throw comes to: likely, and with the certainty where there is a limit."""
    limited = bool(answer.asked.limits)
    dated = answer.basis.dated if answer.basis else ""
    at = "at the speed nearest to that peak; " if answer.asked.aim == "nearest_peak" else ""
    rows = [_group("What the throw comes to", f"{at}per cent: of the reference, {dated}", columns)]
    for label, quantity, keys in READOUT_ROWS:
        unit = AMOUNT_UNITS[quantity.unit]
        given = [key for key in keys if key in answer.asked.amounts]
        free = "" if given else "; not limited"
        cells = _of(columns, partial(_likely, quantity=quantity, keys=given, answer=answer))
        rows.append(_row(f"{label}, likely", f"{unit}{free}", cells))
        rows += [_bound(key, answer, columns) for key in given]
    if "speed" in answer.asked.amounts:
        unit = answer.case.system.unit("m/s")
        cells = _of(columns, lambda one: _likely_speed(one, answer))
        rows += [_row("Release speed, likely", unit, cells), _bound("speed", answer, columns)]
    if limited:
        together = _of(columns, lambda one: percent(rounded_down(one.choice.together, 2)))
        rows.append(_row("All limits at once", "probability", together))
    return rows


def _likely(one: Listed, quantity: Quantity, keys: Sequence[str], answer: StartAnswer) -> list[Component | str]:
    """A readout, and its share of the reference's: where that is limited, as it is told beside the certain bound."""
    choice = one.choice
    read = {"varus": choice.elbow, "internal_rotation": choice.shoulder, "horizontal_abduction": choice.braking}
    value = float(getattr(read[quantity.reading], quantity.readout))
    whole = answer.basis.readouts[quantity.reading] if answer.basis else read[quantity.reading]
    share = share_of(value, float(getattr(whole, quantity.readout))) / 100.0
    stands = words.share_percent(share) if share == share else NONE
    kept = [_kept(one, key) for key in keys if not answer.asked.amounts[key].absolute]
    if kept:
        stands = words.pair_words(kept[0], answer)[0]
    weighs = [html.Span(BY_WEIGHT, className="note")] if quantity in choice.by_weight else []
    return [*_noted(words.figures(value, quantity.unit), stands), *weighs]


def _likely_speed(one: Listed, answer: StartAnswer) -> list[Component | str]:
    speed = one.choice.speed_m_s
    share = speed / answer.basis.hundred.throw.speed_m_s if answer.basis else 0.0
    return _noted(words.down(speed, "m/s", answer.case.system), words.share_percent(share))


def _kept(one: Listed, key: str) -> LimitKept:
    return next(kept for kept in one.choice.limits if kept.key == key)


def _bound(key: str, answer: StartAnswer, columns: Sequence[Column]) -> Component:
    """What a throw stays within with the certainty, under what it likely comes to."""
    limit = words.bare_words(key, answer.asked.amounts[key], answer)
    cells = _of(columns, lambda one: words.pair_words(_kept(one, key), answer)[1])
    label = f"with {words.certainty_words(answer)} certainty, {words.way_of(key)}"
    return _row(html.Span(label), f"limit: {limit}", cells, "start-bound")


def _alone(answer: StartAnswer, columns: Sequence[Column]) -> list[Component]:
    """What each limit allows by itself: where some ball does not fit."""
    rows = [_group("What each limit allows by itself", "share of full speed with the ball; speed", columns)]
    for key in BOUNDS:
        if key in answer.asked.amounts:
            cells = [_allowed(answer, column.range, key) for column in columns]
            name = words.limit_words(key, answer)
            rows.append(_row(html.Span(f"{name[0].upper()}{name[1:]}"), "", cells))
    return rows


def _allowed(answer: StartAnswer, one: BallRange, key: str) -> Any:
    shape = shape_of(one, key)
    if shape in ("none", "all"):
        return {"none": "none", "all": "every speed"}[shape]
    share, speed = (part.replace(" of full speed", "") for part in allowed_words(answer, [one], key))
    return _noted(share.replace("only ", "").removesuffix(" on"), speed)


def order_list(answer: StartAnswer) -> list[Component]:
    """List the balls that fit in the order of the aim, each with the number that decides.

    Parameters
    ----------
    answer : StartAnswer

    Returns
    -------
    list of Component
        Without an aim, what is to be chosen.
    """
    found = answer.found
    if found is None or not found.listed:
        return []
    title = html.H2("The order")
    if not answer.asked.aim:
        return [title, html.P("No order yet: choose above what matters most.", className="quiet")]
    items = []
    moved = found.own_place > 1 and found.order[0].own
    for one in found.order:
        name = html.Strong(ball_words(one.choice.range.ball, answer.case.system))
        alone = f"; number {found.own_place} by what matters most alone" if moved and one.own else ""
        items.append(html.Li([name, f": {_decides(one, answer)}{alone}"]))
    said = f"What matters most: {AIMS[answer.asked.aim]}."
    return [title, html.P(said), html.Ol(items, className="start-order")]


def _decides(one: Listed, answer: StartAnswer) -> str:
    choice, own = one.choice, "the own ball, " if one.own else ""
    if answer.asked.aim == "own":
        apart = choice.range.ball.mass_kg - answer.case.own_ball.mass_kg
        other = f"{answer.case.mass(abs(apart))} {'heavier' if apart > 0 else 'lighter'} than the own ball"
        return "the own ball" if one.own else other
    told = {
        "least_area": (value_words(float(choice.elbow.area), "N·m·s"), "area"),
        "gentlest_rise": (value_words(float(choice.elbow.rise_rate), "N·m/s"), "rise rate"),
        "longest_loaded": (value_words(float(choice.elbow.loaded_s), "s"), "loaded for"),
        "nearest_peak": (value_words(float(choice.elbow.peak), "N·m"), "peak"),
    }
    value, name = told[answer.asked.aim]
    return f"{own}{name} {value}"
