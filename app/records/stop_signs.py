"""Stop signs: entered, then cleared or withdrawn, always signed. None is taken out, and undo passes them over."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeVar

from app.records.acts import Hand
from app.records.field_list import field_of
from app.records.rows import Document
from app.records.store import Store
from app.records.tables import new_uid
from app.records.writer import Writer, lock_owner
from model.checks import InputError, check_choice
from model.stop_signs import ROLES

CLINICIAN = "clinician"
Made = TypeVar("Made")
NEVER = "athlete"
"""Whose own decision clears no stop sign."""


@dataclass(frozen=True)
class Signed:
    """Who decided or recorded something.

    Attributes
    ----------
    by, role : str
        Initials, and one of `model.stop_signs.ROLES`.
    on : date
    words : str
    """

    by: str
    role: str
    on: date
    words: str = ""


def enter(
    store: Store, athlete: str, sign: str, since: date, signed: Signed, hand: Hand, session: str | None = None
) -> str:
    """Enter a stop sign.

    Parameters
    ----------
    store : Store
    athlete : str
        uid.
    sign : str
        Its key.
    since : date
        From which day it holds.
    signed : Signed
    hand : Hand
    session : str, optional
        uid of the session it was noted of.

    Returns
    -------
    str
        Its uid. A session has the same sign of the same day once; outside of one it is entered anew unless it stands.

    Raises
    ------
    InputError
        If a value is not accepted.
    """
    given = {"sign": sign, "since": since, "session": session} | _told("entered", signed)
    for name, value in given.items():
        field_of(f"stop_sign.{name}").check(value)
    made: Document = {"table": "stop_sign", "uid": new_uid()}
    made |= {name: value.isoformat() if isinstance(value, date) else value for name, value in given.items()}

    def put(writer: Writer) -> str:
        for row in writer.all_of("stop_sign"):
            stands = not (row["cleared_by"] or row["withdrawn_by"])
            if (row["sign"], row["since"], row["session"]) == (sign, since, session) and (stands or session):
                return str(row["uid"])
        return writer.add([made])[0]

    return _with(store, athlete, hand, put)


def clear(store: Store, athlete: str, signs: Iterable[str], signed: Signed, hand: Hand) -> None:
    """Clear stop signs.

    Parameters
    ----------
    store : Store
    athlete : str
        uid.
    signs : iterable of str
        Their uids.
    signed : Signed
        A licensed clinician; or whoever records whose decision it was, in words. Never the athlete.
    hand : Hand

    Raises
    ------
    InputError
        If it may not be cleared so.
    """
    if signed.role == NEVER:
        raise InputError("Role", signed.role, "a licensed clinician, or whoever records whose decision it was")
    if signed.role != CLINICIAN and not signed.words.strip():
        raise InputError("In words", signed.words, "whose decision it was")
    _close(store, athlete, signs, "cleared", signed, hand)


def withdraw(store: Store, athlete: str, sign: str, signed: Signed, hand: Hand) -> None:
    """Withdraw a stop sign that was entered by mistake; it stays, with who withdrew it and why.

    Parameters
    ----------
    store : Store
    athlete, sign : str
        uids.
    signed : Signed
        Its words say why.
    hand : Hand

    Raises
    ------
    InputError
        If it may not be withdrawn so.
    """
    if not signed.words.strip():
        raise InputError("In words", signed.words, "why it was a mistake")
    _close(store, athlete, [sign], "withdrawn", signed, hand)


def _close(store: Store, athlete: str, signs: Iterable[str], act: str, signed: Signed, hand: Hand) -> None:
    given = _told(act, signed)
    for name, value in given.items():
        field_of(f"stop_sign.{name}").check(value)
    wanted = list(signs)

    def put(writer: Writer) -> None:
        for uid in wanted:
            row = writer.find("stop_sign", uid)
            if row["cleared_by"] or row["withdrawn_by"]:
                raise InputError("Stop sign", row["sign"], "one that still stands")
            if act == "cleared" and signed.on < row["since"]:
                raise InputError("Day", signed.on.isoformat(), f"{row['since']} or later, the day of the stop sign")
            for name, value in given.items():
                writer.set_value("stop_sign", writer.find("stop_sign", uid), name, value)

    _with(store, athlete, hand, put)


def _told(act: str, signed: Signed) -> dict[str, Any]:
    check_choice("Role", signed.role, ROLES)
    if not signed.by.strip():
        raise InputError("Initials", signed.by, "the initials of who decided")
    return {
        f"{act}_by": signed.by.strip(),
        f"{act}_role": signed.role,
        f"{act}_on": signed.on,
        f"{act}_words": signed.words.strip(),
    }


def _with(store: Store, athlete: str, hand: Hand, put: Callable[[Writer], Made]) -> Made:
    with store.database.writing() as connection:
        return put(Writer(connection, lock_owner(connection, athlete), hand))
