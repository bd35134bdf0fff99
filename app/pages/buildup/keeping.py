"""What a button came to, kept in the records: stop signs first, which no undo takes back; then the rest as one act."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from app.pages.buildup.found import Found
from app.pages.buildup.making import Act
from app.pages.buildup.noted import rows_of
from app.pages.buildup.record import Record
from app.pages.buildup.rows import KeptPlan, changed_plan, new_plan
from app.records import acts as records
from app.records import stop_signs
from app.records.acts import Acted, Edit, Hand, Put, Remove
from app.records.old_plans import session_uid
from app.records.store import Store
from app.records.tables import new_uid, now
from app.units.systems import METRIC
from model.stop_signs import Signed, StopSign


@dataclass(frozen=True)
class Kept:
    """What became of it.

    Attributes
    ----------
    acted : Acted or None
        None where nothing but stop signs was to be kept.
    plan : str
        uid of a plan that is to be shown now; empty if it is the same.
    """

    acted: Acted | None
    plan: str = ""


def keep(found: Found, act: Act, hand: Hand, session: int | None = None) -> Kept:
    """Keep what a button came to.

    Parameters
    ----------
    found : Found
        As it was before.
    act : Act
    hand : Hand
    session : int, optional
        The session that was kept: what was typed for it is let go of.

    Returns
    -------
    Kept
    """
    store, owner = found.visit.store, found.visit.owner
    record, shown, uid = act.record, found.shown, ""
    made: list[records.Act] = []
    if record is not None and record != found.record:
        there = _of_mark(found, record)
        new = act.fresh or there is None
        uid = new_uid() if new or there is None else there.row.uid
        if act.fresh:
            record = replace(record, mark=uid)
        marks = _marks(found) | {record.mark: uid}
        signs = _keep_signs(store, owner, found.plans.signs, (*record.earlier, *record.signs), marks, hand)
        if new or there is None:
            made += new_plan(record, signs, uid)
        else:
            made += _put(there, False)
            if there.record is not None:
                made += changed_plan(there.record, record, found.data, there.row, signs)
        if shown is not None and shown.row.uid != uid:
            made += _put(shown, True)
    elif act.signs is not None:
        _keep_signs(store, owner, found.plans.signs, act.signs, _marks(found), hand)
    made += [Edit(f"plan.{name}", text) for name, text in act.form.items()]
    if session is not None:
        made += [Remove("setting", row) for row in rows_of(found.data, found.session_key(session))]
    acted = store.act(owner, made, hand, METRIC, found.visit.today) if made else None
    return Kept(acted, uid if shown is None or shown.row.uid != uid else "")


def _of_mark(found: Found, record: Record) -> KeptPlan | None:
    """The plan that this is a state of; that which is shown, where two are the same."""
    same = [one for one in found.plans.plans if one.record is not None and one.record.mark == record.mark]
    return found.shown if found.shown in same else next(iter(same), None)


def _put(plan: KeptPlan, away: bool) -> list[records.Act]:
    if plan.away == away:
        return []
    return [Put("plan", "archived_at", now() if away else None, plan.row.uid)]


def _marks(found: Found) -> dict[str, str]:
    """Uids of the plans, by what their stop signs name them."""
    return {one.record.mark: one.row.uid for one in found.plans.plans if one.record is not None}


def _keep_signs(
    store: Store,
    owner: str,
    there: Mapping[str, StopSign],
    signs: Iterable[StopSign],
    plans: Mapping[str, str],
    hand: Hand,
) -> dict[str, StopSign]:
    """Enter the stop signs that have no row yet, and clear or withdraw those that were; return all, by uid."""
    rows, known = {one.mark: uid for uid, one in there.items()}, dict(there)
    for one in signs:
        uid = rows.get(one.mark)
        if uid is None:
            plan = plans.get(one.plan, "")
            session = session_uid(plan, one.session) if plan and one.session is not None else None
            uid = stop_signs.enter(store, owner, one.sign, one.since, _signed(one.entered), hand, session)
            rows[one.mark] = uid
        if one.cleared is not None and (uid not in known or known[uid].stands):
            stop_signs.clear(store, owner, [uid], _signed(one.cleared), hand)
        if one.withdrawn is not None and (uid not in known or known[uid].stands):
            stop_signs.withdraw(store, owner, uid, _signed(one.withdrawn), hand)
        known[uid] = one
    return known


def _signed(one: Signed) -> stop_signs.Signed:
    return stop_signs.Signed(one.by, one.role, one.on, one.words)
