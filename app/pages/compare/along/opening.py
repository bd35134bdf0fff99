"""What becomes of a link that was opened: it is said what it holds, and it goes to whom the reader says."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from app.bind.visit import address
from app.pages.compare import ids
from app.pages.compare.acts import comparison_acts
from app.pages.compare.along.link import CALLED, LinkError, Shared, Texts, shared_in
from app.pages.compare.current import ASKED
from app.records.acts import Act, Add, Edit, Hand
from app.records.faults import TakenError
from app.records.field_list import field_of
from app.records.store import Store
from app.records.tables import LONGEST_CODE, new_uid
from app.show.quantities import reading_named
from model.checks import InputError

FROM_LINK = "From a link"
NAMELESS_CODE = "Link"
MOST_OF_A_CODE = 99


@dataclass(frozen=True)
class Offer:
    """What is said of a link, and on the button that opens it; no button where it cannot be opened."""

    said: str
    button: str = ""


def offer_of(text: object, code: str) -> Offer:
    """Say what a link holds.

    Parameters
    ----------
    text : object
        Whatever stood behind the # of the address.
    code : str
        Of the athlete whose page is open; empty where there is none.

    Returns
    -------
    Offer
    """
    try:
        shared = shared_in(text)
    except LinkError as error:
        return Offer(f"The link could not be opened: {error}. Nothing was changed.")
    count = len(shared.throws)
    masses = ", ".join(dict.fromkeys(_ball(throw["mass_kg"]) for throw in shared.throws))
    holds = f"{count} throw{'' if count == 1 else 's'}{f' ({masses})' if masses else ''}"
    said = f"This link holds a comparison of {holds}: {reading_named(shared.asked.get('quantity')).label}."
    if brings_measures(shared):
        theirs = shared.people[0]["athlete.code"].strip() or "an athlete without a code"
        return Offer(f"{said} It brings the measures of {theirs}.", "Open it as a new athlete")
    if not code:
        return Offer(f"{said} It brings no body measures: choose an athlete above first, then open the link again.")
    left = sum(1 for throw in shared.throws if throw["thrower"])
    lost = f" Throws of a second thrower, {left}, are left out: it does not say who that is." if left else ""
    said += f" It brings no body measures: the throws are worked out with those of {code}.{lost}"
    return Offer(said, f"Open it for {code}")


def open_for(store: Store, text: object, owner: str, code: str, hand: Hand, today: date) -> str:
    """Take in what a link holds: for this athlete, or where it brings measures for a new one.

    Parameters
    ----------
    store : Store
    text : object
    owner, code : str
        uid and code of the athlete whose page is open.
    hand : Hand
    today : date

    Returns
    -------
    str
        The address to go on to.

    Raises
    ------
    LinkError
        If it cannot be read.
    RecordsError
        If the records did not take it.
    """
    shared, uid, other = shared_in(text), new_uid(), ""
    if brings_measures(shared):
        owner, code = _new_athlete(store, shared.people[0], hand)
        for second in shared.people[1:]:
            other, _ = _new_athlete(store, second, hand)
    store.act(owner, _acts(shared, uid, f"{FROM_LINK}, {today.isoformat()}", other), hand)
    return address(ids.PATH, code, **{ASKED: uid})


def _acts(shared: Shared, uid: str, name: str, other: str) -> list[Act]:
    """Make the comparison of a link. What cannot be read is left out, and so are throws of nobody knows whom."""
    kept = [place for place, throw in enumerate(shared.throws) if other or not throw["thrower"]]
    at = {place: number for number, place in enumerate(kept)}
    throws = [_read("throw", shared.throws[place]) for place in kept]
    for place, throw in zip(kept, throws, strict=True):
        throw["thrower"] = other if shared.throws[place]["thrower"] else None
    kinds = {word: kind for kind, word in CALLED.items()}
    asked = {**shared.asked, "name": name}
    asked["kind"] = kinds.get(asked.get("kind", ""), asked.get("kind", ""))
    return comparison_acts(
        _read("comparison", asked), throws, uid, at.get(shared.reference, 0), at.get(shared.headline)
    )


def _read(table: str, texts: Texts) -> dict[str, Any]:
    """The values of a row's texts, but of those that cannot be read."""
    values: dict[str, Any] = {}
    for name, text in texts.items():
        try:
            values[name] = field_of(f"{table}.{name}", texts).parse(text).value
        except InputError:
            continue
    return values


def brings_measures(shared: Shared) -> bool:
    """Whether a link brings the measures of who throws."""
    return bool(shared.people) and any(text.strip() for text in shared.people[0].values())


def _new_athlete(store: Store, measures: Texts, hand: Hand) -> tuple[str, str]:
    """Make an athlete with measures of today; a code that is taken gets a number behind it."""
    wanted = (
        "".join(one for one in measures["athlete.code"].strip() if one.isprintable())[:LONGEST_CODE] or NAMELESS_CODE
    )
    for number in range(1, MOST_OF_A_CODE):
        behind = "" if number == 1 else f" {number}"
        code = f"{wanted[: LONGEST_CODE - len(behind)].strip()}{behind}"
        try:
            uid = store.new_athlete(code, hand)
        except TakenError:
            continue
        store.act(uid, _measured(measures), hand)
        return uid, store.code_of(uid) or code
    raise TakenError(f"Code: “{wanted}” given; too many athletes here are called so. Accepted: a code not yet in use.")


def _measured(measures: Texts) -> list[Act]:
    known = {path: text for path, text in measures.items() if text.strip() and path != "athlete.code"}
    texts = {path.removeprefix("measures."): text for path, text in known.items() if path.startswith("measures.")}
    edits = [Edit(path, text) for path, text in known.items() if path.startswith("athlete.")]
    return [*edits, *([Add("measures", texts=texts)] if texts else [])]


def _ball(mass: str) -> str:
    text = mass.strip()
    return text if not text or any(one.isalpha() for one in text) else f"{text} g"
