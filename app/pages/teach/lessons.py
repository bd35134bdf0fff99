"""The teaching sessions of the records: which one is shown, and what is done to them. They belong to the team."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from types import MappingProxyType
from typing import Any

from dash.exceptions import PreventUpdate

from app.bind.edit import Doer, Doing, dom_id
from app.bind.ids import PICK, act_id
from app.bind.visit import Visit
from app.pages.teach.answers import balls_of
from app.pages.teach.session import Session, ball_of, body_of, moved, session_of, switched
from app.records.acts import TEAM, Act, Add, Put, Remove
from app.records.tables import LONGEST_NAME, Lesson, new_uid
from app.show.from_records import case_of

LESSON = "lesson"
"""What the session's uid is called in the address."""
GONE = "This session was removed in the meantime."
BALLS = ("second", "third")


def lesson_shown(visit: Visit) -> Lesson | None:
    """The session in the address, or the newest; None if there is none yet."""
    lessons = visit.team.lessons
    asked = visit.asked.get(LESSON)
    return next((one for one in lessons if one.uid == asked), lessons[-1] if lessons else None)


def session_in(row: Lesson | None) -> tuple[Session, bool]:
    """The set-up of a session, and whether it could be read; else, and where there is none, the usual one."""
    found = session_of(row.body) if row is not None and row.body else Session()
    return found or Session(), found is not None


def name_of(row: Lesson | None) -> str:
    """What a session is called."""
    return (row.name if row is not None else "") or "unnamed"


def free_name(visit: Visit) -> str:
    """A name that no session has yet."""
    taken = {one.name for one in visit.team.lessons}
    return next(name for n in range(1, len(taken) + 2) if (name := f"Session {n}") not in taken)


def added(session: Session, name: str) -> Add:
    """The act that adds a session."""
    return Add("lesson", {"name": name[:LONGEST_NAME]}, {"body": body_of(session)}, new_uid())


def _changed(visit: Visit, uid: str, change: Callable[[Session], Session]) -> tuple[list[Act], str]:
    """The act of a change, and the session's uid; where there is no session yet, one is made."""
    row = next((one for one in visit.team.lessons if one.uid == uid), None)
    if uid and row is None:
        return [], ""
    session, _ = session_in(row)
    made = change(session)
    if made == session:
        raise PreventUpdate
    if row is not None:
        return [Put("lesson", "body", body_of(made), uid)], uid
    new = added(made, free_name(visit))
    return [new], new.uid


def step_row(uid: str, step: str) -> str:
    """The row of a button of the list of steps: session and step."""
    return f"{uid}/{step}"


def _step(move: str, visit: Visit, row: str, _: Any) -> Doing:
    uid, _, step = row.partition("/")
    after: list[Session] = []

    def change(session: Session) -> Session:
        made = switched(session, step) if move == "switch" else moved(session, step, -1 if move == "up" else 1)
        after.append(made)
        return made

    acts, uid = _changed(visit, uid, change)
    if not acts:
        return Doing(said=GONE)
    order = after[0].order
    at_an_end = step in (order[0][0], order[-1][0])  # there the button cannot be pressed again
    goes_on = {"up": "down", "down": "up"}.get(move, move) if at_an_end else move
    return Doing(acts, dom_id(act_id(TEAM, f"teach/{goes_on}", step_row(uid, step))), owner=TEAM)


def _ball(which: str, visit: Visit, uid: str, value: Any) -> Doing:
    ball, case = ball_of(value), case_of(visit.data, visit.today)
    if ball is None:
        raise PreventUpdate

    def change(session: Session) -> Session:
        if ball == balls_of(session, case)[BALLS.index(which)]:
            return session
        return replace(session, second=ball) if which == "second" else replace(session, third=ball)

    return _picked(visit, uid, f"teach/{which}", change)


def _named(visit: Visit, uid: str, value: Any) -> Doing:
    return _picked(visit, uid, "teach/named", lambda session: replace(session, named=value == "yes"))


def _picked(visit: Visit, uid: str, do: str, change: Callable[[Session], Session]) -> Doing:
    acts, uid = _changed(visit, uid, change)
    if not acts:
        return Doing(said=GONE)
    return Doing(acts, dom_id(act_id(TEAM, do, uid, kind=PICK)), owner=TEAM)


def _choose(visit: Visit, uid: str, value: Any) -> Doing:
    if value == uid or value not in {one.uid for one in visit.team.lessons}:
        raise PreventUpdate
    return Doing(go=visit.address(visit.path, **{LESSON: value}))


def _new(visit: Visit, _: str, __: Any) -> Doing:
    made = added(Session(), free_name(visit))
    return Doing([made], owner=TEAM, go=visit.address(visit.path, **{LESSON: made.uid}))


def _copy(visit: Visit, uid: str, _: Any) -> Doing:
    row = next((one for one in visit.team.lessons if one.uid == uid), None)
    if row is None:
        return Doing(said=GONE)
    ending = ", copy"
    made = added(session_in(row)[0], name_of(row)[: LONGEST_NAME - len(ending)] + ending)
    return Doing([made], owner=TEAM, go=visit.address(visit.path, **{LESSON: made.uid}))


def _remove(_: Visit, uid: str, __: Any) -> Doing:
    new = dom_id(act_id(TEAM, "teach/new"))
    return Doing([Remove("lesson", uid)], new, "The session was removed; Undo brings it back.", TEAM)


DOERS: MappingProxyType[str, Doer] = MappingProxyType(
    {
        "teach/choose": _choose,
        "teach/new": _new,
        "teach/copy": _copy,
        "teach/remove": _remove,
        "teach/named": _named,
        **{f"teach/{which}": partial(_ball, which) for which in BALLS},
        **{f"teach/{move}": partial(_step, move) for move in ("up", "down", "switch")},
    }
)
"""What the buttons and choices of the page do."""
