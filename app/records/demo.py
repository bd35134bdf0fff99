"""The demo: invented athletes in a database of their own, made anew each time it is asked for."""

import atexit
import hashlib
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from itertools import groupby
from typing import Any

from app.demo import DemoAthlete, load_demo, load_readings
from app.records.acts import Hand
from app.records.document import (
    AthleteIn,
    BallIn,
    ComparisonIn,
    Document,
    MeasuresIn,
    NoteIn,
    ReadingIn,
    ReferenceIn,
    SessionIn,
    TeamIn,
    ThrowIn,
)
from app.records.field_list import field_of
from app.records.incoming import take_in
from app.records.looking import look_through
from app.records.opening import open_store, temporary_place
from app.records.store import Store
from model.ceilings import KINDS

MAKER = Hand("demo")
OWN_BALL = "own ball"
BEGAN = datetime(2026, 1, 13, tzinfo=UTC)
"""The first day of the demo's training block."""


def passing_store(demo: bool) -> Store:
    """Open records that are gone when the program ends: the demo, made anew, or empty ones."""
    place = temporary_place()
    atexit.register(shutil.rmtree, place.folder, ignore_errors=True)
    store = open_store(place)
    if demo:
        make_demo(store)
    return store


@contextmanager
def demo_store() -> Iterator[Store]:
    """Open the demo, made anew; its files are gone after the block."""
    place = temporary_place()
    try:
        store = open_store(place)
        try:
            make_demo(store)
            yield store
        finally:
            store.close()
    finally:
        shutil.rmtree(place.folder, ignore_errors=True)


def make_demo(store: Store) -> None:
    """Fill empty records with the demo, and mark them as invented.

    Parameters
    ----------
    store : Store
    """
    store.mark_invented()
    take_in(store, look_through(store, demo_document(date.today())), MAKER)


def demo_document(measured: date | None = None) -> Document:
    """The demo data as a document: measures, balls, reference, readings, a comparison, and what was thrown.

    Parameters
    ----------
    measured : date, optional
        Day of the measures: who is invented today is as old today as the demo says. Without, that of the reference.

    Returns
    -------
    Document
    """
    demo = load_demo()
    rack = [
        BallIn(
            uid=_uid("ball", ball.ball),
            name=ball.ball,
            position=place,
            **_read("ball", mass_kg=ball.mass_g, diameter_m=ball.diameter_mm),
        )
        for place, ball in enumerate(one for one in demo.rack if one.ball != OWN_BALL)
    ]
    athletes = [_athlete(one, {ball.mass_kg: ball for ball in rack}, measured) for one in demo.athletes]
    return Document(whole=True, team=TeamIn(balls=rack), athletes=athletes)


def _uid(*parts: object) -> str:
    """The same for the same: a demo that is made anew and taken in twice adds nothing."""
    return "d" + hashlib.sha1("/".join(map(str, parts)).encode(), usedforsecurity=False).hexdigest()[:22]


def _read(table: str, **texts: str) -> dict[str, Any]:
    """Values of typed texts; empty ones are left out."""
    return {name: field_of(f"{table}.{name}").parse(text).value for name, text in texts.items() if text.strip()}


def _athlete(one: DemoAthlete, rack: dict[float | None, BallIn], measured: date | None) -> AthleteIn:
    own = BallIn(
        uid=_uid(one.athlete, "ball"),
        name="own",
        **_read("ball", mass_kg=one.own_ball_mass_g, diameter_m=one.own_ball_diameter_mm),
    )
    balls = rack | {own.mass_kg: own}
    day = date.fromisoformat(one.reference_date)
    measures = MeasuresIn(
        uid=_uid(one.athlete, "measures"),
        day=measured or day,
        **_read(
            "measures",
            age_years=one.age_years,
            stature_m=one.stature_cm,
            body_mass_kg=one.body_mass_kg,
            upper_arm_length_m=one.upper_arm_length_cm,
            forearm_length_m=one.forearm_length_cm,
            hand_length_m=one.hand_length_cm,
        ),
    )
    kind = next(key for key, words in KINDS.items() if words.startswith(one.reference_kind))
    speed = _read("reference", speed_m_s=one.own_speed_m_s)
    reference = ReferenceIn(uid=_uid(one.athlete, "reference"), ball=own.uid, day=day, kind=kind, **speed)
    return AthleteIn(
        uid=_uid(one.athlete),
        code=one.athlete,
        sex=one.sex,
        handedness=one.handedness,
        invented=True,
        created=BEGAN,
        own_ball=own,
        measures=[measures],
        references=[reference],
        readings=list(_readings(one.athlete, balls)),
        comparisons=[_comparison(one, kind, day)],
        sessions=list(_sessions(one.athlete, balls)),
        notes=[NoteIn(uid=_uid(one.athlete, "note"), day=day, text=one.note)],
    )


def _readings(code: str, balls: dict[float | None, BallIn]) -> Iterator[ReadingIn]:
    for place, one in enumerate(load_readings()):
        if one.athlete == code:
            values = _read("reading", speed_m_s=one.speed_m_s, asked_effort=one.asked_effort)
            if values.get("asked_effort") == 1.0:
                del values["asked_effort"]  # full effort goes without saying
            ball = balls[_read("ball", mass_kg=one.ball_mass_g)["mass_kg"]]
            yield ReadingIn(uid=_uid(code, "reading", place), ball=ball.uid, day=date.fromisoformat(one.date), **values)


def _comparison(one: DemoAthlete, kind: str, day: date) -> ComparisonIn:
    """The reference throw, then what was thrown on the block's last day."""
    demo = load_demo()
    thrown = [(mass, demo.diameter_of(mass), speed) for mass, speed in demo.last_day(one.athlete)]
    own_throw = (one.own_ball_mass_g, one.own_ball_diameter_mm, one.own_speed_m_s)
    throws = [
        ThrowIn(
            uid=_uid(one.athlete, "throw", place),
            position=place,
            number=float(speed),
            **_read("throw", mass_kg=mass, diameter_m=diameter),
        )
        for place, (mass, diameter, speed) in enumerate([own_throw, *thrown][:8])
    ]
    return ComparisonIn(
        uid=_uid(one.athlete, "comparison"),
        name="Last day of the block",
        reference=throws[0].uid,
        kind=kind,
        day=day,
        throws=throws,
    )


def _sessions(code: str, balls: dict[float | None, BallIn]) -> Iterator[SessionIn]:
    """What was thrown, a line for each day and ball: how often, and the fastest."""
    own = sorted(
        (one for one in load_demo().throws if one.athlete == code), key=lambda one: (one.date, one.ball_mass_g)
    )
    for place, ((day, mass), thrown) in enumerate(groupby(own, key=lambda one: (one.date, one.ball_mass_g))):
        speeds = [float(one.speed_m_s) for one in thrown]
        ball = balls[_read("ball", mass_kg=mass)["mass_kg"]]
        body = {
            "ball": {"mass_kg": ball.mass_kg, "diameter_m": ball.diameter_m},
            "throws": len(speeds),
            "top_speed_m_s": max(speeds),
        }
        yield SessionIn(uid=_uid(code, "session", place), position=place, day=date.fromisoformat(day), body=body)
