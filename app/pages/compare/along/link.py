"""A comparison as a piece of text for a link, and back. What comes in is read with distrust.

The text stands behind the # of an address, which a browser keeps to itself. It is a version, a point, and base64url of
the deflated JSON of ``[choices, throws]`` or ``[choices, throws, measures]``, all as texts in metric units, or as they
were typed with their unit. Choices stand in the order of `CHOSEN`, to whose end names may be added: an older link
brings fewer. Measures stand in the order of `MEASURES`; an older link lacks the last of them. A chosen throw is its
place in the list, from 1; 0 is none. Throws of a second thrower say so at their end, and where there is one the
measures are those of the first, then those of the second.
"""

import base64
import json
import zlib
from collections.abc import Collection, Mapping
from dataclasses import asdict, dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Any

from app.pages.compare.answers import Thrower
from app.pages.compare.current import Current
from app.records import tables
from app.records.field_list import ALIGNED, FIELDS, SCALES, field_of
from app.records.reads import AthleteData, measures_on
from app.show.listed_throw import HOLDS, MOST_THROWS, OTHER, ListedThrow
from app.units.conversion import plain
from model.ceilings import KINDS
from model.readouts import QUANTITIES

VERSION = "1"
LONGEST = 4000  # characters of a link's text; eight usual throws with all measures take about 400
LONGEST_JSON = 64_000  # bytes, unpacked; more than a comparison of which every text is as long as can be
LONGEST_TEXT = 200  # characters
CHOSEN = ("reference", "kind", "day", "quantity", "headline", "above", "align", "scale")
PLACES = ("reference", "headline")
"""The choices that name a throw."""

MEASURES = (
    *(f"athlete.{name}" for name in ("code", "sex", "handedness")),
    *(f"measures.{name}" for name in ("age_years", "stature_m", "body_mass_kg")),
    *(f"measures.{name}_length_m" for name in ("upper_arm", "forearm", "hand")),
    "athlete.still_growing",
)
BEFORE_MARK = MEASURES[:-1]
CALLED = {"before_injury": "before"}
"""What a link calls a kind of reference, where the records call it otherwise."""

KNOWN: dict[str, Collection[str]] = {
    "quantity": QUANTITIES,
    "kind": [CALLED.get(kind, kind) for kind in KINDS],
    "align": ALIGNED,
    "scale": SCALES,
}
"""The choices of a set of words."""

NO_HEADER = -15  # zlib's word for bare deflate with the usual window

Texts = Mapping[str, str]


class LinkError(ValueError):
    """A link that cannot be made or used; its text says why."""


@dataclass(frozen=True)
class Shared:
    """What a link holds.

    Attributes
    ----------
    asked : mapping of str to str
        Of `CHOSEN` what is no place, as far as the link brings it.
    throws : tuple of mapping of str to str
        Texts by column, in the order of the list; ``thrower`` is "" or `OTHER`.
    reference, headline : int
        Places in the list; -1 for none.
    people : tuple of mapping of str to str
        Texts by path, of the first thrower and of the second; none where measures do not go along.
    """

    asked: Texts = field(default_factory=lambda: MappingProxyType({}))
    throws: tuple[Texts, ...] = ()
    reference: int = -1
    headline: int = -1
    people: tuple[Texts, ...] = ()


def shared_of(current: Current, with_measures: bool) -> Shared:
    """Gather what goes along of a comparison; radar readings do not, so a throw on the profile goes at its speed.

    Parameters
    ----------
    current : Current
    with_measures : bool
        Whether body measures, code and age go along.

    Returns
    -------
    Shared
    """
    row, today = current.row, current.visit.today
    asked = {name: _text_of(row, f"comparison.{name}") for name in CHOSEN if name not in PLACES}
    return Shared(
        asked | {"kind": CALLED.get(row.kind, row.kind)},
        tuple(_throw_texts(one, line) for one, line in zip(current.rows, current.throws, strict=True)),
        current.place(row.reference),
        current.place(row.headline),
        tuple(_measures(data, current.throwers[by], today) for by, data in current.known.items() if with_measures),
    )


def _text_of(row: tables.Row, path: str) -> str:
    found = field_of(path, row.__dict__)
    return found.kept(getattr(row, found.name), row.typed.get(found.name, ""))


