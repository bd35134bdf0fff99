"""Readings as a table (CSV): out, and in with a look at what would come of each row before anything is kept."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Any

from sqlalchemy import Connection, select

from app.csv_files import csv_line
from app.records.acts import Hand
from app.records.csv_columns import (
    Cells,
    Meaning,
    Progress,
    needed,
    no_progress,
    number_text,
    read_table,
    uses_of,
)
from app.records.csv_owners import INVENTED, Owners
from app.records.csv_verdicts import EVERY, LINE_END, Looked, owner_and_day, read_rows, verdicts_of
from app.records.fields import in_words
from app.records.rows import Document, all_rows, table_of
from app.records.store import Store
from app.records.tables import new_uid
from model.ball import DEFAULT_DIAMETER_M
from model.checks import InputError

SAME_MASS_KG, SAME_DIAMETER_M = 5e-5, 5e-4
FULL = 1.0
MOST_BALLS = 1000
"""New balls come after all that were put in their place."""

MEANINGS = (
    Meaning("athlete", "Athlete", ("athlete", "code"), "athlete.code"),
    Meaning("day", "Day", ("day", "date"), "reading.day"),
    Meaning("mass", "Ball mass", ("ball_mass", "mass"), "ball.mass_kg", ("g", "kg", "oz")),
    Meaning("diameter", "Ball diameter", ("ball_diameter", "diameter"), "ball.diameter_m", ("mm", "cm", "in")),
    Meaning("ball", "Ball", ("ball", "ball_name"), "ball.name"),
    Meaning("speed", "Speed", ("speed", "reading", "release_speed"), "reading.speed_m_s", ("m/s", "mph", "km/h")),
    Meaning("speed_is", "The number is", ("speed_is",), "reading.speed_is"),
    Meaning("effort", "Asked effort", ("asked_effort", "effort"), "reading.asked_effort", ("%",)),
    Meaning("distance", "Asked distance", ("asked_distance", "distance"), "reading.distance_m", ("m", "ft")),
    Meaning("data", "Data", ("data",), "note.text"),
)
COLUMNS = (
    "athlete",
    "day",
    "ball",
    "ball_mass_g",
    "ball_diameter_mm",
    "speed_m_s",
    "speed_is",
    "asked_effort_percent",
    "asked_distance_m",
    "data",
)


@dataclass(frozen=True)
class Incoming:
    """A row that was read."""

    row: int
    code: str
    values: Mapping[str, Any]
    typed: Mapping[str, str]


@dataclass(frozen=True)
class Preview(Looked):
    """What would come of a table of readings.

    Attributes
    ----------
    balls : tuple of (float, float)
        Mass (kg) and diameter (m) of balls that the team here lacks.
    rows : tuple of Incoming
        Those that could be read.
    """

    balls: tuple[tuple[float, float], ...]
    rows: tuple[Incoming, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it in sentences."""
        masses = ", ".join(f"{number_text(mass, 'g')} g" for mass, _ in self.balls)
        return (*self.told("reading"), *([f"New balls of the team: {masses}."] if masses else []))


def preview_readings(
    store: Store,
    data: bytes,
    *,
    said: Mapping[str, tuple[str, str]] = MappingProxyType({}),
    code: str = "",
    day: date | None = None,
    progress: Progress = no_progress,
) -> Preview:
    """See what would come of a table of readings; nothing is changed.

    Parameters
    ----------
    store : Store
    data : bytes
        UTF-8, values parted by commas, semicolons or tabs, the first line names the columns.
    said : mapping of str to (str, str)
        What a person says of a column: the key of one of `MEANINGS` (empty: to be passed over), and its unit.
    code : str
        The athlete of rows that name none.
    day : date, optional
        The day of rows that have none.
    progress : callable
        Is told how many rows of how many are read.

    Returns
    -------
    Preview

    Raises
    ------
    app.csv_files.TableError
        If it is no table, or lacks a column that is needed.
    """
    table = read_table(data)
    uses = uses_of(table.columns, MEANINGS, said)
    needed(uses, [("speed",), ("mass", "ball"), *([] if code else [("athlete",)])], MEANINGS)
    cells = Cells(uses, MEANINGS)
    read, refused = read_rows(table, lambda row, given: _whole(row, *cells.read(given), code, day), progress)
    with store.database.reading() as connection:
        sorting = _Sorting(connection, store)
        taken = sorting.sort(read)
    refused |= sorting.refused
    known = tuple(one for one in read if one.row not in refused)
    verdicts = verdicts_of(len(table.rows), taken, refused)
    return Preview(tuple(uses), verdicts, tuple(sorting.owners.new), tuple(sorting.new_balls), known)


