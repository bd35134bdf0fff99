"""What can go wrong with a database, in words: what happened, that nothing was changed, and what to do."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, InvalidRequestError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

UNCHANGED = "Nothing was changed: what was kept before is as it was."


class RecordsError(Exception):
    """The records cannot be opened or changed; the text says why and what to do."""


class LockedError(RecordsError):
    """Another program keeps the database from being written to."""


class FullError(RecordsError):
    """There is no room left."""


class ReadOnlyError(RecordsError):
    """The database may be read only."""


class DamagedError(RecordsError):
    """The file is no database, or is damaged."""


class NewerError(RecordsError):
    """The database was made by a newer version of the program."""


class UnreachableError(RecordsError):
    """There is no way to the database: no file, no server, no permission."""


class GoneError(RecordsError):
    """What was to be changed is there no longer."""


class TakenError(RecordsError):
    """A code is another athlete's."""


LOCKED = (
    LockedError,
    "Another program is writing to {where} and did not let go. Close other programs that have it open, then try again.",
)
FULL = (FullError, "There is no room left for {where}. Make room on the disk, then enter it again.")
READ_ONLY = (
    ReadOnlyError,
    "{where} may only be read. Give your user account the right to write to it and to its folder, or choose another "
    "place with --data-dir.",
)
DAMAGED = (
    DamagedError,
    "{where} is damaged, or is no database. Leave the file where it is; “levelpeak restore” lists the dated copies and "
    "puts one in its place, and keeps the damaged one beside it.",
)
UNWRITABLE = (
    FullError,
    "{where} could not be written: the disk is full or fails, or its size is limited. Make room, then enter it again.",
)
CANNOT_OPEN = (
    UnreachableError,
    "{where} cannot be opened. See that the folder is there and that your user account may read and write in it, or "
    "choose another place with --data-dir.",
)
NO_SERVER = (
    UnreachableError,
    "{where} cannot be reached. See that the server runs, and that address, user and password are right (the password "
    "in the variable LEVELPEAK_DATABASE or in a password file).",
)
NO_RIGHT = (ReadOnlyError, "{where} does not let this user do that. Ask whoever runs the server for the right.")

_SQLITE = {5: LOCKED, 6: LOCKED, 8: READ_ONLY, 10: UNWRITABLE, 11: DAMAGED, 13: FULL, 14: CANNOT_OPEN, 26: DAMAGED}
"""By SQLite's primary result code."""

_POSTGRES = {
    "25006": READ_ONLY,
    "40001": LOCKED,
    "40P01": LOCKED,
    "42501": NO_RIGHT,
    "53100": FULL,
    "53200": FULL,
    "53300": (UnreachableError, "{where} has as many connections as it allows. Try again in a moment."),
    "55P03": LOCKED,
    "57014": LOCKED,
}
"""By SQLSTATE (PostgreSQL, appendix A)."""


def told(error: DBAPIError, where: str) -> RecordsError:
    """Put an error of a database into words.

    Parameters
    ----------
    error : DBAPIError
    where : str
        What the database is called in a sentence.

    Returns
    -------
    RecordsError
    """
    cause = error.orig
    code = getattr(cause, "sqlite_errorcode", None)
    if code is not None:
        found = _SQLITE.get(code & 0xFF)
    else:
        state = getattr(cause, "sqlstate", None)
        found = _POSTGRES.get(state or "")
        if found is None and (state is None or state[:2] in ("08", "28", "57", "3D")):
            found = NO_SERVER
    if found is None:
        kind, words = RecordsError, f"{{where}} did not take it ({str(cause).strip().splitlines()[0]})."
    else:
        kind, words = found
    text = words.format(where=where)
    return kind(f"{text[0].upper()}{text[1:]} {UNCHANGED}")


@contextmanager
def telling(where: str) -> Iterator[None]:
    """Raise a `RecordsError` for what a database refuses inside."""
    try:
        yield
    except DBAPIError as error:
        raise told(error, where) from error
    except PoolTimeoutError as error:
        raise LockedError(f"Too many are at work on {where} at once. Try again in a moment. {UNCHANGED}") from error
    except InvalidRequestError as error:
        raise RecordsError(f"{where} did not take it ({error}). {UNCHANGED}") from error
