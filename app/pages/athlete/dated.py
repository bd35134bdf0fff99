"""The dated list of readings, the newest first: day, ball, speed, effort, distance; each can be changed and removed."""

import json
from collections import Counter
from collections.abc import Sequence
from datetime import date
from html import escape

from dash import html

from app.bind.cells import cell_html
from app.bind.visit import Visit
from app.pages.athlete.acts import REMOVE_READING
from app.pages.athlete.grid import NUMBER, ball_words, pick_button
from app.records.field_list import FIELDS
from app.records.reads import AthleteData, in_field
from app.records.tables import Reading
from app.show.counted import counts
from app.show.glossary import explained
from app.show.markup import to_html

NEWEST = "newest"
MOST_NEWEST = 60
"""Readings that the list shows at first; the earlier ones by month."""
COLUMNS = ("reading.day", "reading.speed_m_s", "reading.asked_effort", "reading.distance_m")
NAMES = {"reading.speed_m_s": "Speed", "reading.day": "Day", "reading.distance_m": "Asked distance"}


def months(data: AthleteData) -> list[dict[str, str]]:
    """What the list can show: the newest readings, and each month's."""
    found = Counter(one.day.isoformat()[:7] for one in data.readings)
    few = len(data.readings) <= MOST_NEWEST
    newest = {"value": NEWEST, "label": "all readings" if few else f"the newest {MOST_NEWEST}"}
    return [newest, *({"value": one, "label": f"{one}: {found[one]}"} for one in sorted(found, reverse=True))]


def of_month(data: AthleteData, month: str) -> list[Reading]:
    """The readings of a month, or the newest ones; the newest first."""
    newest_first = data.readings[::-1]
    if month == NEWEST:
        return list(newest_first[:MOST_NEWEST])
    return [one for one in newest_first if one.day.isoformat().startswith(month)]


def list_html(visit: Visit, data: AthleteData, month: str, since: date | None) -> str:
    """Make the list; readings of days before `since` are marked as older."""
    found = of_month(data, month)
    if not found:
        return to_html(html.P("No readings yet.", className="quiet"))
    head = to_html([html.Th(explained(words), scope="col") for words in _heads(visit)])
    rows = "".join(_row(visit, data, one, since) for one in found)
    told = _older(found, since)
    return (
        f'<table class="dated"><caption class="hidden">Readings by day</caption><thead><tr>{head}</tr></thead>'
        f"<tbody>{rows}</tbody></table>{told}"
    )


def _heads(visit: Visit) -> list[str]:
    def unit(path: str) -> str:
        return f"{NAMES.get(path, FIELDS[path].label)}, {FIELDS[path].unit_in(visit.system)}"

    return ["Day", "Ball", *(unit(path) for path in COLUMNS[1:]), "The number is", ""]


def _older(found: Sequence[Reading], since: date | None) -> str:
    out = sum(not counts(one, since) for one in found)
    if not out:
        return ""
    return to_html(html.P("In grey: readings that do not count in the speed profile.", className="quiet"))


def _row(visit: Visit, data: AthleteData, one: Reading, since: date | None) -> str:
    thrown = data.balls.get(one.ball_id) if one.ball_id is not None else None
    ball = ball_words(thrown, visit)
    which, problems, cells = f"of {one.day}, {ball}", [], []
    for path in COLUMNS:
        field, (text, problem) = FIELDS[path], in_field(path, one, visit.system, None, visit.today)
        more = NUMBER if field.kind != "day" else ""
        if path == "reading.asked_effort":
            more += ' placeholder="full"'
        if path == "reading.speed_m_s":
            more += ' data-emptied="remove"'
        if problem:
            part = f"problem-list-{one.uid}-{path}"
            more += f' aria-invalid="true" aria-describedby="{part}"'
            problems.append(f'<p id="{part}">{escape(problem)}</p>')
        unit = f", {field.unit_in(visit.system)}" if field.kind != "day" else ", year-month-day"
        of = {"of": visit.owner, "row": one.uid, "line": f"list-{one.uid}", "units": visit.system.key}
        if path == "reading.speed_m_s" and thrown is not None:
            of["new"] = json.dumps({"ball": thrown.uid})
        cells.append(
            f"<td>{cell_html(path, text, f'{NAMES.get(path, field.label)} {which}{unit}', more=more, **of)}</td>"
        )
    cells.insert(1, f'<th scope="row">{escape(ball)}</th>')
    remove = to_html(pick_button(visit, "Remove", REMOVE_READING, one.uid, f"Remove the reading {which}"))
    older = "" if counts(one, since) else " data-older"
    return (
        f"<tr data-problems{older}>{''.join(cells)}<td>{_speed_is(visit, one, which)}</td>"
        f'<td>{remove}<div class="cell-problems" role="status">{"".join(problems)}</div></td></tr>'
    )


def _speed_is(visit: Visit, one: Reading, which: str) -> str:
    field = FIELDS["reading.speed_is"]
    choices = "".join(
        f'<option value="{key}"{" selected" if key == one.speed_is else ""}>{escape(words)}</option>'
        for key, words in field.choices.items()
    )
    data = {"path": field.path, "of": visit.owner, "row": one.uid, "line": f"list-{one.uid}", "units": visit.system.key}
    said = " ".join(f'data-{name}="{escape(value)}"' for name, value in data.items())
    return f'<select class="cell-input" aria-label="The number {escape(which)} is" {said}>{choices}</select>'
