"""Tables of text that people bring and take away (CSV): read strictly, written whole or not at all.

A file that cannot be understood as a table is refused with a `TableError`. A row with too few or too many values is
kept: its reason stands in `Table.problems`, so that one bad line does not stop the others.
"""

import contextlib
import csv
import io
import os
import re
import shutil
import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import IO, TextIO

from app.units.conversion import limit_in, to_si
from model.checks import InputError, Limit

LARGEST_BYTES = 200 * 2**20
LARGEST_ROWS = 1_000_000
LARGEST_COLUMNS = 1_000

_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_COMMA_NUMBER = re.compile(r"[+-]?[0-9]+,[0-9]+")
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
_NEEDS_QUOTES = re.compile('[,"\r\n]')
_BETWEEN = "\x00"  # what no cell can hold: `parse_table` refuses it
_NEEDS_CARE = re.compile('[,"\r\n]|(?:^|\x00)[=+@\t-]')


class TableError(ValueError):
    """A file that cannot be used as a table; the text says what was found and what is accepted."""


@dataclass(frozen=True)
class Table:
    """A table of text.

    Attributes
    ----------
    columns : tuple of str
        Names in the first line, without the blanks around them.
    rows : list of list of str
        The values, as they stand in the file; as many in each row as there are columns.
    problems : dict of int to str
        For rows, counted from 0, that had too few values (filled up with empty ones) or too many (the surplus is named
        here): the reason.
    marked : bool
        Whether the file began with a byte order mark, as spreadsheets like it.
    """

    columns: tuple[str, ...]
    rows: list[list[str]]
    problems: dict[int, str]
    marked: bool


def read_bytes(path: Path) -> bytes:
    """Read a file.

    Parameters
    ----------
    path : Path

    Returns
    -------
    bytes

    Raises
    ------
    TableError
        If it is not there, cannot be read, is no file, or is larger than `LARGEST_BYTES`.
    """
    try:
        with path.open("rb") as file:
            return read_stream(file)
    except FileNotFoundError:
        raise TableError("there is no such file") from None
    except IsADirectoryError:
        raise TableError("a folder given; accepted: a CSV file") from None
    except OSError as error:
        raise TableError(f"cannot be read: {error.strerror or error}") from None


def read_stream(stream: IO[bytes]) -> bytes:
    """Read all of a stream of bytes.

    Parameters
    ----------
    stream : binary file

    Returns
    -------
    bytes

    Raises
    ------
    TableError
        If there are more than `LARGEST_BYTES`.
    """
    data = stream.read(LARGEST_BYTES + 1)
    if len(data) > LARGEST_BYTES:
        raise TableError(f"more than {LARGEST_BYTES // 2**20} MB given; accepted: up to that, in several files")
    return data


def parse_table(data: bytes, delimiter: str = ",") -> Table:
    """Take a file's bytes apart into a table.

    Accepted is UTF-8, with or without a byte order mark, values parted by commas, quoted where they hold a comma, a
    quote or a line's end (RFC 4180), and any kind of line's end. Empty lines are passed over.

    Parameters
    ----------
    data : bytes
    delimiter : str
        What parts the values, where that is no comma.

    Returns
    -------
    Table

    Raises
    ------
    TableError
        If the bytes are no such table, or hold more than `LARGEST_ROWS` rows or `LARGEST_COLUMNS` columns.
    """
    text = _text(data)
    lines = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    columns: tuple[str, ...] = ()
    rows: list[list[str]] = []
    problems: dict[int, str] = {}
    usual = csv.field_size_limit(LARGEST_BYTES)  # a long value is its row's trouble, not the whole table's
    try:
        for values in lines:
            if not values:
                continue
            if not columns:
                columns = tuple(name.strip() for name in values)
                _check_names(columns)
                continue
            if len(rows) == LARGEST_ROWS:
                raise TableError(f"more than {LARGEST_ROWS} rows given; accepted: up to that, in several files")
            if len(values) != len(columns):
                problems[len(rows)] = _miscounted(values, len(columns))
                values = (values + [""] * len(columns))[: len(columns)]
            rows.append(values)
    except csv.Error as error:
        raise TableError(f"line {lines.line_num}: {_in_words(str(error))}") from None
    finally:
        csv.field_size_limit(usual)
    if not columns:
        raise TableError("the file is empty; accepted: a line of column names, then a line for each row")
    return Table(columns, rows, problems, data.startswith(b"\xef\xbb\xbf"))


