"""A form as a piece of text for a link, and back. What comes in is read with distrust.

The text stands behind the # of an address, which a browser keeps to itself. It is a version, a point, and base64url of
the deflated JSON of ``[choices, throws]`` or ``[choices, throws, measures]``. Choices stand in the order of
`CHOSEN_NAMES`, to whose end names may be added: an older link brings fewer, and the form's defaults stand for the rest.
Measures stand in the order of `ATHLETE_NAMES`; an older link lacks the last of them.
A chosen throw is its place in the list, from 1; 0 is none. Throws of a second thrower say so at
their end, and where there is one the measures are those of the first, then those of the second.
"""

import base64
import json
import zlib
from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import Any

from app.pages.compare.answers import Comparison
from app.show.form_fields import HOLD_FIELDS
from app.show.quantities import QUANTITIES
from app.show.throw_form import (
    ALIGNED,
    ATHLETE_NAMES,
    BEFORE_MARK_NAMES,
    CHOSEN_NAMES,
    KINDS,
    LONGEST_KEPT,
    MOST_THROWS,
    OTHER,
    SCALES,
    Form,
    ThrowForm,
)
from app.units.conversion import plain

VERSION = "1"
LONGEST = 4000  # characters of a link's text; eight usual throws with all measures take about 400
LONGEST_JSON = 64_000  # bytes, unpacked; more than a form whose every field is as long as can be
PLACES = ("reference", "headline")
KNOWN: dict[str, Collection[str]] = {"quantity": QUANTITIES, "kind": KINDS, "align": ALIGNED, "scale": SCALES}
"""The choices that name a throw; and those of a set of words."""

NO_HEADER = -15  # zlib's word for bare deflate with the usual window


class LinkError(ValueError):
    """A link that cannot be made or used; its text says why."""


def sendable(form: Form, comparison: Comparison) -> Form:
    """Hold the throws that rest on the speed profile at their release speeds: the readings do not go along.

    Parameters
    ----------
    form : Form
    comparison : Comparison
        What was worked out from it.

    Returns
    -------
    Form
        A throw whose speed is not known stays as it is.
    """
    speeds = {a.key: a.checked.speed_m_s for a in comparison.answers if a.checked.form.held == "profile"}

    def at_speed(throw: ThrowForm) -> ThrowForm:
        speed_m_s = speeds.get(throw.key)
        return throw if speed_m_s is None else throw.holding("speed", plain(speed_m_s, least=1))

    return replace(form, throws=tuple(at_speed(throw) for throw in form.throws))


def text_of(form: Form, with_measures: bool) -> str:
    """Write a form as the text of a link.

    Parameters
    ----------
    form : Form
    with_measures : bool
        Whether body measures, code and age go along.

    Returns
    -------
    str
        Letters, digits, ``-``, ``_`` and one ``.``

    Raises
    ------
    LinkError
        If it is longer than `LONGEST`.
    """
    choices = [form.place(getattr(form, n)) + 1 if n in PLACES else getattr(form, n) for n in CHOSEN_NAMES]
    throws = [[t.ball_mass_g, t.ball_diameter_mm, t.held, t.typed, *[OTHER] * bool(t.thrower)] for t in form.throws]
    data: list[object] = [choices, throws]
    if with_measures:
        people = (form.athlete, form.other) if form.two else (form.athlete,)
        data.append([measures[name] for measures in people for name in ATHLETE_NAMES])
    written = json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "replace")
    packer = zlib.compressobj(9, wbits=NO_HEADER)
    packed = packer.compress(written) + packer.flush()
    text = f"{VERSION}.{base64.urlsafe_b64encode(packed).decode('ascii').rstrip('=')}"
    if len(text) > LONGEST:
        raise LinkError(f"it would be {len(text)} characters long; accepted: up to {LONGEST}")
    return text


