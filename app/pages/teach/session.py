"""The session as it was set up: who throws, which balls, which steps in which order, what is shown. Pure.

It is kept by the browser, and as a file that opens again: the file also holds the athlete's two forms.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from app.show import flat_form
from app.show.profile_form import ProfileForm
from app.show.profile_form import from_json as profile_from_json
from app.show.profile_form import to_json as profile_to_json
from app.show.throw_form import Form, FormError
from app.show.throw_form import from_json as compared_from_json
from app.show.throw_form import to_json as compared_to_json
from app.show.whose import OF_COMPARE, Whose

VERSION = 1
FILE_VERSION = 1
FILE_KIND = "levelpeak session"
OF_FILE = "file"  # who throws: the athlete of an opened file; or as `app.show.whose` has it
DROPPED = "-"  # before the key of a step that is left out

STEPS = ("throw", "hand", "forearm", "clock", "ball", "speed", "three", "vote", "athlete", "build", "limits")
"""The steps of the story by their keys, in the order they open in."""


@dataclass(frozen=True)
class Session:
    """What was set up.

    Attributes
    ----------
    who : str
        `OF_COMPARE`, `OF_FILE`, or the code of an invented thrower.
    second, third : str
        The balls beside the own one: mass (g) and diameter (mm) with an upright bar between them; empty for the usual.
    steps : str
        Keys of `STEPS`, each once, with commas between them; one that is left out begins with `DROPPED`.
    named : str
        'yes' to show code, age and body mass to the room; else empty.
    """

    who: str = OF_COMPARE
    second: str = ""
    third: str = ""
    steps: str = ",".join(STEPS)
    named: str = ""

    @property
    def order(self) -> tuple[tuple[str, bool], ...]:
        """Each step once, in order, and whether it is shown; what the text lacks comes at the end, left out."""
        found: dict[str, bool] = {}
        for text in self.steps.split(","):
            key = text.strip().removeprefix(DROPPED)
            if key in STEPS and key not in found:
                found[key] = not text.strip().startswith(DROPPED)
        return tuple((found | {key: False for key in STEPS if key not in found}).items())

    @property
    def shown(self) -> tuple[str, ...]:
        """The steps that are shown, in order."""
        return tuple(key for key, shown in self.order if shown)


@dataclass(frozen=True)
class Kept:
    """All that the browser keeps of the page."""

    session: Session = Session()
    brought: Whose | None = None


def _written(order: Iterator[tuple[str, bool]] | list[tuple[str, bool]]) -> str:
    return ",".join(key if shown else f"{DROPPED}{key}" for key, shown in order)


def moved(session: Session, step: str, by: int) -> Session:
    """Move a step up (-1) or down (+1); at an end it stays, and what is no step changes nothing."""
    order = list(session.order)
    place = next((i for i, (key, _) in enumerate(order) if key == step), -1)
    if place < 0 or not 0 <= place + by < len(order):
        return session
    order.insert(place + by, order.pop(place))
    return replace(session, steps=_written(order))


def switched(session: Session, step: str) -> Session:
    """Drop a step that is shown, or take in one that was dropped."""
    return replace(session, steps=_written((key, shown != (key == step)) for key, shown in session.order))


def to_json(kept: Kept) -> dict[str, Any]:
    """Write all as plain data, for the browser to keep.

    Parameters
    ----------
    kept : Kept

    Returns
    -------
    dict
    """
    brought = None
    if kept.brought is not None:
        brought = {
            "compare": compared_to_json(kept.brought.compared),
            "athlete": profile_to_json(kept.brought.profile),
        }
    return {"session": flat_form.to_json(kept.session, VERSION), "brought": brought}


def from_json(data: object) -> Kept:
    """Read what the browser, or a file, kept.

    Parameters
    ----------
    data : object
        Whatever it sent.

    Returns
    -------
    Kept

    Raises
    ------
    FormError
        If it is anything but what `to_json` writes.
    """
    if not isinstance(data, dict) or set(data) != {"session", "brought"}:
        raise FormError("unknown shape")
    session = flat_form.from_json(data["session"], Session, VERSION)
    if not session.shown:
        raise FormError("steps")  # a story has at least one
    brought = data["brought"]
    if brought is None:
        return Kept(replace(session, who=OF_COMPARE) if session.who == OF_FILE else session)
    if not isinstance(brought, dict) or set(brought) != {"compare", "athlete"}:
        raise FormError("athlete")
    return Kept(session, Whose(compared_from_json(brought["compare"]), profile_from_json(brought["athlete"])))


def to_file(session: Session, compared: Form, profile: ProfileForm) -> str:
    """Write a session as a file.

    Parameters
    ----------
    session : Session
    compared, profile
        The forms of the athlete who is shown, so that it opens alike anywhere.

    Returns
    -------
    str
        JSON.
    """
    kept = Kept(replace(session, who=OF_FILE), Whose(compared, profile))
    return json.dumps({"kind": FILE_KIND, "version": FILE_VERSION} | to_json(kept), ensure_ascii=False, indent=1)


def from_file(data: bytes) -> Kept:
    """Read a session's file.

    Parameters
    ----------
    data : bytes
        As it was opened.

    Returns
    -------
    Kept

    Raises
    ------
    FormError
        In words, if it is anything but a file that `to_file` wrote.
    """
    try:
        read = json.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, ValueError, RecursionError) as error:
        raise FormError("it is no JSON text") from error
    if not isinstance(read, Mapping) or read.get("kind") != FILE_KIND:
        raise FormError("it holds no session; accepted: a file that this page has saved")
    if read.get("version") != FILE_VERSION:
        raise FormError(f"its version is {str(read.get('version'))[:20]}; accepted: {FILE_VERSION}")
    try:
        return from_json({name: value for name, value in read.items() if name not in ("kind", "version")})
    except FormError as error:
        raise FormError(f"part of it is not as this page writes it: {error}") from error
