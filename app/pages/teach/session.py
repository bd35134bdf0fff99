"""The session as it was set up: which balls, which steps in which order, what is shown. Pure.

It is kept as the body of a teaching session of the records, and as a file that opens again.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from app.records.document import ExchangeError
from app.records.old_files import SESSION_KIND, session_document
from app.show.rack import picked_texts, texts_of
from app.units.conversion import to_si
from model.ball import Ball
from model.checks import InputError

FILE_VERSION = 1
LONGEST_KEPT = 200  # characters of each text
DROPPED = "-"  # before the key of a step that is left out

STEPS = ("throw", "hand", "forearm", "clock", "ball", "speed", "three", "vote", "athlete", "build", "limits")
"""The steps of the story by their keys, in the order they open in."""


@dataclass(frozen=True)
class Session:
    """What was set up.

    Attributes
    ----------
    second, third : Ball or None
        The balls beside the own one; None for the usual.
    order : tuple of (str, bool)
        Each of `STEPS` once, in order, and whether it is shown.
    named : bool
        Whether code, age and body mass are shown to the room.
    """

    second: Ball | None = None
    third: Ball | None = None
    order: tuple[tuple[str, bool], ...] = tuple((key, True) for key in STEPS)
    named: bool = False

    @property
    def shown(self) -> tuple[str, ...]:
        """The steps that are shown, in order."""
        return tuple(key for key, shown in self.order if shown)


@dataclass(frozen=True)
class Opened:
    """What a file held: the session, its name, and the codes of athletes who came along in it."""

    session: Session
    name: str
    codes: tuple[str, ...]


def moved(session: Session, step: str, by: int) -> Session:
    """Move a step up (-1) or down (+1); at an end it stays, and what is no step changes nothing."""
    order = list(session.order)
    place = next((i for i, (key, _) in enumerate(order) if key == step), -1)
    if place < 0 or not 0 <= place + by < len(order):
        return session
    order.insert(place + by, order.pop(place))
    return replace(session, order=tuple(order))


def switched(session: Session, step: str) -> Session:
    """Drop a step that is shown, or take in one that was dropped; the last one that is shown stays."""
    made = replace(session, order=tuple((key, shown != (key == step)) for key, shown in session.order))
    return made if made.shown else session


def text_of(ball: Ball | None) -> str:
    """Write a ball: mass (g) and diameter (mm) with an upright bar between them; nothing for none."""
    return "|".join(texts_of(ball)) if ball is not None else ""


def ball_of(text: object) -> Ball | None:
    """Read a ball as `text_of` writes it; None if that is none."""
    picked = picked_texts(text)
    try:
        return None if picked is None else Ball(to_si(float(picked[0]), "g"), to_si(float(picked[1]), "mm"))
    except (ValueError, InputError):
        return None


def body_of(session: Session) -> dict[str, str]:
    """Write a session as the records keep it: all of it as texts."""
    steps = ",".join(key if shown else f"{DROPPED}{key}" for key, shown in session.order)
    balls = {"second": text_of(session.second), "third": text_of(session.third)}
    return balls | {"steps": steps, "named": "yes" if session.named else ""}


def session_of(body: object) -> Session | None:
    """Read what the records, or a file, kept of a session.

    Parameters
    ----------
    body : object

    Returns
    -------
    Session or None
        None if it is anything but what `body_of` writes; what else stands in it is left out.
    """
    kept = body if isinstance(body, Mapping) else {}
    texts = [kept.get(name) for name in ("second", "third", "steps", "named")]
    if not all(isinstance(text, str) and len(text) <= LONGEST_KEPT for text in texts):
        return None
    second, third, steps, named = map(str, texts)
    session = Session(ball_of(second), ball_of(third), _order(steps), named == "yes")
    return session if session.shown else None  # a story has at least one step


def _order(steps: str) -> tuple[tuple[str, bool], ...]:
    """Each step once; what the text lacks comes at the end, left out."""
    found: dict[str, bool] = {}
    for text in steps.split(","):
        key = text.strip().removeprefix(DROPPED)
        if key in STEPS:
            found.setdefault(key, not text.strip().startswith(DROPPED))
    return tuple((found | {key: False for key in STEPS if key not in found}).items())


def to_file(name: str, session: Session) -> str:
    """Write a session as a file: JSON, with nothing of an athlete in it."""
    made = {"kind": SESSION_KIND, "version": FILE_VERSION, "name": name, "session": body_of(session), "brought": None}
    return json.dumps(made, ensure_ascii=False, indent=1)


def from_file(data: bytes, today: date) -> Opened:
    """Read a session's file.

    Parameters
    ----------
    data : bytes
        As it was opened.
    today : date

    Returns
    -------
    Opened

    Raises
    ------
    ExchangeError
        In words, if it is anything but a file that `to_file`, or the program before there were records, wrote.
    """
    try:
        read = json.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, ValueError, RecursionError):
        raise ExchangeError("it is no JSON text") from None
    if not isinstance(read, Mapping) or read.get("kind") != SESSION_KIND:
        raise ExchangeError("it holds no session; accepted: a file that this page has saved")
    if read.get("version") != FILE_VERSION:
        raise ExchangeError(f"its version is {str(read.get('version'))[:20]}; accepted: {FILE_VERSION}")
    document = session_document(read, today)
    (lesson,) = document.team.lessons
    session = session_of(lesson.body)
    if session is None:
        raise ExchangeError("its balls or steps are not as this page writes them")
    return Opened(session, lesson.name, tuple(one.code for one in document.athletes))
