"""Stop signs of an athlete from all plans so far, and what a plan made anew starts no higher than. Pure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from app.pages.buildup.record import Record
from model.course import most_of
from model.ladder import Most
from model.session_log import new_signs
from model.stop_signs import Signed, StopSign, standing, together

MOST_SIGNS = 400


@dataclass(frozen=True)
class Known:
    """What is known of an athlete from plans so far.

    Attributes
    ----------
    signs : tuple of StopSign
    most : Most or None
        What a plan starts no higher than, where a sign was cleared.
    """

    signs: tuple[StopSign, ...] = ()
    most: Most | None = None

    @property
    def standing(self) -> tuple[StopSign, ...]:
        """The signs that stand."""
        return standing(self.signs)


NOTHING_KNOWN = Known()


def with_signs(record: Record, entered: Mapping[int, Signed] | None = None) -> Record:
    """Give a plan the stop signs that follow from its log.

    Parameters
    ----------
    entered : mapping of int to Signed, optional
        Who entered what was noted of a session.
    """
    found = new_signs(record.log, record.signs, entered or {}, record.mark)
    return replace(record, signs=together(record.signs, found)) if found else record


def known_of(signs: Iterable[StopSign], plans: Sequence[Record]) -> Known:
    """What is known of an athlete before a plan is made.

    Parameters
    ----------
    signs : iterable of StopSign
        All of the athlete.
    plans : sequence of Record
        The athlete's, the oldest first.

    Returns
    -------
    Known
        Without what a plan starts no higher than where no sign was ever cleared.
    """
    found = together(signs, *(one.signs for one in plans), *(one.earlier for one in plans))
    if not any(one.cleared is not None and one.withdrawn is None for one in found):
        return Known(found)
    mosts: dict[str, Most | None] = {}
    for at, record in enumerate(plans):
        if _stopped(record, plans[at + 1 :]):
            most = most_of(record.row, record.log, record.signs, record.mark)
            mosts[record.mark] = most or record.start_most
        elif any(one.notes.painless for one in record.log) and not record.signs:
            mosts = {}  # made after the signs, and thrown without pain since: the next plan begins freely
        elif record.start_most is not None:
            mosts[record.mark] = record.start_most
    least: Most | None = None
    for most in mosts.values():
        least = most.and_no_more_than(least) if most is not None else least
    return Known(found, least)


def _stopped(record: Record, later: Sequence[Record]) -> bool:
    """Whether a sign stopped a plan: of one of its sessions, or one outside of them while it was the newest."""

    def outside(one: StopSign) -> bool:
        return not one.plan and all(one.mark in {sign.mark for sign in other.earlier} for other in later)

    return any(one.withdrawn is None and (one.plan == record.mark or outside(one)) for one in record.signs)
