"""Dated copies of the file: a file each, made before the tables are changed, and put back when something went wrong."""

import os
import re
import secrets
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from app.records.faults import DamagedError, FullError, LockedError, UnreachableError
from app.records.place import FILE_NAME, OWNER_ONLY, Place, make_file
from app.records.tables import now

DATED = re.compile(r"records_(\d{4}-\d{2}-\d{2})_(\d{2}-\d{2}-\d{2})_(\w+)\.sqlite3")
SET_ASIDE = "replaced_"


@dataclass(frozen=True)
class Copy:
    """A dated copy.

    Attributes
    ----------
    name : str
        Of its file, or its schema on a server.
    made : str
        When, in words.
    version : str
        The step its tables are at.
    """

    name: str
    made: str
    version: str


def copies_of(place: Place) -> list[Copy]:
    """The dated copies of a file, the newest first; also where the file itself cannot be opened."""
    names = [one.name for one in place.backups.glob("records_*.sqlite3")] if place.backups.is_dir() else []
    found = [(name, DATED.fullmatch(name)) for name in names]
    made = [Copy(name, f"{match[1]} {match[2][:5].replace('-', ':')}", match[3]) for name, match in found if match]
    return sorted(made, key=lambda one: one.name, reverse=True)


def copy_file(source: Path, target: Path) -> None:
    """Copy a database that may be in use; the copy appears under its name when all of it is there and sound."""
    part = target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")  # two programs may make one at once
    try:
        make_file(part)
        with closing(sqlite3.connect(source, timeout=20.0)) as old, closing(sqlite3.connect(part)) as new:
            old.backup(new)
            new.execute("PRAGMA journal_mode = DELETE")  # one file, without others beside it
            if new.execute("PRAGMA quick_check").fetchone() != ("ok",):
                raise DamagedError(f"{source} is damaged: the dated copy of it cannot be read. Nothing was changed.")
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        part.replace(target)
    except (OSError, sqlite3.Error) as error:
        raise FullError(
            f"The dated copy {target} could not be made ({error}). Make room on the disk and see that you may write "
            "there, then start again. Nothing was changed."
        ) from error
    finally:
        part.unlink(missing_ok=True)


def restore(place: Place, name: str, moment: datetime | None = None) -> str:
    """Put a dated copy in the place of the file. No program may have the file open.

    Parameters
    ----------
    place : Place
        Of a file.
    name : str
        Of a copy, as `copies_of` lists it.
    moment : datetime, optional

    Returns
    -------
    str
        The name under which the file that was there is kept, beside the copies; empty if there was none.

    Raises
    ------
    RecordsError
        If there is no such copy, it is damaged, or the file is open somewhere.
    """
    if name not in {one.name for one in copies_of(place)}:
        raise UnreachableError(f"{name}: there is no such copy in {place.backups}. Accepted: a name of the list.")
    copy = place.backups / name
    try:
        with closing(sqlite3.connect(f"file:{copy.as_posix()}?mode=ro", uri=True)) as found:
            sound = found.execute("PRAGMA quick_check").fetchone() == ("ok",)
    except sqlite3.Error:
        sound = False
    if not sound:
        raise DamagedError(f"The copy {name} is damaged too: take another one. Nothing was changed.")
    _nobody_else(place)
    fresh = place.folder / f".{FILE_NAME}.restored"
    fresh.unlink(missing_ok=True)
    copy_file(copy, fresh)
    aside = ""
    if place.file.exists():
        aside = f"{SET_ASIDE}{moment or now():%Y-%m-%d_%H-%M-%S}.sqlite3"
        for ending in ("-wal", "-shm", ""):  # what was not yet put into the file goes along with it
            beside = place.folder / f"{FILE_NAME}{ending}"
            if beside.exists():
                beside.replace(place.backups / f"{aside}{ending}")
    fresh.replace(place.file)
    place.file.chmod(OWNER_ONLY)
    return aside


def _nobody_else(place: Place) -> None:
    try:
        with closing(sqlite3.connect(place.file, timeout=0.5, isolation_level=None)) as found:
            found.execute("PRAGMA locking_mode = EXCLUSIVE")
            found.execute("BEGIN EXCLUSIVE")
            found.execute("SELECT count(*) FROM sqlite_master").fetchone()
            found.execute("ROLLBACK")
    except sqlite3.OperationalError as error:
        if error.sqlite_errorcode & 0xFF in (5, 6):
            raise LockedError(
                f"{place.file} is open in another program. End Levelpeak everywhere, then try again."
            ) from error
    except sqlite3.Error:
        return  # damaged: nobody can work with it