def form_of(text: object) -> Form:
    """Read the text of a link.

    Parameters
    ----------
    text : object
        Whatever stood behind the # of the address.

    Returns
    -------
    Form
        Without measures where the link brings none.

    Raises
    ------
    LinkError
        If it is anything but what `text_of` writes.
    """
    choices, throws, *measures = _unpacked(text)
    if not isinstance(choices, list) or len(choices) > len(CHOSEN_NAMES):
        raise LinkError("it holds what no form holds")
    chosen = dict(zip(CHOSEN_NAMES, choices, strict=False))
    if any(chosen[name] not in list(words) for name, words in KNOWN.items() if name in chosen):
        raise LinkError("it asks for what this version does not know")
    lines = [_throw(f"t{i}", given) for i, given in enumerate(_list(throws, up_to=MOST_THROWS), start=1)]
    keys = ["", *(line.key for line in lines)]
    chosen |= {name: _named(chosen.get(name, 0), keys) for name in PLACES}
    people = _people(measures[0]) if measures else ()
    for said in (*chosen.values(), *(one for person in people for one in person.values())):
        _text(said)
    form = Form(throws=tuple(lines), **chosen)
    return replace(form, athlete=people[0], other=people[1]) if people else form


def _unpacked(text: object) -> list[Any]:
    """The JSON inside, a list of two or three."""
    if not isinstance(text, str):
        raise LinkError("it is not whole")
    if len(text) > LONGEST:
        raise LinkError(f"it is {len(text)} characters long; accepted: up to {LONGEST}")
    version, _, packed = text.partition(".")
    if version != VERSION:
        raise LinkError("it was made by another version")
    try:
        unpacker = zlib.decompressobj(NO_HEADER)
        raw = base64.b64decode(packed + "=" * (-len(packed) % 4), altchars=b"-_", validate=True)
        written = unpacker.decompress(raw, LONGEST_JSON)
        data = json.loads(written)
    except (ValueError, zlib.error, RecursionError):
        raise LinkError("it is not whole") from None
    if not unpacker.eof or unpacker.unused_data:
        raise LinkError("it is not whole")
    return _list(data, 3 if isinstance(data, list) and len(data) == 3 else 2)


def _list(given: object, length: int = -1, up_to: int = 0) -> list[Any]:
    """A list of so many; what stands in it is checked apart."""
    if not isinstance(given, list) or (len(given) != length and not (up_to and len(given) <= up_to)):
        raise LinkError("it holds what no form holds")
    return given


def _throw(key: str, given: object) -> ThrowForm:
    mass_g, diameter_mm, hold, typed, *by = _list(given, 5 if isinstance(given, list) and len(given) == 5 else 4)
    for said in (mass_g, diameter_mm, typed):
        _text(said)
    if hold not in list(HOLD_FIELDS) or by not in ([], [OTHER]):
        raise LinkError("it asks for what this version does not know")
    return replace(ThrowForm(key, mass_g, diameter_mm).holding(hold, typed), by=OTHER if by else "")


def _text(given: object) -> None:
    """Refuse what is no text, or a longer one than any field takes."""
    if not isinstance(given, str) or len(given) > LONGEST_KEPT:
        raise LinkError("it holds what no form holds")


def _people(given: object) -> tuple[dict[str, Any], dict[str, Any]]:
    """The measures of the first thrower and of the second; what stands in them is checked by `form_of`."""
    count = len(given) if isinstance(given, list) else 0
    names = BEFORE_MARK_NAMES if count in (len(BEFORE_MARK_NAMES), 2 * len(BEFORE_MARK_NAMES)) else ATHLETE_NAMES
    texts = _list(given, 2 * len(names) if count == 2 * len(names) else len(names))
    nobody = dict.fromkeys(ATHLETE_NAMES, "")
    first, second = texts[: len(names)], texts[len(names) :]
    return nobody | dict(zip(names, first, strict=True)), nobody | dict(zip(names, second, strict=False))


def _named(place: object, keys: Sequence[str]) -> str:
    """The key at a place of the list."""
    if not isinstance(place, int) or isinstance(place, bool) or not 0 <= place < len(keys):
        raise LinkError("it names a throw that it does not bring")
    return keys[place]
