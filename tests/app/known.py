"""What is kept of people of the tests' own, without a database; of the demo's throwers see `kept_demo`."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from app.records import tables
from app.records.reads import AthleteData

TODAY = date(2026, 3, 1)
"""Before the birthdays that the invented throwers' ages would go on to."""

ADULT = {"age_years": 25.0, "stature_m": 1.88, "body_mass_kg": 90.0}
MALE_RIGHT = {"sex": "male", "handedness": "right"}
DIAMETER_M = 0.073


def row(table: Any, number: int, *, draft: Mapping[str, str] | None = None, **values: Any) -> Any:
    """A row as it is read, with the texts that were refused."""
    made = {"id": number, "uid": f"{table.__tablename__}{number}", "typed": {}, "draft": dict(draft or {})}
    return table(**(made | values))


def reading(number: int, ball: int, speed_m_s: float | None, **more: Any) -> tables.Reading:
    """A reading of today as the radar showed it."""
    usual = {"ball_id": ball, "day": TODAY, "speed_m_s": speed_m_s, "speed_is": "radar"}
    return row(tables.Reading, number, **(usual | more))


def known(
    code: str = "X1",
    *,
    measures: Mapping[str, float] | None = ADULT,
    about: Mapping[str, Any] = MALE_RIGHT,
    own_kg: float | None = 0.145,
    reference_m_s: float | None = 37.0,
    reference: Mapping[str, Any] | None = None,
    speeds: Mapping[float, Iterable[float]] | None = None,
    settings: Mapping[str, Any] | None = None,
) -> AthleteData:
    """An athlete of the tests' own.

    Measures are of today, in SI, or none; the reference throw is with the own ball; of each ball's mass (kg) its
    readings (m/s); settings by path, as they are kept.
    """
    own = None if own_kg is None else row(tables.Ball, 1, athlete_id=1, mass_kg=own_kg, diameter_m=DIAMETER_M)
    balls = {} if own is None else {1: own}
    read: list[tables.Reading] = []
    for number, (mass, values) in enumerate((speeds or {}).items(), start=2):
        if mass != own_kg:
            balls[number] = row(tables.Ball, number, mass_kg=mass, diameter_m=DIAMETER_M, name="")
        place = 1 if mass == own_kg else number
        read += [reading(len(read) + i, place, value) for i, value in enumerate(values, start=1)]
    thrown = {"ball_id": 1 if own is not None else None, "speed_m_s": reference_m_s, "kind": "measured"}
    throw = row(tables.Reference, 1, **(thrown | dict(reference or {})))
    made = AthleteData(
        row(tables.Athlete, 1, code=code, version=1, **about),
        () if measures is None else (row(tables.Measures, 1, day=TODAY, **measures),),
        own,
        tuple(read),
        () if reference_m_s is None else (throw,),
        comparisons=(),
        throws=(),
        limits={},
        plans=(),
        sessions=(),
        stop_signs=(),
        notes=(),
        setting_rows={},
        balls=balls,
    )
    return with_settings(made, settings or {})


def with_settings(data: AthleteData, settings: Mapping[str, Any], refused: Iterable[str] = ()) -> AthleteData:
    """The same, with settings by path, as they are kept; of some a text was refused."""
    rows = {path: row(tables.Setting, 1, key=path, value=value) for path, value in settings.items()}
    rows |= {path: row(tables.Setting, 1, key=path, value=None, draft={"value": "lots"}) for path in refused}
    return replace(data, setting_rows={**data.setting_rows, **rows})
