"""What would come of a file, as HTML: columns and units, rows with their reasons, and what can be said of it."""

from collections.abc import Iterable, Mapping, Sequence
from html import escape

from app.csv_files import TableError
from app.pages.keeping.desk import Brought
from app.records import csv_sessions
from app.records.arriving import is_json
from app.records.csv_columns import Use, read_table, uses_of
from app.records.csv_readings import MEANINGS, Preview
from app.records.csv_sessions import SessionPreview
from app.records.csv_verdicts import REFUSED, TAKEN, THERE, Looked, Verdict
from app.records.looking import Coming
from app.records.merging import Merge

MOST_ROWS = 200
BECOMES = {TAKEN: "is added", THERE: "is here already", REFUSED: "is refused"}
KNOWN = {one.key: one for one in MEANINGS}


def preview_html(brought: Brought, trouble: str) -> str:
    """Write what would come of a file.

    Parameters
    ----------
    brought : Brought
    trouble : str
        Why it cannot be taken in as it is; empty if it can.

    Returns
    -------
    str
        HTML of a form, everything in it escaped.
    """
    found = brought.found
    parts = [f"<h3>{escape(brought.name)}</h3>"]
    if trouble:
        parts.append(f'<p role="alert" class="at-number">Not taken in: {escape(trouble)}.</p>')
    if found is not None:
        parts.append("<ul>" + "".join(f"<li>{escape(line)}</li>" for line in found.lines) + "</ul>")
    if isinstance(found, Coming):
        parts.append(_choices(found, brought))
    else:
        parts.append(_of_table(brought, found))
    if isinstance(found, Looked):
        parts.append(_rows(found.verdicts, brought.data))
    parts.append(_buttons(can_take(brought)))
    return "".join(parts)


def can_take(brought: Brought) -> bool:
    """Whether there is anything to keep."""
    found = brought.found
    if isinstance(found, Coming):
        return found.adds > 0 or (found.choices.take_file and any(one.differs for one in found.athletes))
    return found is not None and found.count(TAKEN) > 0


def _buttons(something: bool) -> str:
    keep = '<button type="button" data-do="take">Keep this</button>' if something else ""
    none = "" if something else "<p>There is nothing in it that could be added.</p>"
    return f'{none}<div class="row-of-buttons">{keep}<button type="button" data-do="leave">Leave it</button></div>'


def _of_table(brought: Brought, found: Preview | SessionPreview | None) -> str:
    """What each column is taken for, and the fields for what rows may leave out."""
    if is_json(brought.data):
        return _field("athlete", "Athlete of a plan that names none", brought.said.code)
    day = brought.said.day.isoformat() if brought.said.day else ""
    fields = _field("athlete", "Athlete of rows that name none", brought.said.code)
    if not isinstance(found, SessionPreview):
        fields += _field("day", "Day of rows that have none, year-month-day", day)
    return f'{_columns(brought, found)}<div class="said-of-file">{fields}</div>'


def uses_in(brought: Brought) -> Sequence[Use]:
    """What each column of a table is taken for, also where it cannot be taken in so."""
    if isinstance(brought.found, Looked):
        return brought.found.uses
    try:
        return uses_of(read_table(brought.data).columns, MEANINGS, brought.said.columns)
    except TableError:
        return ()


def _columns(brought: Brought, found: Preview | SessionPreview | None) -> str:
    uses = uses_in(brought)
    if not uses:
        return ""
    write = _said_column if isinstance(found, SessionPreview) else _asked_column
    rows = "".join(write(place, use) for place, use in enumerate(uses))
    return (
        '<div class="scrolls" tabindex="0" role="region" aria-label="Columns"><table class="plain-table">'
        '<caption>Columns</caption><thead><tr><th scope="col">In the file</th><th scope="col">Taken for</th>'
        f'<th scope="col">Unit</th></tr></thead><tbody>{rows}</tbody></table></div>'
    )


