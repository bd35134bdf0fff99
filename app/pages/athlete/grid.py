"""The grid of readings: a row for each ball, a cell for each of its newest readings, and empty ones behind them.

The cells are plain fields (`app.bind.cells`), sent as text: a page with a hundred fields that Dash listens to takes the
browser a second for each change.
"""

import json
import math
from datetime import date
from html import escape

from dash import html
from dash.development.base_component import Component

from app.bind import ids as bound
from app.bind.cells import cell_html
from app.bind.edit import dom_id
from app.bind.visit import Visit
from app.pages.athlete.acts import REMOVE_BALL, mass_cell
from app.records.acts import TEAM
from app.records.field_list import FIELDS
from app.records.fields import in_words
from app.records.reads import AthleteData, in_field
from app.records.tables import Ball, Reading
from app.show.counted import can_count, counts
from app.show.markup import to_html
from model.checks import InputError
from model.speed_readings import SAME_BALL_KG

NEWEST = 40
"""Readings of one ball that the grid shows; the dated list has them all."""
LEAST_CELLS = 5
DAY = "day"
"""What the day of new readings is called in the address."""
NUMBER = 'inputmode="decimal" enterkeyhint="next"'
SPEED, SPEED_DAY = FIELDS["reading.speed_m_s"], FIELDS["reading.day"]


def grid_balls(data: AthleteData) -> list[Ball]:
    """The balls of the grid, light to heavy, those without a mass last: archived ones only where they have readings.

    A ball of the team that weighs what the own one does has no row of its own: its readings stand in the own ball's.
    """
    read, own = {one.ball_id for one in data.readings}, data.own_ball
    with_own = set() if own is None else one_ball(own, data) - {own.id}
    there = [ball for ball in data.balls.values() if ball.archived_at is None or ball.id in read]
    balls = [ball for ball in there if ball.id not in with_own]
    return sorted(balls, key=lambda ball: (ball.mass_kg or math.inf, ball.id))


def one_ball(ball: Ball, data: AthleteData) -> set[int]:
    """The balls of which the readings stand in a ball's row: itself, and with the own one those of the same mass."""
    if ball is not data.own_ball or ball.mass_kg is None:
        return {ball.id}
    weights = {one.id: one.mass_kg for one in data.balls.values() if one.mass_kg is not None}
    return {ball.id} | {number for number, mass in weights.items() if abs(mass - ball.mass_kg) < SAME_BALL_KG}


def readings_day(visit: Visit) -> tuple[date, str, str]:
    """The day that new readings get: the one of the address, or today; its text, and what is wrong with that."""
    text = visit.asked.get(DAY, "")
    try:
        day = SPEED_DAY.parse(text).value if text else visit.today
    except InputError as error:
        return visit.today, text, in_words(error)
    return day, day.isoformat(), ""


def ball_words(ball: Ball | None, visit: Visit) -> str:
    """Call a ball by its mass."""
    if ball is None or ball.mass_kg is None:
        return "new ball"
    return FIELDS["ball.mass_kg"].told(ball.mass_kg, ball.typed.get("mass_kg", ""), visit.system)


def ball_name(ball: Ball, data: AthleteData, mass: str) -> str:
    """What a ball is beside its mass: the athlete's own, or its name in the team where that says more."""
    if data.own_ball is not None and ball.id == data.own_ball.id:
        return "own ball"
    name = "" if mass in ball.name else ball.name
    return f"{name}, archived".strip(", ") if ball.archived_at else name


def grid_html(visit: Visit, data: AthleteData, since: date | None) -> str:
    """Make the rows of the grid; the readings of days before `since` are marked as older."""
    balls = grid_balls(data)
    if not balls:
        return to_html(html.P("No ball yet: add one, or paste a table.", className="quiet"))
    return "".join(_row(visit, data, ball, since) for ball in balls)


