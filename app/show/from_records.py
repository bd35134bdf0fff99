"""From the records to the athlete that the pages compute with: measures, own ball and reference, readings, choices."""

import math
from datetime import date

from app.records import tables
from app.records.field_list import FIELDS
from app.records.reads import AthleteData, age_on
from app.show.counted import can_count, counts, readings_since
from app.show.kept import setting_of, value_of
from app.show.subject import Case, Choices, Read, Reference
from app.units.systems import METRIC, System
from model.ball import Ball
from model.flight import ANGLE_LIMIT, Launch
from model.person import MEASURED_LENGTHS, PERSON_LIMITS, Person
from model.radar import Radar
from model.speed_readings import RadarReading

AGE_DECIMALS = 10.0  # an age that has gone on since its day is cut to a tenth of a year, so that nobody is made older


def case_of(data: AthleteData | None, today: date, system: System = METRIC) -> Case:
    """Gather what is known of an athlete of the records; of nobody, where there is none."""
    if data is None:
        return Case(system=system)
    person, missing = person_of(data, today)
    since = readings_since(data, today)
    read = [one for one in data.readings if counts(one, since)]
    with_ball = {one.ball_id for one in read}
    known = {
        row.id: Ball(mass, diameter)
        for row in sorted(data.balls.values(), key=lambda row: (row.mass_kg or math.inf, row.id))
        if (row.archived_at is None or row.id in with_ball)
        and (mass := value_of(row, "mass_kg")) is not None
        and (diameter := value_of(row, "diameter_m")) is not None
    }
    readings = tuple(_read(one, ball) for row, ball in known.items() for one in read if one.ball_id == row)
    return Case(
        person,
        data.athlete.code,
        missing,
        reference_of(data),
        tuple(known.values()),
        tuple(one for one in readings if one is not None),
        _choices(data, {data.balls[number].uid: ball for number, ball in known.items()}),
        system,
    )


def person_of(data: AthleteData, today: date) -> tuple[Person | None, tuple[str, ...]]:
    """The person as measured up to today, or None; and the labels of the fields that are empty or were refused.

    Of each measure the newest counts. Age goes on from its day.
    """
    athlete, measures, refused = data.athlete, dict[str, float](), set[str]()
    known = sorted(data.measures, key=lambda row: (row.day, row.id))
    for row in [*(one for one in known[::-1] if one.day > today), *(one for one in known if one.day <= today)]:
        for name in PERSON_LIMITS:
            value = _age(row, today) if name == "age_years" else value_of(row, name)
            if value is not None:
                measures[name] = value
                refused.discard(name)
            elif name in row.draft:
                refused.add(name)
    sex, hand = (value_of(athlete, name) for name in ("sex", "handedness"))
    needed = ("age_years", "stature_m", "body_mass_kg")
    missing = [path for path, value in (("athlete.sex", sex), ("athlete.handedness", hand)) if value is None]
    missing += [f"measures.{name}" for name in needed if name not in measures or name in refused]
    missing += [f"measures.{name}" for name in MEASURED_LENGTHS if name in refused]
    if missing:
        return None, tuple(FIELDS[path].label for path in missing)
    marked = bool(value_of(athlete, "still_growing"))
    return Person(sex=sex, handedness=hand, still_growing=marked, **measures), ()


def _age(row: tables.Measures, today: date) -> float | None:
    """The age (years) as it was typed on its day; later cut to a tenth of a year."""
    age = age_on(row, today)
    if age is None or "age_years" in row.draft:
        return None
    age = row.age_years if row.day >= today else math.floor(age * AGE_DECIMALS) / AGE_DECIMALS
    limit = PERSON_LIMITS["age_years"]
    return min(max(age or 0.0, limit.low), limit.high)  # who was typed as 99 grows no older than accepted


def reference_of(data: AthleteData) -> Reference:
    """The own ball, else the one that the newest reference names, and the reference's speed."""
    row, known = data.own_ball, data.reference
    if row is None and known is not None and known.ball_id is not None:
        row = data.balls.get(known.ball_id)
    mass, diameter = value_of(row, "mass_kg"), value_of(row, "diameter_m")
    if mass is None or diameter is None:
        return Reference()
    ball = Ball(mass, diameter)
    if known is None:
        return Reference(ball, found=True)
    return Reference(ball, value_of(known, "speed_m_s"), known.kind, value_of(known, "day"), True)


def _read(one: tables.Reading, ball: Ball) -> Read | None:
    if not can_count(one) or one.speed_m_s is None:
        return None
    effort = 1.0 if one.asked_effort is None else one.asked_effort
    reading = RadarReading(ball.mass_kg, one.speed_m_s, effort, on=one.day)
    return Read(reading, ball, one.speed_is == "release")


def _choices(data: AthleteData, balls: dict[str, Ball]) -> Choices:
    names = ("own_speed_m_s", "basis", "joint", "cap_joint", "cap_readout", "cap_of", "cap_share")
    chosen = {name: setting_of(data, f"profile.{name}") for name in names}
    far, angle, radar = (setting_of(data, f"profile.radar{part}") for part in ("_distance_m", "_angle_deg", ""))
    return Choices(
        **chosen,
        corrected=bool(radar),
        radar=None if far is None or angle is None else Radar(distance_m=far, angle_rad=math.radians(angle)),
        throw_ball=balls.get(setting_of(data, "profile.throw_ball") or ""),
        distance_m=setting_of(data, "profile.throw_distance_m"),
        launch=_launch(data),
    )


def _launch(data: AthleteData) -> Launch | None:
    height, angle = (setting_of(data, f"profile.throw_{name}") for name in ("height_m", "angle_deg"))
    if height is None:
        return None
    if setting_of(data, "profile.throw_farthest"):
        return Launch(height, None)
    if angle is None:
        return None
    # 90 degrees typed may come out a rounding error above the limit in radians
    return Launch(height, min(ANGLE_LIMIT.high, max(ANGLE_LIMIT.low, math.radians(angle))))