def _whole(row: int, values: dict[str, Any], typed: dict[str, str], code: str, day: date | None) -> Incoming:
    if "speed" not in values:
        raise InputError("Speed", "", "a speed")
    if "mass" not in values and "ball" not in values:
        raise InputError("Ball mass", "", "the mass of the ball, or the name of one of the team")
    whose, values["day"] = owner_and_day(values, code, day)
    return Incoming(row, whose, values, typed)


class _Sorting:
    """Sorts rows by what is here already; finds their balls."""

    def __init__(self, connection: Connection, store: Store) -> None:
        self.owners = Owners(connection, store)
        self.refused: dict[int, str] = {}
        self.new_balls: dict[tuple[float, float], str] = {}
        self._connection = connection
        of = table_of("ball")
        self._balls = all_rows(connection, select(of).order_by(of.c.id))
        self._found: dict[tuple[Any, ...], str] = {}
        self.documents: dict[str, list[Document]] = {}

    def sort(self, rows: list[Incoming]) -> set[int]:
        """Sort rows; the numbers of those that are new here. Their documents stand in `documents`, by code."""
        by_code: dict[str, list[Incoming]] = {}
        for one in rows:
            trouble = self.owners.trouble(one.code, one.values.get("data"))
            if trouble:
                self.refused[one.row] = trouble
            else:
                by_code.setdefault(one.code, []).append(one)
        taken: set[int] = set()
        for code, mine in by_code.items():
            here = self._here(self.owners.numbers.get(code))
            made = self.documents.setdefault(code, [])
            for one in mine:
                try:
                    ball = self._ball(one)
                except InputError as error:
                    self.refused[one.row] = in_words(error)
                    continue
                document = _document(one, ball)
                key = _key(document)
                if here[key] > 0:
                    here[key] -= 1
                    continue
                taken.add(one.row)
                made.append(document)
        return taken

    def _here(self, athlete: int | None) -> Counter[tuple[Any, ...]]:
        if athlete is None:
            return Counter()
        of, balls = table_of("reading").c, {ball["id"]: ball["uid"] for ball in self._balls}
        found = select(of.ball_id, of.day, of.speed_m_s, of.speed_is, of.asked_effort, of.distance_m)
        rows = self._connection.execute(found.where(of.athlete_id == athlete))
        return Counter(_alike(balls.get(ball), day.isoformat(), *rest) for ball, day, *rest in rows)

    def _ball(self, one: Incoming) -> str:
        mass, diameter, name = (one.values.get(key) for key in ("mass", "diameter", "ball"))
        key = (one.code, mass, diameter, name)
        if key not in self._found:
            self._found[key] = self._find_ball(one.code, mass, diameter, name)
        return self._found[key]

    def _find_ball(self, code: str, mass: float | None, diameter: float | None, name: str | None) -> str:
        owner = self.owners.numbers.get(code)
        mine = [ball for ball in self._balls if ball["athlete_id"] is not None and ball["athlete_id"] == owner]
        team = [ball for ball in self._balls if ball["athlete_id"] is None]
        for ball in (*mine, *team):
            if mass is None:
                alike = ball["name"] == name or (name == "own" and ball in mine)
            else:
                alike = ball["mass_kg"] is not None and abs(ball["mass_kg"] - mass) < SAME_MASS_KG
                if diameter is not None and ball["diameter_m"] is not None:
                    alike = alike and abs(ball["diameter_m"] - diameter) < SAME_DIAMETER_M
            if alike:
                return str(ball["uid"])
        if mass is None:
            raise InputError("Ball", name, "the name of a ball of the team, or a mass")
        new = (round(mass, 6), round(DEFAULT_DIAMETER_M if diameter is None else diameter, 6))
        return self.new_balls.setdefault(new, new_uid())


