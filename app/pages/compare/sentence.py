"""The comparison in a sentence, made from the numbers: which of the four sizes rose, which fell, by how much."""

import math
from dataclasses import dataclass

from app.pages.compare.answers import Answer, Comparison
from app.show.certainty_words import ReadoutWords, change_words
from app.show.numbers import share_of


@dataclass(frozen=True)
class Sentence:
    """A sentence in its parts, so that the page can set them apart.

    Attributes
    ----------
    key : str
        uid of the throw.
    throw, against : str
        The throw and the reference, such as "275 g at 28.5 m/s".
    kind : str
        How the reference is known.
    says : str
        What differs, without the full stop.
    """

    key: str
    throw: str
    against: str
    kind: str
    says: str

    def __str__(self) -> str:
        return f"{self.throw} against {self.against} ({self.kind}): {self.says}."


def difference(name: str, value: float, reference: float, more: str, less: str) -> str:
    """Say how a reading differs from the reference's.

    Parameters
    ----------
    name : str
        What it is called, such as "peak".
    value, reference : float
        The reading of the throw and of the reference.
    more, less : str
        What a larger and a smaller one is called.

    Returns
    -------
    str
        "peak 9 % lower", "peak the same" under half a per cent, "peak not defined" where there is no number.
    """
    return change_words(ReadoutWords(name, more, less), share_of(value, reference) - 100.0)


def sentence(answer: Answer, reference: Answer, kind: str) -> Sentence:
    """Compare a throw with the reference in one sentence.

    Parameters
    ----------
    answer, reference : Answer
        Both with readouts.
    kind : str
        How the reference is known.

    Returns
    -------
    Sentence
    """
    own, against = answer.readouts, reference.readouts
    if own is None or against is None:
        return Sentence(answer.key, answer.name, reference.name, kind, "not compared, a value is missing")
    parts = (
        difference("peak", own.peak, against.peak, "higher", "lower"),
        difference("loaded", own.loaded_s, against.loaded_s, "longer", "shorter"),
        difference("rise", own.rise_rate, against.rise_rate, "steeper", "gentler"),
        difference("area", own.area, against.area, "larger", "smaller"),
    )
    if all(part.endswith("the same") for part in parts):
        says = "no difference in peak, time loaded, rise rate or area (each under 0.5 %)"
    elif all(part.endswith("not defined") for part in parts):
        says = "nothing to compare, the quantity stays at or below zero"
    else:
        says = ", ".join(parts).replace("loaded the same", "loaded as long").replace("loaded not", "time loaded not")
        says = says.replace("rise the same", "rise as steep").replace("rise not", "rise rate not")
    return Sentence(answer.key, answer.name, reference.name, kind, says)


def headline(comparison: Comparison, chosen: str | None) -> tuple[Sentence | None, tuple[Sentence, ...]]:
    """Choose the sentence in the largest type, and list the others.

    Parameters
    ----------
    comparison : Comparison
    chosen : str or None
        uid of the throw the first sentence is about; the first one that can be compared if it is none of these.

    Returns
    -------
    Sentence or None
        The first sentence; None if nothing can be compared.
    tuple of Sentence
        One for each other throw, in the order of the list.
    """
    reference = comparison.reference
    if reference is None or not comparison.compared:
        return None, ()
    first = next((answer for answer in comparison.compared if answer.key == chosen), comparison.compared[0])
    others = tuple(answer for answer in comparison.compared if answer is not first)
    kind = comparison.known if comparison.kind == "pre-injury" else comparison.kind
    return sentence(first, reference, kind), tuple(sentence(answer, reference, kind) for answer in others)


def instead(comparison: Comparison) -> str:
    """Say what to do where no two throws can be compared.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    str
    """
    for key in sorted({answer.thrower for answer in comparison.answers} or {""}):
        thrower = comparison.throwers.get(key)
        if thrower is not None and thrower.person is None:
            wrong = ", ".join(thrower.missing).lower()
            return f"No curves until this is mended: {wrong}{' of the second thrower' if key else ''}."
    if not comparison.answers:
        return "No throws in the list: add one."
    if not comparison.drawn:
        return "No throw is complete yet: give ball mass and release speed."
    if comparison.reference is None:
        return "The reference throw has no curve: complete it, or choose another reference."
    reference = comparison.reference
    peak = reference.readouts.peak if reference.readouts else math.nan
    unit = comparison.reading.unit
    reads = f"peak {peak:.1f} {unit}" if math.isfinite(peak) else "peak not defined"
    return f"{reference.name}: {reads}. Add a second throw to compare it with."
