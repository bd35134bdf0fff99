"""The table of athletes, as HTML: two hundred lines of components would make the browser slow."""

from collections.abc import Sequence
from html import escape

from app.bind.visit import address
from app.pages.athletes.lines import Line

COLUMNS = ("Athlete", "Flags", "Last reading", "Own-ball speed", "Speed over the season", "Next session")
FALLING = ("Flags", "Last reading", "Own-ball speed", "Speed over the season")
"""Columns that begin with the most when they are sorted by."""

WIDE, HIGH = 84, 20
FIRST_PAGE = "/athlete"


def table_html(lines: Sequence[Line], mark: bool = True) -> str:
    """Write the table: a line for each athlete; the browser sorts and filters it.

    Parameters
    ----------
    lines : sequence of Line
    mark : bool
        Whether those who are invented are marked: not where all are.

    Returns
    -------
    str
        HTML, everything in it escaped.
    """
    heads = "".join(
        f'<th scope="col" aria-sort="none"><button type="button" data-column="{place}"'
        f"{' data-falling' if name in FALLING else ''}>{name}</button></th>"
        for place, name in enumerate(COLUMNS)
    )
    rows = "".join(_row(one, mark) for one in lines)
    return (
        '<table class="plain-table athletes-table"><caption role="status"></caption>'
        f'<thead><tr>{heads}<td><span class="hidden">Archive</span></td></tr></thead><tbody>{rows}</tbody></table>'
    )


def _row(one: Line, mark: bool) -> str:
    invented = '<span class="note">invented</span>' if mark and one.invented else ""
    link = f'<a href="{escape(address(FIRST_PAGE, one.code))}">{escape(one.code)}</a>{invented}'
    flags = "; ".join(one.signs)
    said = f"<strong>Stop sign stands: {escape(flags)}</strong>" if one.signs else ""
    said += f'<span class="note">{escape(one.pain)}</span>' if one.pain else ""
    last = f'{one.last.isoformat()}<span class="note">{one.ago}</span>' if one.last else "none yet"
    day = f'<span class="note">on {one.speed_day}</span>' if one.speed_day else ""
    cells = (
        _cell(str(len(one.signs) + bool(one.pain) or ""), said, "td"),
        _cell(str(one.last.toordinal()) if one.last else "", last, "td"),
        _cell(_value(one.speed_m_s), f"{one.speed}{day}", "td"),
        _cell(_value(one.trend_m_s), f"{spark(one)}{one.trend}", "td"),
        _cell(one.next.isoformat() if one.next else "", escape("; ".join(one.plans)), "td"),
    )
    do, words = ("back", "Bring back") if one.archived else ("archive", "Archive")
    button = (
        f'<button type="button" data-do="{do}" data-athlete="{escape(one.uid)}" '
        f'aria-label="{words} {escape(one.code)}">{words}</button>'
    )
    head = _cell(one.code.casefold(), link, 'th scope="row"')
    return f'<tr data-code="{escape(one.code.casefold())}">{head}{"".join(cells)}<td>{button}</td></tr>'


def _cell(value: str, html: str, tag: str) -> str:
    return f'<{tag} data-sort="{escape(value)}">{html}</{tag.split()[0]}>'


def _value(number: float | None) -> str:
    return "" if number is None else f"{number:.4f}"


def spark(one: Line) -> str:
    """The season's day means as a small line; what it shows is said beside it."""
    if not one.points:
        return ""
    days, speeds = zip(*one.points, strict=True)
    low, high = min(speeds), max(speeds)
    across, up = (WIDE - 4) / (max(days) or 1), (HIGH - 4) / ((high - low) or 1.0)
    line = " ".join(f"{2 + day * across:.1f},{HIGH - 2 - (speed - low) * up:.1f}" for day, speed in one.points)
    return (
        f'<svg class="spark" width="{WIDE}" height="{HIGH}" viewBox="0 0 {WIDE} {HIGH}" aria-hidden="true">'
        f'<polyline points="{line}"/></svg>'
    )