def _document(one: Incoming, ball: str) -> Document:
    values = one.values
    made: Document = {
        "table": "reading",
        "ball": ball,
        "day": values["day"].isoformat(),
        "speed_m_s": values["speed"],
        "speed_is": values.get("speed_is", "radar"),
        "asked_effort": values.get("effort"),
        "distance_m": values.get("distance"),
    }
    if "speed" in one.typed:
        made["typed"] = {"speed_m_s": one.typed["speed"]}
    return made


def _key(made: Document) -> tuple[Any, ...]:
    names = ("ball", "day", "speed_m_s", "speed_is", "asked_effort", "distance_m")
    return _alike(*(made[name] for name in names))


def _alike(ball: Any, day: str, speed: Any, speed_is: str, effort: Any, distance: Any) -> tuple[Any, ...]:
    """What two rows of one reading share; full effort goes without saying."""
    return ball, day, speed, speed_is, None if effort == FULL else effort, distance


def take_readings(store: Store, preview: Preview, hand: Hand, progress: Progress = no_progress) -> int:
    """Keep the readings of a table, all of them in one transaction, or none.

    Parameters
    ----------
    store : Store
    preview : Preview
        Rows are sorted again, for others may have written in the meantime.
    hand : Hand
    progress : callable
        Is told how many readings of how many are kept.

    Returns
    -------
    int
        How many were added.

    Raises
    ------
    RecordsError
        If the database did not take it; then nothing was changed.
    """
    with store.database.writing() as connection:
        sorting = _Sorting(connection, store)
        total = len(sorting.sort(list(preview.rows)))
        if not total:
            return 0
        writers = sorting.owners.hold([code for code, made in sorting.documents.items() if made], hand)
        if sorting.new_balls:
            balls = [
                {"table": "ball", "uid": uid, "mass_kg": mass, "diameter_m": diameter, "position": MOST_BALLS + place}
                for place, ((mass, diameter), uid) in enumerate(sorted(sorting.new_balls.items()))
            ]
            writers[None].add(balls)
        done = 0
        for code, made in sorting.documents.items():
            for start in range(0, len(made), EVERY):
                writers[code].add(made[start : start + EVERY])
                done += len(made[start : start + EVERY])
                progress(done, total)
    return total


def readings_table(store: Store, code: str | None = None) -> Iterator[str]:
    """Write readings as a table.

    Parameters
    ----------
    store : Store
    code : str, optional
        Of one athlete; without, of all.

    Yields
    ------
    str
        The line of names, then one for each reading: UTF-8 as RFC 4180 has it, numbers in the units of the names.
    """
    reading, ball, athlete = (table_of(name) for name in ("reading", "ball", "athlete"))
    joined = reading.join(athlete, athlete.c.id == reading.c.athlete_id).outerjoin(ball, ball.c.id == reading.c.ball_id)
    told = (reading.c[name] for name in ("day", "speed_m_s", "speed_is", "asked_effort", "distance_m"))
    found = select(athlete.c.code, athlete.c.invented, ball.c.name, ball.c.mass_kg, ball.c.diameter_m, *told)
    found = found.select_from(joined).where(reading.c.speed_m_s.is_not(None))
    if code is not None:
        found = found.where(athlete.c.code == code)
    yield csv_line(COLUMNS) + LINE_END
    with store.database.reading() as connection:
        ordered = found.order_by(athlete.c.id, reading.c.day, reading.c.id).execution_options(yield_per=EVERY)
        for row in connection.execute(ordered):
            cells = [
                row.code,
                row.day.isoformat(),
                row.name or "",
                number_text(row.mass_kg, "g"),
                number_text(row.diameter_m, "mm"),
                number_text(row.speed_m_s, "m/s"),
                row.speed_is,
                number_text(row.asked_effort, "%"),
                number_text(row.distance_m, "m"),
                INVENTED if row.invented else "",
            ]
            yield csv_line(cells) + LINE_END
