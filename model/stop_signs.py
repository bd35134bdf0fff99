"""Stop signs of an athlete: entered or found, and then cleared or withdrawn. None is ever taken out.

A sign stands until a licensed clinician clears it, or somebody records whose decision it was. One entered by mistake is
withdrawn, with words; both stay.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from model.checks import InputError, check_choice
from model.session_rules import ALL_SIGNS, URGENT_SIGNS

CLINICIAN = "clinician"
ROLES = (CLINICIAN, "trainer", "coach", "parent", "athlete", "other")
"""Who enters or decides something: a licensed clinician; an athletic trainer; a coach; a parent; the athlete."""
CLEARING_ROLES = tuple(role for role in ROLES if role != "athlete")


@dataclass(frozen=True)
class Signed:
    """That somebody decided or recorded something.

    Parameters
    ----------
    by : str
        Initials.
    role : str
        One of `ROLES`.

    Raises
    ------
    InputError
        If there are no initials or the role is unknown.
    """

    by: str
    role: str
    on: date
    words: str = ""

    def __post_init__(self) -> None:
        if not self.by.strip():
            raise InputError("by", self.by, "initials")
        check_choice("role", self.role, ROLES)


@dataclass(frozen=True)
class StopSign:
    """A stop sign.

    Attributes
    ----------
    sign : str
        A key of `ALL_SIGNS`.
    since : date
        The day from which it holds: that of the session it was noted of, however late it was entered.
    session : int or None
        Place in its plan's log of the session it belongs to, from 0; None for one outside of a session.
    plan : str
        What tells the plan of that session from the athlete's others.
    """

    sign: str
    since: date
    session: int | None
    entered: Signed
    cleared: Signed | None = None
    withdrawn: Signed | None = None
    plan: str = ""

    def __post_init__(self) -> None:
        check_choice("sign", self.sign, ALL_SIGNS)

    @property
    def stands(self) -> bool:
        """Whether it was neither cleared nor withdrawn."""
        return self.cleared is None and self.withdrawn is None

    @property
    def urgent(self) -> bool:
        """Whether it asks for urgent care."""
        return self.sign in URGENT_SIGNS

    @property
    def mark(self) -> tuple[object, ...]:
        """What tells it from others. A session has each sign once; outside of one it may be entered anew."""
        return self.sign, self.since, self.session, self.plan, self.entered if self.session is None else None


def standing(signs: Iterable[StopSign]) -> tuple[StopSign, ...]:
    """Find the signs that stand.

    Returns
    -------
    tuple of StopSign
        The urgent ones first.
    """
    return tuple(sorted((one for one in signs if one.stands), key=lambda one: not one.urgent))


def cleared(signs: Iterable[StopSign], by: Signed) -> tuple[StopSign, ...]:
    """Clear every sign that stands.

    Parameters
    ----------
    by : Signed
        Its words say whose decision it was, unless a licensed clinician clears it.

    Raises
    ------
    InputError
        If the athlete would clear it, the day is before a sign's, or somebody else than a clinician gives no words.
    """
    signs = tuple(signs)
    if by.role not in CLEARING_ROLES:
        raise InputError("role", by.role, "a licensed clinician, or whoever records whose decision it was")
    if by.role != CLINICIAN and not by.words.strip():
        raise InputError("words", by.words, "whose decision it was")
    for one in standing(signs):
        if by.on < one.since:
            raise InputError("on", by.on.isoformat(), f"{one.since} or later, the day of the stop sign")
    return tuple(replace(one, cleared=by) if one.stands else one for one in signs)


def withdrawn(signs: Iterable[StopSign], place: int, by: Signed) -> tuple[StopSign, ...]:
    """Withdraw a sign that was entered by mistake; it stays, with who withdrew it and why.

    Parameters
    ----------
    place : int
        Of the sign among them, from 0.

    Raises
    ------
    InputError
        If there is no such sign that stands, or no words.
    """
    signs = tuple(signs)
    if not 0 <= place < len(signs) or not signs[place].stands:
        raise InputError("sign", place + 1, "a stop sign that stands")
    if not by.words.strip():
        raise InputError("words", by.words, "why it is withdrawn")
    return (*signs[:place], replace(signs[place], withdrawn=by), *signs[place + 1 :])


def together(*groups: Iterable[StopSign]) -> tuple[StopSign, ...]:
    """Join signs from several places, each once; what was cleared or withdrawn in any of them is.

    Returns
    -------
    tuple of StopSign
        In the order of their days.
    """
    found: dict[tuple[object, ...], StopSign] = {}
    for one in (one for group in groups for one in group):
        known = found.get(one.mark)
        found[one.mark] = one if known is None or (known.stands and not one.stands) else known
    return tuple(sorted(found.values(), key=lambda one: one.since))
