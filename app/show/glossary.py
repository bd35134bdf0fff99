"""The words of the trade and of mechanics, in plain words; and labels in which they can be asked for.

A label with such a word carries a link to its line on the Words page; `assets/glossary.js` shows the line where the
reader is, so that nothing is left. Without the browser code the link still leads there.
"""

import re
from dataclasses import dataclass
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.show import ids

PATH = "/words"


@dataclass(frozen=True)
class Term:
    """One word, or two that belong together.

    Attributes
    ----------
    key : str
        Its place on the Words page.
    name : str
    text : str
        What it means.
    said : tuple of str
        How labels say it, longest first; in any case.
    """

    key: str
    name: str
    text: str
    said: tuple[str, ...]


TERMS = (
    Term(
        "torque",
        "Torque",
        "How hard something is turned about a joint: force times its distance from the joint, in newton metres (N·m). "
        "Here always the torque that the body gives: muscles, ligaments and bone together.",
        ("torques", "torque"),
    ),
    Term(
        "varus-valgus",
        "Varus and valgus",
        "Varus torque at the elbow turns the forearm inward and keeps it from being bent outward. Bending it outward "
        "is valgus. The body’s varus torque and the outside’s valgus torque are the same size; here it is always "
        "called varus torque.",
        ("varus torque", "valgus torque", "varus", "valgus"),
    ),
    Term(
        "peak",
        "Peak",
        "The highest value of the curve: how high. The top is broad, so the time of the peak is known to about 7 ms.",
        ("peak",),
    ),
    Term(
        "time-loaded",
        "Time loaded",
        "How long the curve stays above a tenth of its own peak, in milliseconds (ms): how long.",
        ("time loaded",),
    ),
    Term(
        "time-above",
        "Time above",
        "How long the curve stays above one torque that is the same for all throws, in milliseconds (ms): half the "
        "reference throw’s peak unless another level is chosen.",
        ("time above",),
    ),
    Term(
        "half-height-width",
        "Half-height width",
        "How long the curve stays above half of its own peak, in milliseconds (ms).",
        ("half-height width",),
    ),
    Term(
        "rise-rate",
        "Rise rate",
        "How fast the torque climbs from a tenth to nine tenths of its peak: how steep.",
        ("rise rate",),
    ),
    Term(
        "impulse",
        "Impulse (area under the curve)",
        "Torque added up over time: how much in all. It is not work: nothing has to move for it to grow.",
        ("area under the curve", "angular impulse", "impulse", "area"),
    ),
    Term(
        "work",
        "Work",
        "Torque added up over the angle that the joint turns, in joules (J): given out while it turns along, taken in "
        "while it turns against. Where a joint does not turn, no work is done, however large the torque.",
        ("work given out", "work taken in", "work"),
    ),
    Term(
        "external-rotation",
        "External rotation, internal rotation",
        "Turning the upper arm about its own length. External rotation lays the forearm back; internal rotation "
        "whips it forward. Maximum external rotation is the instant when the forearm is laid back farthest.",
        ("maximum external rotation", "external rotation", "internal rotation", "internal-rotation"),
    ),
    Term(
        "abduction",
        "Abduction, adduction; horizontal",
        "Abduction raises the upper arm from the side, adduction lowers it. Horizontal adduction draws it forward, "
        "horizontal abduction back: that brakes the arm after release.",
        ("horizontal-abduction", "horizontal-adduction", "abduction", "adduction"),
    ),
    Term(
        "effort",
        "Effort asked for",
        "What a thrower was told to give, in per cent. It is not speed: asked for half effort, pitchers threw at about "
        "85 % of full speed (Fiegen 2023). Plans here are written in speed.",
        ("asked effort", "effort asked for", "full effort", "effort"),
    ),
    Term(
        "speed",
        "Speed (release speed)",
        "How fast the ball’s centre moves as it leaves the hand. A radar reads a moment later, when the air has "
        "slowed it a little. Full speed is the mean of full-effort throws.",
        ("release speed", "full speed", "speed"),
    ),
    Term(
        "reference",
        "Reference throw",
        "The throw that others are measured against: the athlete’s own ball at full effort. It is measured, or from "
        "before an injury, or estimated, and every per cent says which.",
        ("reference throw", "reference"),
    ),
    Term(
        "profile",
        "Speed profile, exponent p",
        "How much slower this athlete throws a heavier ball, from radar readings. One number p says it: the larger, "
        "the more the athlete slows down.",
        ("speed profile", "exponent", "profile"),
    ),
    Term(
        "clock",
        "Clock",
        "How fast the same path is run through: the speed of all joints together. Twice the clock is half the time.",
        ("joint speeds", "clock"),
    ),
    Term(
        "events",
        "Foot contact, release",
        "The front foot lands; the ball leaves the hand. The curves run from the one to a little after the other.",
        ("foot contact", "release"),
    ),
    Term(
        "bwh",
        "%BW·H",
        "Torque in per cent of body weight times height, so that large and small throwers can be laid side by side.",
        ("%BW·H",),
    ),
)

_KEY_OF = {word.lower(): term.key for term in TERMS for word in term.said}
_WORDS = "|".join(re.escape(word) for word in sorted(_KEY_OF, key=len, reverse=True))
_FIND = re.compile(rf"(?<![\w-])(?:{_WORDS})(?![\w-])", re.IGNORECASE)


def explained(label: str, most: int = 2, repeated: bool = False) -> list[Any]:
    """Make the words of a label that stand in the glossary ones that can be asked for.

    Parameters
    ----------
    label : str
    most : int
        Of how many words, from the left; each term once.
    repeated : bool
        Whether the label stands on the page again and again: then the Tab key passes it over.

    Returns
    -------
    list of str and Component
        The same text, with a link at each of these words.
    """
    parts: list[Any] = []
    done: set[str] = set()
    at = 0
    for found in _FIND.finditer(label):
        key = _KEY_OF[found[0].lower()]
        if key in done or len(done) == most:
            continue
        done.add(key)
        parts += [label[at : found.start()], term_link(key, found[0], repeated)]
        at = found.end()
    return [part for part in (*parts, label[at:]) if part != ""]


def field_words(label: str | Component) -> str | Component:
    """Make the label of a field: as `explained`, of its first such word; a label without any stays what it is.

    Parameters
    ----------
    label : str or Component

    Returns
    -------
    str or Component
    """
    if not isinstance(label, str):
        return label
    parts = explained(label, most=1)
    return label if parts == [label] else html.Span(parts)


def term_link(key: str, words: str, repeated: bool = False) -> Component:
    """Make a word that can be asked for.

    Parameters
    ----------
    key : str
        Of a `Term`.
    words : str
        As they stand in the text.
    repeated : bool
        Whether the Tab key passes it over.

    Returns
    -------
    Component
    """
    passed_over = {"tabIndex": -1} if repeated else {}
    return html.A(words, href=f"{PATH}#{key}", className="term", **{"data-term": key}, **passed_over)


def meanings() -> Component:
    """Make what the browser reads the meanings from; it is not shown.

    Returns
    -------
    Component
    """
    data = [{"data-term": term.key, "data-name": term.name, "data-text": term.text} for term in TERMS]
    return html.Div([html.Span(**one) for one in data], id=ids.GLOSSARY_TERMS, hidden=True)


def glossary() -> Component:
    """Make the list of all words.

    Returns
    -------
    Component
    """
    pairs = [(html.Dt(term.name, id=term.key), html.Dd(term.text)) for term in TERMS]
    return html.Dl([part for pair in pairs for part in pair], className="words")
