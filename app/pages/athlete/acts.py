"""What the buttons of the page do to the records. Pure: from a visit to acts."""

import math
from typing import Any

from app.bind import ids as bound
from app.bind.edit import Doing, dom_id
from app.bind.visit import Visit
from app.records.acts import TEAM, Add, Edit, Remove
from app.records.fields import EARLIEST_DAY
from app.records.reads import age_on
from app.records.tables import new_uid
from model.ball import DEFAULT_DIAMETER_M
from model.person import PERSON_LIMITS

TENTHS = 10.0  # an age that has gone on since its day is cut to a tenth of a year, so that nobody is made older


def mass_cell(ball: str) -> str:
    """The id of the field of a ball's mass in the grid."""
    return f"ball-mass-{ball}"


def field_of_row(visit: Visit, path: str, row: str) -> str:
    """The id of a bound field, as the browser has it."""
    return dom_id(bound.field_id(visit.owner, path, row, visit.system.key))


def new_measures(visit: Visit, _row: str, _value: Any) -> Doing:
    """Measures of today, which start with those that were."""
    kept = visit.data.measures if visit.data else ()
    uid, last = new_uid(), kept[-1] if kept else None
    if last is not None and last.day == visit.today:
        return Doing(said="The measures of today are already there: change them.")
    values: dict[str, Any] = {"day": visit.today}
    for name in PERSON_LIMITS if last is not None else ():
        found = getattr(last, name)
        if name == "age_years" and last is not None and (age := age_on(last, visit.today)) is not None:
            found = math.floor(age * TENTHS) / TENTHS
        if found is not None:
            values[name] = found
    focus = field_of_row(visit, "measures.age_years", uid)
    said = "New measures, of today: they start with those before. Change what has changed."
    return Doing([Add("measures", values=values, uid=uid)], focus, said if last is not None else "")


def own_ball(visit: Visit, _row: str, _value: Any) -> Doing:
    """The athlete's own ball."""
    uid = new_uid()
    focus = field_of_row(visit, "ball.mass_kg", uid)
    return Doing([Add("ball", values={"diameter_m": DEFAULT_DIAMETER_M}, uid=uid)], focus)


def new_reference(visit: Visit, _row: str, _value: Any) -> Doing:
    """A reference throw of today, with the own ball."""
    uid, own = new_uid(), visit.data.own_ball if visit.data else None
    values: dict[str, Any] = {"day": visit.today, "kind": "measured"} | ({"ball": own.uid} if own else {})
    return Doing([Add("reference", values=values, uid=uid)], field_of_row(visit, "reference.speed_m_s", uid))


def add_ball(_visit: Visit, _row: str, _value: Any) -> Doing:
    """A ball of the team, whose mass is typed in the grid."""
    uid = new_uid()
    add = Add("ball", values={"diameter_m": DEFAULT_DIAMETER_M}, uid=uid)
    return Doing([add], mass_cell(uid), "A ball for the whole team: type its mass.", TEAM)


def remove_ball(_visit: Visit, _row: str, value: Any) -> Doing:
    """Take a ball without readings out of the team's again."""
    return Doing([Remove("ball", str(value))], owner=TEAM)


def clear(visit: Visit, _row: str, _value: Any) -> Doing:
    """Take all readings out."""
    found = visit.data.readings if visit.data else ()
    if not found:
        return Doing(said="There are no readings to clear.")
    return Doing([Remove("reading", one.uid) for one in found], said=f"{len(found)} readings cleared. Undo keeps them.")


def all_readings(_visit: Visit, _row: str, _value: Any) -> Doing:
    """Let every reading count, however old."""
    return Doing([Edit("profile.since", EARLIEST_DAY.isoformat())])


def a_season(_visit: Visit, _row: str, _value: Any) -> Doing:
    """Let the readings of the last season count, as where nothing was chosen."""
    return Doing([Edit("profile.since", "")])


def add_note(visit: Visit, _row: str, _value: Any) -> Doing:
    """A note of today."""
    uid = new_uid()
    return Doing([Add("note", values={"day": visit.today}, uid=uid)], field_of_row(visit, "note.text", uid))


def remove_reading(_visit: Visit, _row: str, value: Any) -> Doing:
    """Take out the reading that a button of the dated list is of."""
    return Doing([Remove("reading", str(value))], said="The reading was removed. Undo brings it back.")


def _remover(table: str) -> Any:
    def remove(_visit: Visit, row: str, _value: Any) -> Doing:
        return Doing([Remove(table, row)])

    return remove


NEW_MEASURES, OWN_BALL, NEW_REFERENCE = "athlete/new-measures", "athlete/own-ball", "athlete/new-reference"
ADD_BALL, REMOVE_BALL, CLEAR = "athlete/add-ball", "athlete/remove-ball", "athlete/clear"
ALL_READINGS, A_SEASON, ADD_NOTE = "athlete/all-readings", "athlete/a-season", "athlete/add-note"
REMOVE_READING, REMOVE_MEASURES = "athlete/remove-reading", "athlete/remove-measures"
REMOVE_REFERENCE, REMOVE_NOTE = "athlete/remove-reference", "athlete/remove-note"

DOERS = {
    NEW_MEASURES: new_measures,
    OWN_BALL: own_ball,
    NEW_REFERENCE: new_reference,
    ADD_BALL: add_ball,
    REMOVE_BALL: remove_ball,
    CLEAR: clear,
    ALL_READINGS: all_readings,
    A_SEASON: a_season,
    ADD_NOTE: add_note,
    REMOVE_READING: remove_reading,
    REMOVE_MEASURES: _remover("measures"),
    REMOVE_REFERENCE: _remover("reference"),
    REMOVE_NOTE: _remover("note"),
}
"""What the page's buttons do, by the name in their ids."""
