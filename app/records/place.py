"""Where the records lie: a file in the user's data folder, or a database on a server; and who can read them."""

import os
import stat
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from platformdirs import user_data_path
from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from app.records import ACCEPTED, VARIABLE
from app.records.faults import CANNOT_OPEN, UnreachableError

FILE_NAME = "records.sqlite3"
BACKUPS = "backups"
OWNER_ONLY, OWNER_FOLDER = 0o600, 0o700
OTHERS_READ = stat.S_IRGRP | stat.S_IROTH
SCHEMES = ("postgresql", "postgres", "postgresql+psycopg")


@dataclass(frozen=True)
class Place:
    """Where the records lie.

    Attributes
    ----------
    folder : Path
        Of the file, and of its dated copies.
    url : URL or None
        Of a server's database; None for the file.
    name : str
        Of the file in its folder.
    """

    folder: Path
    url: URL | None = None
    name: str = FILE_NAME

    @property
    def file(self) -> Path:
        """The file, where there is no server."""
        return self.folder / self.name

    @property
    def backups(self) -> Path:
        """The folder of the dated copies."""
        return self.folder / BACKUPS

    @property
    def on_server(self) -> bool:
        """Whether a server keeps them."""
        return self.url is not None

    @property
    def engine_url(self) -> URL:
        """As the database library takes it."""
        if self.url is not None:
            return self.url
        return URL.create("sqlite", database=str(self.file))

    @property
    def words(self) -> str:
        """What it is called in a sentence, without a password."""
        if self.url is None:
            return str(self.file)
        host = self.url.host or self.url.query.get("host") or "this machine"
        return f"the database {self.url.database} on {host}"

    @property
    def who(self) -> str:
        """Say where the records lie and who can read them."""
        if self.url is not None:
            return (
                f"The records lie in {self.words}. Whoever may open that database there can read them, and so can "
                "whoever runs that server or has its copies."
            )
        return f"The records lie in {self.words}. {readers_of(self.file)}"


def readers_of(file: Path) -> str:
    """Say who can read a file.

    Parameters
    ----------
    file : Path

    Returns
    -------
    str
        A sentence.
    """
    beside = "Whoever administers this machine can read them too, and so can whoever has a copy of its disk."
    if sys.platform == "win32":
        return f"The rights of that folder say who can read them: at first your user account alone. {beside}"
    try:
        mode = file.stat().st_mode
    except OSError:
        mode = OWNER_ONLY
    if mode & OTHERS_READ:
        return f"Other user accounts of this machine may read that file: chmod 600 closes it to them. {beside}"
    return f"Only your user account can read them. {beside}"


def find_place(data_dir: str | None, database: str | None, environ: Mapping[str, str] = os.environ) -> Place:
    """Find where the records lie.

    Parameters
    ----------
    data_dir : str or None
        As given on the command line; without, the user's data folder.
    database : str or None
        A server's database as given on the command line; without, what the variable `VARIABLE` says.
    environ : mapping of str to str

    Returns
    -------
    Place

    Raises
    ------
    UnreachableError
        If the text is no address of such a database, or has a password in an option, where others can read it.
    """
    if data_dir is not None and not data_dir.strip():
        raise UnreachableError("--data-dir: nothing given; accepted: a folder.")
    folder = Path(data_dir).expanduser() if data_dir else user_data_path("levelpeak", appauthor=False, roaming=False)
    named, text = ("--database", database) if database is not None else (VARIABLE, environ.get(VARIABLE, ""))
    if not text.strip():
        if database is not None:
            raise UnreachableError(f"--database: nothing given; accepted: {ACCEPTED}.")
        return Place(folder.absolute())
    try:
        url = make_url(text.strip())
    except ArgumentError:  # the text may hold a password: it is not shown
        raise UnreachableError(f"{named}: no address of a database given; accepted: {ACCEPTED}.") from None
    if url.drivername not in SCHEMES:
        hint = " For a file name its folder with --data-dir." if url.drivername.startswith("sqlite") else ""
        raise UnreachableError(f"{named}: {url.drivername!r} given; accepted: {ACCEPTED}.{hint}")
    if database is not None and (url.password or "password" in url.query):
        raise UnreachableError(
            "--database: a password given, which others on this machine can read there; accepted: the address without "
            f"it. Put the whole address into the variable {VARIABLE}, or the password into a password file (~/.pgpass)."
        )
    if not url.database:
        raise UnreachableError(f"{named}: no name of a database given; accepted: {ACCEPTED}.")
    return Place(folder.absolute(), url.set(drivername="postgresql+psycopg"))


def make_folder(folder: Path) -> None:
    """Make a folder that only its owner can look into; one that is there stays as it is.

    Parameters
    ----------
    folder : Path

    Raises
    ------
    UnreachableError
        If it cannot be made.
    """
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        folder.mkdir(mode=OWNER_FOLDER, exist_ok=True)
    except OSError as error:
        kind, words = CANNOT_OPEN
        raise kind(words.format(where=folder)) from error


def make_file(file: Path) -> None:
    """Make an empty file that only its owner can read; one that is there stays as it is.

    Parameters
    ----------
    file : Path

    Raises
    ------
    UnreachableError
        If it cannot be made.
    """
    try:
        os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWNER_ONLY))
    except FileExistsError:
        return
    except OSError as error:
        kind, words = CANNOT_OPEN
        raise kind(words.format(where=file)) from error
