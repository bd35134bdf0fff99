"""What becomes of a link that was opened: it is said what it holds, and it goes to whom the reader says."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.bind.visit import address
from app.pages.compare import ids
from app.pages.compare.acts import comparison_acts
from app.pages.compare.along.link import LinkError, form_of
from app.pages.compare.current import ASKED
from app.records.acts import Act, Add, Edit, Hand
from app.records.faults import TakenError
from app.records.store import Store
from app.records.tables import LONGEST_CODE, new_uid
from app.show.form_fields import LENGTHS, MARK, MEASURES
from app.show.quantities import reading_named
from app.show.throw_form import Form

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
        form = form_of(text)
    except LinkError as error:
        return Offer(f"The link could not be opened: {error}. Nothing was changed.")
    count = len(form.throws)
    masses = ", ".join(dict.fromkeys(_ball(throw.ball_mass_g) for throw in form.throws))
    holds = f"{count} throw{'' if count == 1 else 's'}{f' ({masses})' if masses else ''}"
    said = f"This link holds a comparison of {holds}: {reading_named(form.quantity).label}."
    if brings_measures(form):
        theirs = form.athlete["code"].strip() or "an athlete without a code"
        return Offer(f"{said} It brings the measures of {theirs}.", "Open it as a new athlete")
    if not code:
        return Offer(f"{said} It brings no body measures: choose an athlete above first, then open the link again.")
    left = sum(1 for throw in form.throws if throw.thrower)
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
    form, uid, other = form_of(text), new_uid(), ""
    if brings_measures(form):
        owner, code = _new_athlete(store, form.athlete, hand)
        if form.two:
            other, _ = _new_athlete(store, form.other, hand)
    store.act(owner, comparison_acts(form, uid, f"{FROM_LINK}, {today.isoformat()}", other), hand)
    return address(ids.PATH, code, **{ASKED: uid})


def brings_measures(form: Form) -> bool:
    """Whether a link brings the measures of who throws."""
    return any(text.strip() for text in form.athlete.values())


def _new_athlete(store: Store, measures: Mapping[str, str], hand: Hand) -> tuple[str, str]:
    """Make an athlete with measures of today; a code that is taken gets a number behind it."""
    wanted = "".join(one for one in measures["code"].strip() if one.isprintable())[:LONGEST_CODE] or NAMELESS_CODE
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


def _measured(measures: Mapping[str, str]) -> list[Act]:
    texts = {one.model_name: measures[one.name] for one in (*MEASURES, *LENGTHS) if measures[one.name].strip()}
    words = {"sex": measures["sex"], "handedness": measures["handedness"], "still_growing": measures[MARK]}
    return [
        *(Edit(f"athlete.{name}", text) for name, text in words.items() if text.strip()),
        *([Add("measures", texts=texts)] if texts else []),
    ]


def _ball(mass: str) -> str:
    text = mass.strip()
    return text if not text or any(one.isalpha() for one in text) else f"{text} g"