def _throw_texts(row: tables.Throw, line: ListedThrow) -> Texts:
    texts = {name: _text_of(row, f"throw.{name}") for name in ("mass_kg", "diameter_m", "hold", "number")}
    if row.hold == "profile" and line.speed_m_s is not None:
        texts |= {"hold": "speed", "number": plain(line.speed_m_s, least=1)}
    return texts | {"thrower": line.thrower}


def _measures(data: AthleteData, thrower: Thrower, today: date) -> Texts:
    athlete = data.athlete
    known: Mapping[str, Any] = asdict(thrower.person) if thrower.person else measures_on(data.measures, today)
    words = {name: getattr(athlete, name) or "" for name in ("code", "sex", "handedness")}
    words["still_growing"] = "yes" if athlete.still_growing else ""
    return {path: words[name] if name in words else FIELDS[path].kept(known.get(name)) for path, name in _NAMED}


_NAMED = tuple((path, path.partition(".")[2]) for path in MEASURES)


def text_of(shared: Shared) -> str:
    """Write the text of a link.

    Parameters
    ----------
    shared : Shared

    Returns
    -------
    str
        Letters, digits, ``-``, ``_`` and one ``.``

    Raises
    ------
    LinkError
        If it is longer than `LONGEST`.
    """
    choices = [getattr(shared, name) + 1 if name in PLACES else shared.asked[name] for name in CHOSEN]
    names = ("mass_kg", "diameter_m", "hold", "number")
    throws = [[*(one[name] for name in names), *[OTHER] * bool(one["thrower"])] for one in shared.throws]
    data: list[object] = [choices, throws]
    if shared.people:
        data.append([person[path] for person in shared.people for path in MEASURES])
    written = json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "replace")
    packer = zlib.compressobj(9, wbits=NO_HEADER)
    packed = packer.compress(written) + packer.flush()
    text = f"{VERSION}.{base64.urlsafe_b64encode(packed).decode('ascii').rstrip('=')}"
    if len(text) > LONGEST:
        raise LinkError(f"it would be {len(text)} characters long; accepted: up to {LONGEST}")
    return text


def shared_in(text: object) -> Shared:
    """Read the text of a link.

    Parameters
    ----------
    text : object
        Whatever stood behind the # of the address.

    Returns
    -------
    Shared

    Raises
    ------
    LinkError
        If it is anything but what `text_of` writes.
    """
    choices, throws, *measures = _unpacked(text)
    if not isinstance(choices, list) or len(choices) > len(CHOSEN):
        raise LinkError("it holds what no form holds")
    chosen = dict(zip(CHOSEN, choices, strict=False))
    if any(chosen[name] not in list(words) for name, words in KNOWN.items() if name in chosen):
        raise LinkError("it asks for what this version does not know")
    lines = tuple(_throw(given) for given in _list(throws, up_to=MOST_THROWS))
    places = {name: _place(chosen.pop(name, 0), len(lines)) for name in PLACES}
    people = _people(measures[0]) if measures else ()
    for said in (*chosen.values(), *(one for person in people for one in person.values())):
        _text(said)
    return Shared(chosen, lines, **places, people=people)


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


def _throw(given: object) -> Texts:
    mass, diameter, hold, number, *by = _list(given, 5 if isinstance(given, list) and len(given) == 5 else 4)
    for said in (mass, diameter, number):
        _text(said)
    if hold not in list(HOLDS) or by not in ([], [OTHER]):
        raise LinkError("it asks for what this version does not know")
    return {"mass_kg": mass, "diameter_m": diameter, "hold": hold, "number": number, "thrower": OTHER if by else ""}


def _text(given: object) -> None:
    """Refuse what is no text, or a longer one than any field takes."""
    if not isinstance(given, str) or len(given) > LONGEST_TEXT:
        raise LinkError("it holds what no form holds")


def _people(given: object) -> tuple[Texts, ...]:
    """The measures of each thrower; what stands in them is checked by `shared_in`."""
    count = len(given) if isinstance(given, list) else 0
    names = BEFORE_MARK if count in (len(BEFORE_MARK), 2 * len(BEFORE_MARK)) else MEASURES
    texts = _list(given, 2 * len(names) if count == 2 * len(names) else len(names))
    both = (texts[: len(names)], texts[len(names) :])
    return tuple(dict.fromkeys(MEASURES, "") | dict(zip(names, one, strict=True)) for one in both if one)


def _place(given: object, count: int) -> int:
    """A place in the list, from 0; -1 for none."""
    if not isinstance(given, int) or isinstance(given, bool) or not 0 <= given <= count:
        raise LinkError("it names a throw that it does not bring")
    return given - 1