def _text(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise TableError("the text is UTF-16; accepted: UTF-8 (save it as “CSV UTF-8”)")
    if b"\x00" in data:
        line = data.count(b"\n", 0, data.index(b"\x00")) + 1
        raise TableError(f"line {line}: a zero byte, which no text has; accepted: a CSV file in UTF-8")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise TableError(f"line {line}: not UTF-8; accepted: UTF-8 (save it as “CSV UTF-8”)") from None


def _in_words(problem: str) -> str:
    if problem.startswith("unexpected end"):
        return "a quoted value that does not end; accepted: a closing quote"
    return f"quotes that cannot be understood ({problem}); accepted: a quote inside a quoted value is written twice"


def _miscounted(values: Sequence[str], count: int) -> str:
    reason = f"row: {len(values)} values given; accepted: {count}, one for each column"
    if len(values) > count:
        surplus = ",".join(values[count:])
        shown = surplus if len(surplus) <= 40 else surplus[:37] + "..."
        reason += f", with a decimal point, not a comma; left over: {shown!r}"
    return reason


def _check_names(columns: Sequence[str]) -> None:
    if len(columns) == 1 and (columns[0].count(";") > 1 or columns[0].count("\t") > 1):
        raise TableError("the columns seem to be parted by semicolons or tabs; accepted: commas")
    if len(columns) > LARGEST_COLUMNS:
        raise TableError(f"{len(columns)} columns given; accepted: up to {LARGEST_COLUMNS}")
    twice = sorted(name for name, count in Counter(columns).items() if name and count > 1)
    if twice:
        raise TableError(f"columns given twice: {', '.join(twice)}; accepted: each once")


def check_columns(table: Table, needed: Iterable[str]) -> None:
    """Make sure that a table has the columns it must have.

    Parameters
    ----------
    table : Table
    needed : iterable of str

    Raises
    ------
    TableError
        Naming those that are missing, and one that differs only in capitals.
    """
    missing = [name for name in needed if name not in table.columns]
    if not missing:
        return
    alike = [given for given in table.columns if given.lower() in missing]
    hint = f" (given, but spelt otherwise: {', '.join(alike)})" if alike else ""
    raise TableError(
        f"columns missing: {', '.join(missing)}{hint}; accepted: a first line that names them, in any order"
    )


def is_number(cell: str) -> bool:
    """Whether a text is a plain number: digits, a decimal point, an exponent; nothing else.

    Parameters
    ----------
    cell : str

    Returns
    -------
    bool
    """
    return _NUMBER.fullmatch(cell.strip()) is not None


def number_in(cell: str, column: str, limit: Limit, unit: str) -> float:
    """Read a number from a table.

    Parameters
    ----------
    cell : str
        The value as it stands there.
    column : str
        The column's name, for the message.
    limit : Limit
        The accepted range, in SI.
    unit : str
        The unit of the column, a key of `units.UNITS`.

    Returns
    -------
    float
        In SI.

    Raises
    ------
    InputError
        If it is no plain number or outside the range; the range is told in the column's unit.
    """
    accepted = str(limit_in(limit, unit))
    given = cell.strip()
    if not _NUMBER.fullmatch(given):
        hint = ", with a decimal point, not a comma" if _COMMA_NUMBER.fullmatch(given) else ""
        raise InputError(column, given, accepted + hint)
    number = to_si(float(given), unit)
    if not limit.low <= number <= limit.high:
        raise InputError(column, given, accepted)
    return number


def harmless(cell: str) -> str:
    """Keep a spreadsheet from taking a text for a formula.

    A text that begins with ``=``, ``+``, ``-``, ``@``, a tab or a carriage return gets an apostrophe before it, unless
    it is a plain number.

    Parameters
    ----------
    cell : str

    Returns
    -------
    str
    """
    return "'" + cell if cell.startswith(_FORMULA_STARTS) and not is_number(cell) else cell


def csv_line(cells: Iterable[str]) -> str:
    """Write a line of a table: texts made `harmless`, with quotes where they are needed (RFC 4180).

    Parameters
    ----------
    cells : iterable of str

    Returns
    -------
    str
        Without the line's end.
    """
    joined = _BETWEEN.join(cells)
    if not _NEEDS_CARE.search(joined):  # one look at all of the cells; most lines have none to care for
        return joined.replace(_BETWEEN, ",")
    return ",".join(
        '"' + cell.replace('"', '""') + '"' if _NEEDS_QUOTES.search(cell) else cell
        for cell in map(harmless, joined.split(_BETWEEN))
    )


def check_file_name(option: str, name: str, standard: str = "") -> None:
    """Make sure that an option names a file.

    Parameters
    ----------
    option, name : str
        The option, and what was given for it.
    standard : str
        What a lone ``-`` stands for, if it is accepted.

    Raises
    ------
    InputError
        If the name is empty, or ``-`` where that is not accepted.
    """
    if not name.strip() or (name == "-" and not standard):
        raise InputError(option, name, f"a file's name, or - for {standard}" if standard else "a file's name")


@contextlib.contextmanager
def standard_output(encoding: str) -> Iterator[TextIO]:
    """Open the standard output for a table: lines end as they are written, whatever the system.

    Parameters
    ----------
    encoding : str

    Yields
    ------
    text file
    """
    stream = io.TextIOWrapper(sys.stdout.buffer, encoding=encoding, newline="")
    try:
        yield stream
        stream.flush()
    finally:
        stream.detach()


@contextlib.contextmanager
def written_whole(path: Path, encoding: str = "utf-8") -> Iterator[TextIO]:
    """Open a file that appears under its name only when all of it has been written.

    It is written beside its place and then moved there, so that after a failure the old file, or none, is still there.
    What is no plain file (a pipe, a terminal) is written to directly.

    Parameters
    ----------
    path : Path
    encoding : str

    Yields
    ------
    text file

    Raises
    ------
    OSError
        If it cannot be written.
    """
    asked, path = path, Path(os.path.realpath(path))  # a link stays a link
    if path.exists() and not path.is_file():
        with path.open("w", encoding=encoding, newline="") as file:
            yield file
        return
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with part.open("x", encoding=encoding, newline="") as file:
            yield file
        if path.exists():
            shutil.copymode(path, part)
        part.replace(path)
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(asked)) from None  # not the name of the part
    finally:
        part.unlink(missing_ok=True)