def _said_column(_: int, use: Use) -> str:
    known = {one.key: one.label for one in csv_sessions.MEANINGS}
    words = known.get(use.meaning, "of the session") if use.meaning else "passed over"
    return f'<tr><th scope="row">{escape(use.header)}</th><td>{words}</td><td>{escape(use.unit)}</td></tr>'


def _asked_column(place: int, use: Use) -> str:
    name = escape(use.header)
    meanings = {"": "passed over"} | {one.key: one.label for one in MEANINGS}
    units = KNOWN[use.meaning].units if use.meaning in KNOWN else ()
    kind = _select(f"meaning:{place}", f"What {use.header} is taken for", meanings, use.meaning)
    unit = _select(f"unit:{place}", f"Unit of {use.header}", {one: one for one in units}, use.unit) if units else ""
    sure = "" if use.sure else '<span class="note">assumed: the file does not say it</span>'
    return f'<tr><th scope="row">{name}</th><td>{kind}</td><td>{unit}{sure}</td></tr>'


def _select(name: str, label: str, offered: Mapping[str, str], chosen: str) -> str:
    options = "".join(
        f'<option value="{escape(key)}"{" selected" if key == chosen else ""}>{escape(words)}</option>'
        for key, words in offered.items()
    )
    return f'<select name="{escape(name)}" aria-label="{escape(label)}">{options}</select>'


def _field(name: str, label: str, value: str) -> str:
    made = f'<input type="text" name="{escape(name)}" value="{escape(value)}" maxlength="24" autocomplete="off">'
    return f"<label>{escape(label)} {made}</label>"


def _tick(name: str, label: str, on: bool) -> str:
    ticked = " checked" if on else ""
    return f'<label><input type="checkbox" name="{escape(name)}" value="yes"{ticked}> {escape(label)}</label>'


def _rows(verdicts: Iterable[Verdict], data: bytes) -> str:
    """The rows with what becomes of each; refused ones first, and of many not all."""
    order = (REFUSED, TAKEN, THERE)
    found = sorted(verdicts, key=lambda one: (order.index(one.state), one.row))
    rows = read_table(data).rows
    shown = "".join(_row(one, rows[one.row - 1]) for one in found[:MOST_ROWS])
    more = f"<p>Of {len(found)} rows the first {MOST_ROWS} are shown.</p>" if len(found) > MOST_ROWS else ""
    return (
        '<div class="scrolls rows-in" tabindex="0" role="region" aria-label="Rows"><table class="plain-table">'
        '<caption>Rows, refused ones first</caption><thead><tr><th scope="col">Row</th><th scope="col">In the file</th>'
        f'<th scope="col">What becomes of it</th></tr></thead><tbody>{shown}</tbody></table></div>{more}'
    )


def _row(one: Verdict, cells: Sequence[str]) -> str:
    reason = f": {escape(one.reason)}" if one.reason else ""
    held = escape(" · ".join(cell for cell in cells if cell.strip()))[:400]
    return f'<tr><th scope="row">{one.row}</th><td>{held}</td><td>{BECOMES[one.state]}{reason}</td></tr>'


def _choices(found: Coming, brought: Brought) -> str:
    parts = "".join(_of_athlete(one, brought) for one in found.athletes if _can_choose(one, brought))
    if any(one.differs for one in found.athletes) or found.choices.take_file:
        words = "Where a field differs, take what the file has"
        parts += _tick("take_file", words, found.choices.take_file)
    return f'<div class="said-of-file">{parts}</div>' if parts else ""


def _can_choose(one: Merge, brought: Brought) -> bool:
    code = one.document.code
    return bool(one.refused) or code in brought.said.choices.codes or code in brought.said.choices.same


def _of_athlete(one: Merge, brought: Brought) -> str:
    code, choices = one.document.code, brought.said.choices
    field = _field(f"as:{code}", f"Take {code} in under the code", choices.codes.get(code, ""))
    return field + _tick(f"same:{code}", f"{code} of the file is the same athlete as here", code in choices.same)
