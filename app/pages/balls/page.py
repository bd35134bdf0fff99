"""The team's balls, in one place: what each is called, weighs and measures, and their order in every list."""

from collections.abc import Sequence
from typing import Any

from dash import Dash, html
from dash.development.base_component import Component

from app.bind import ids as bound_ids
from app.bind.edit import Doing, dom_id
from app.bind.fields import act_button, bound
from app.bind.page import Page
from app.bind.steps import steps
from app.bind.visit import Visit
from app.records.acts import TEAM, Acted, Add, Put, Remove
from app.records.reads import team_data
from app.records.tables import Ball, now

TOLD = (
    "The balls that everybody throws; an athlete’s own ball stands on the athlete’s page. They are offered in this "
    "order. One that readings were made with cannot be removed: archive it, and it is offered no longer."
)


def layout(visit: Visit) -> Component:
    """Make the page."""
    balls = all_balls(visit)
    here = [ball for ball in balls if ball.archived_at is None]
    away = [ball for ball in balls if ball.archived_at is not None]
    rows = [_row(visit, ball, place, len(here)) for place, ball in enumerate(here)]
    parts: list[Component] = [
        html.Div([html.H1("Balls of the team"), steps(visit, TEAM)], className="page-head"),
        html.P(TOLD, className="quiet"),
        html.Ol(rows, className="balls-list") if rows else html.P("The team has no ball yet."),
        html.Div(act_button(visit, "Add a ball", "balls/add", of=TEAM, **{"data-key": "a"})),
    ]
    if away:
        gone = [html.Li([_words(visit, ball), " ", *_of_archived(visit, ball)]) for ball in away]
        parts += [html.H2("Archived"), html.Ul(gone, className="balls-away")]
    return html.Div(parts, className="balls")


def all_balls(visit: Visit) -> tuple[Ball, ...]:
    """The team's balls in their order, archived ones too."""
    return team_data(visit.store, archived=True).balls


def _row(visit: Visit, ball: Ball, place: int, count: int) -> Component:
    named = _words(visit, ball)
    buttons = [
        _button(visit, "Up", "up", ball, f"{named}: further up", disabled=place == 0),
        _button(visit, "Down", "down", ball, f"{named}: further down", disabled=place == count - 1),
        _button(visit, "Archive", "archive", ball, f"Archive {named}"),
        _button(visit, "Remove", "remove", ball, f"Remove {named}"),
    ]
    fields = [bound(visit, f"ball.{name}", ball, of=TEAM) for name in ("name", "mass_kg", "diameter_m")]
    return html.Li([*fields, html.Div(buttons, className="row-of-buttons")], className="team-ball")


def _of_archived(visit: Visit, ball: Ball) -> list[Component]:
    named = _words(visit, ball)
    return [
        _button(visit, "Bring back", "back", ball, f"Bring back {named}"),
        _button(visit, "Remove", "remove", ball, f"Remove {named}"),
    ]


def _button(visit: Visit, words: str, do: str, ball: Ball, label: str, *, disabled: bool = False) -> Component:
    told = {"aria-label": label, "disabled": disabled}
    return act_button(visit, words, f"balls/{do}", ball.uid, of=TEAM, **told)


def _words(visit: Visit, ball: Ball) -> str:
    """What a ball is called: its name and its mass, as far as there are any."""
    mass = visit.system.text(ball.mass_kg, "g") if ball.mass_kg is not None else ""
    return ", ".join(part for part in (ball.name, mass) if part) or "ball without a name"


def add(visit: Visit, _row: str, _: Any) -> Doing:
    """Add a ball, and go on in its name."""

    def focus(acted: Acted) -> str:
        return dom_id(bound_ids.field_id(TEAM, "ball.name", acted.outcomes[0].row, visit.system.key))

    return Doing([Add("ball")], focus, owner=TEAM)


def _moved(visit: Visit, row: str, by: int) -> Doing:
    """Change places with the one above or below, of those that are offered."""
    balls = list(all_balls(visit))
    order = [ball.uid for ball in balls if ball.archived_at is None]
    if row not in order:
        return Doing(owner=TEAM)
    place = order.index(row)
    other = place + by
    if 0 <= other < len(order):
        order[place], order[other] = order[other], order[place]
    away = [ball.uid for ball in balls if ball.archived_at is not None]
    do = "balls/up" if by < 0 else "balls/down"
    if other in (0, len(order) - 1):  # its button is off then
        do = "balls/down" if by < 0 else "balls/up"
    return Doing(_renumbered(balls, [*order, *away]), dom_id(bound_ids.act_id(TEAM, do, row)), owner=TEAM)


def _renumbered(balls: Sequence[Ball], order: Sequence[str]) -> list[Put]:
    was = {ball.uid: ball.position for ball in balls}
    return [Put("ball", "position", place, uid) for place, uid in enumerate(order) if was[uid] != place]


def move_up(visit: Visit, row: str, _: Any) -> Doing:
    """One place further up."""
    return _moved(visit, row, -1)


def move_down(visit: Visit, row: str, _: Any) -> Doing:
    """One place further down."""
    return _moved(visit, row, 1)


ADD = dom_id(bound_ids.act_id(TEAM, "balls/add"))


def archive(_visit: Visit, row: str, _: Any) -> Doing:
    """Archive a ball: kept with its readings, and offered no longer."""
    return Doing([Put("ball", "archived_at", now(), row)], ADD, "Archived: its readings stay.", TEAM)


def back(_visit: Visit, row: str, _: Any) -> Doing:
    """Offer an archived ball again."""
    return Doing([Put("ball", "archived_at", None, row)], ADD, owner=TEAM)


def remove(_visit: Visit, row: str, _: Any) -> Doing:
    """Remove a ball that no reading was made with."""
    return Doing([Remove("ball", row)], ADD, "Removed. Undo brings it back.", TEAM)


def register(app: Dash) -> None:
    """Nothing of its own: fields and buttons are kept by what binds them."""


PAGE = Page(
    "/balls",
    "Balls",
    layout,
    register,
    of_athlete=False,
    doers={
        "balls/add": add,
        "balls/up": move_up,
        "balls/down": move_down,
        "balls/archive": archive,
        "balls/back": back,
        "balls/remove": remove,
    },
)
