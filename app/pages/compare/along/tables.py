"""What is taken along as numbers: the curves and the readings as tables (CSV), in UTF-8 and as RFC 4180 has them."""

import math
import re
from collections.abc import Collection, Iterable
from datetime import date

from app.csv_files import csv_line
from app.pages.compare.answers import Answer, Comparison
from app.pages.compare.table import Column, columns
from app.show.column_names import channel_column
from app.show.listed_throw import HOLDS
from app.show.numbers import share_of
from app.units.conversion import from_si, plain
from model.channels import CHANNELS, Reading

LINE_END = "\r\n"
INVENTED = "invented demo data"

THROW_COLUMNS = ("athlete", "throw", "ball_mass_g", "ball_diameter_mm", "release_speed_m_s", "held")
"""What both tables begin with; what a throw is called in `app.throw_cells`, where that says the same."""


def curves_table(comparison: Comparison, every: bool, invented: Collection[str]) -> str:
    """Write the curves, in long form: for each throw in turn, a line for each point of its curve.

    Parameters
    ----------
    comparison : Comparison
    every : bool
        Whether all torques and forces are wanted, or the chosen quantity only.
    invented : collection of str
        Which throwers are of the demo data.

    Returns
    -------
    str
        The columns `THROW_COLUMNS`, time (ms, 0 at release, negative before), phase (0 at foot contact, 1 at release),
        the quantities with their units in their names, and a note.
    """
    reading = comparison.reading
    names = [channel_column(key) for key in CHANNELS] if every else [quantity_column(reading)]
    lines = [csv_line([*THROW_COLUMNS, "time_ms", "phase", *names, "note"])]
    for answer in comparison.drawn:
        if answer.curves is None:
            continue
        begin = csv_line(_throw_cells(answer, comparison))
        end = INVENTED if answer.thrower in invented else ""
        values = list(answer.curves.values.values()) if every else [answer.value(reading)]
        points = zip(answer.time_ms(), answer.curves.phase, *values, strict=True)
        lines += [f"{begin},{','.join(_number(number) for number in point)},{end}" for point in points]
    return _whole(lines)


def readings_table(comparison: Comparison, invented: Collection[str]) -> str:
    """Write the readings, a line for each throw that has a curve.

    Parameters
    ----------
    comparison : Comparison
    invented : collection of str
        Which throwers are of the demo data.

    Returns
    -------
    str
        The columns `THROW_COLUMNS`, whether it is the reference and how that is known, the quantity, and for each
        reading its value; where it can be compared, also its difference to the reference throw and its per cent of
        that; the level of "time above", and a note.
    """
    chosen = columns(comparison)
    level = f"level_{unit_name(comparison.reading.unit)}"
    names = [name for column in chosen for name in _names(column)]
    head = [*THROW_COLUMNS, "reference", "reference_is", "quantity", *names, "peak_at_edge", level, "note"]
    reference = comparison.reference
    lines = [csv_line(head)]
    for answer in comparison.drawn:
        if answer.readouts is None:
            continue
        numbers = [number for column in chosen for number in _numbers(column, answer, reference)]
        lines.append(
            csv_line(
                [
                    *_throw_cells(answer, comparison),
                    "yes" if answer.reference else "no",
                    "" if reference is None else comparison.known,
                    comparison.reading.label,
                    *numbers,
                    "yes" if answer.readouts.peak_at_edge else "no",
                    "" if comparison.level is None else _number(comparison.level),
                    INVENTED if answer.thrower in invented else "",
                ]
            )
        )
    return _whole(lines)


def file_name(comparison: Comparison, today: date, ending: str, kind: str = "", quantity: str = "") -> str:
    """Name a file after the throwers' codes, the quantity and the day.

    Parameters
    ----------
    comparison : Comparison
    today : date
    ending : str
        Such as "csv".
    kind : str
        What is in it, where the ending does not say so.
    quantity : str
        The chosen one, if left out.

    Returns
    -------
    str
        Of letters, digits, ``-`` and ``_``, whatever the code holds.
    """
    code = re.sub(r"[^\w-]+", "-", "-".join(comparison.codes)).strip("-_")
    parts = ["levelpeak", code, quantity or comparison.reading.key, kind, today.isoformat()]
    return f"{'_'.join(part for part in parts if part)}.{ending}"


def quantity_column(reading: Reading) -> str:
    """What a quantity is called in the table of curves.

    Parameters
    ----------
    reading : Reading

    Returns
    -------
    str
        As `levelpeak curve` calls its channel; where the reading is the reverse of that, its own name:
        ``horizontal_abduction_torque_nm``.
    """
    channel = CHANNELS[reading.channel]
    if reading.sign > 0:
        return channel_column(channel.key)
    return f"{_slug(channel.negative_label)}_{unit_name(channel.unit)}"


def unit_name(unit: str) -> str:
    """A unit as it stands at the end of a column's name: ``nm_s`` for N·m/s, ``percent_bwh`` for %BW·H."""
    return _slug(unit.replace("·", "").replace("%", "percent "))


def _slug(words: str) -> str:
    return re.sub(r"[^a-z0-9]+", "_", words.lower()).strip("_")


def _throw_cells(answer: Answer, comparison: Comparison) -> list[str]:
    line = answer.throw
    if line.ball is None or line.speed_m_s is None:
        raise ValueError(f"{answer.name} has no curve")
    held = HOLDS[line.hold]
    if line.percent is not None:
        held = f"{held} {plain(line.percent)} %"
    sizes = [from_si(line.ball.mass_kg, "g"), from_si(line.ball.diameter_m, "mm"), line.speed_m_s]
    code = comparison.throwers[line.thrower].code
    return [code, str(answer.number), *map(_number, sizes), held]


def _names(column: Column) -> list[str]:
    head = _slug("peak" if column.head == "When" else column.head)
    name = f"{head}_{unit_name(column.unit)}"
    return [name, f"{name}_difference", f"{head}_percent_of_reference"] if column.share else [name]


def _numbers(column: Column, answer: Answer, reference: Answer | None) -> list[str]:
    value = column.of(answer)
    if not column.share:
        return [_number(value)]
    against = math.nan if reference is None else column.of(reference)
    return [_number(value), _number(value - against), _number(share_of(value, against))]


def _number(number: float) -> str:
    """Six significant digits; nothing where there is no number."""
    return f"{number:.6g}" if math.isfinite(number) else ""


def _whole(lines: Iterable[str]) -> str:
    return LINE_END.join(lines) + LINE_END
