"""The demo's invented athletes as the records have them, with what a test types: read anew, kept nowhere."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from functools import cache

from app.records.acts import Act, Edit, Hand, Remove
from app.records.demo import MAKER, demo_document
from app.records.incoming import take_in
from app.records.looking import look_through
from app.records.opening import open_store, temporary_place
from app.records.reads import AthleteData, athlete_data
from app.records.store import Store
from app.records.tables import Ball

TODAY = date(2026, 3, 1)
"""The day of these tests, after the demo's last reading; the measures were taken on it."""


@contextmanager
def _store(file: bytes = b"") -> Iterator[Store]:
    place = temporary_place()
    if file:
        place.file.write_bytes(file)
    store = open_store(place)
    try:
        yield store
    finally:
        store.close()
        shutil.rmtree(place.folder, ignore_errors=True)


@cache
def _untouched() -> bytes:
    """The database's file."""
    with _store() as store:
        store.mark_invented()
        take_in(store, look_through(store, demo_document(TODAY)), MAKER)
        store.close()  # what is in the write-ahead log goes into the file
        return store.database.place.file.read_bytes()


def kept(code: str = "W01", *edits: Edit, read: bool = True, **columns: dict[str, str]) -> AthleteData:
    """What is kept of a demo athlete once something is typed.

    Parameters
    ----------
    code : str
    *edits : Edit
    read : bool
        Whether radar readings were made.
    **columns : dict of str to str
        Texts by column, for the athlete's row of a table: `reference={"kind": "estimated"}`.

    Returns
    -------
    AthleteData
    """
    return _kept(code, edits, read, tuple((table, *texts.items()) for table, texts in columns.items()))


@cache
def _kept(code: str, edits: tuple[Edit, ...], read: bool, columns: tuple[tuple, ...]) -> AthleteData:
    with _store(_untouched()) as store:
        data = athlete_data(store, code)
        rows = {"reference": data.reference, "measures": data.measures[-1], "ball": data.own_ball}
        acts: list[Act] = [] if read else [Remove("reading", row.uid) for row in data.readings]
        for table, *texts in columns:
            uid = rows[table].uid if table in rows else ""
            acts += [Edit(f"{table}.{column}", text, uid) for column, text in texts]
        if acts or edits:
            store.act(data.athlete.uid, [*acts, *edits], Hand("test"))
        return athlete_data(store, code)


def with_rack(data: AthleteData, *balls: tuple[float, float]) -> AthleteData:
    """The same with other balls of the team: mass (kg) and diameter (m) of each; a known one keeps its readings."""
    known = {one.mass_kg: one.id for one in data.balls.values()}
    own = data.own_ball
    made = {own.id: own} if own is not None else {}
    for number, (mass_kg, diameter_m) in enumerate(balls, start=1000):
        ball = Ball(id=known.get(mass_kg, number), uid=f"b{number}", mass_kg=mass_kg, diameter_m=diameter_m)
        ball.typed, ball.draft = {}, {}
        made.setdefault(ball.id, ball)
    return replace(data, balls=made)