def _row(visit: Visit, data: AthleteData, ball: Ball, since: date | None) -> str:
    same, day = one_ball(ball, data), readings_day(visit)[0].isoformat()
    read = [one for one in data.readings if one.ball_id in same]
    shown, passed_over = read[-NEWEST:], max(0, len(read) - NEWEST)
    name = ball_words(ball, visit)
    problems: list[str] = []
    cells = [_cell(visit, one, name, passed_over + i + 1, since, problems) for i, one in enumerate(shown)]
    new = json.dumps({"ball": ball.uid, "day": day})
    for i in range(max(1, LEAST_CELLS - len(shown))):
        line = f"{visit.tab}/{ball.uid}/{i}"
        label = cell_label(len(read) + i + 1, name, visit)
        of = {"of": visit.owner, "row": "", "line": line, "units": visit.system.key, "new": new}
        cells.append(cell_html(SPEED.path, "", label, more=f'{NUMBER} placeholder=" " data-emptied="remove"', **of))
    more = f'<p class="quiet">The newest {NEWEST} of {len(read)}; all are in the list.</p>' if passed_over else ""
    return (
        f'<div class="reading-row" role="group" data-problems data-new="{escape(new)}" '
        f'data-ball="{escape(ball.uid)}" aria-label="Readings with {escape(name)}">{_head(visit, data, ball, name)}'
        f'<div class="ball-cells">{"".join(cells)}</div>'
        f'<div class="cell-problems" role="status">{"".join(problems)}</div>{more}</div>'
    )


def cell_label(number: int, ball: str, visit: Visit) -> str:
    """What the cell of a reading is called."""
    return f"Reading {number} with {ball}, {SPEED.unit_in(visit.system)}"


def _cell(visit: Visit, one: Reading, ball: str, number: int, since: date | None, problems: list[str]) -> str:
    text, problem = in_field(SPEED.path, one, visit.system, None, visit.today)
    more = f'{NUMBER} placeholder=" " data-emptied="remove" title="{escape(_about(one, visit))}"'
    more += f' data-day="{one.day}"' if can_count(one) else ""
    if not counts(one, since):
        more += " data-older"
    if problem:
        part = f"problem-{one.uid}-{SPEED.path}"
        more += f' aria-invalid="true" aria-describedby="{escape(part)}"'
        problems.append(f'<p id="{escape(part)}">{escape(problem)}</p>')
    of = {"of": visit.owner, "row": one.uid, "line": one.uid, "units": visit.system.key}
    return cell_html(SPEED.path, text, cell_label(number, ball, visit), more=more, **of)


def _about(one: Reading, visit: Visit) -> str:
    """Day, asked effort and distance of a reading."""
    said = [one.day.isoformat()]
    for name, words in (("asked_effort", "asked {}"), ("distance_m", "over {}")):
        value = getattr(one, name)
        if value is not None:
            told = FIELDS[f"reading.{name}"].told(value, one.typed.get(name, ""), visit.system)
            said.append(words.format(told))
    return ", ".join(said)


def _head(visit: Visit, data: AthleteData, ball: Ball, name: str) -> str:
    if ball.athlete_id is not None or (ball.mass_kg is not None and "mass_kg" not in ball.draft):
        about: list[Component] = [html.B(name), html.Span(ball_name(ball, data, name), className="own-mark")]
        return to_html(html.Div(about, className="ball-head"))
    made, problems = [], []
    for column, part in (("mass_kg", mass_cell(ball.uid)), ("diameter_m", "")):
        field = FIELDS[f"ball.{column}"]
        text, problem = in_field(field.path, ball, visit.system, None, visit.today)
        unit, more = field.unit_in(visit.system), NUMBER + (f' id="{escape(part)}"' if part else "")
        if problem:
            more += ' aria-invalid="true"'
            problems.append(f"<p>{escape(problem)}</p>")
        of = {"of": TEAM, "row": ball.uid, "line": f"ball-{ball.uid}", "units": visit.system.key}
        label = f"{field.label}, {unit}, {field.accepted(visit.system)}"
        said = f"{unit}, diameter" if not part else unit
        made.append(f'{cell_html(field.path, text, label, more=more, **of)}<span class="ball-unit">{said}</span>')
    remove = to_html(pick_button(visit, "Remove", REMOVE_BALL, ball.uid, "Remove the new ball"))
    return f'<div class="ball-head making">{"".join(made)}{remove}{"".join(problems)}</div>'


def pick_button(visit: Visit, words: str, do: str, value: str, label: str) -> Component:
    """A plain button: the browser sets the page's hidden control of that act to its value (`assets/athlete.js`)."""
    part = dom_id(bound.act_id(visit.owner, do, "", bound.PICK))
    data = {"data-pick": part, "data-value": value, "aria-label": label}
    return html.Button(words, type="button", className="plain-button", **data)
