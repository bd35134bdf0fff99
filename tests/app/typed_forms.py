"""Forms as they are typed, of the demo's invented throwers and empty ones, for tests that need no records."""

from collections.abc import Iterable
from dataclasses import replace

from app.demo import Demo, DemoAthlete, DemoReading, RackBall, load_readings
from app.show.profile_form import BallRow, Cell, ProfileForm
from app.show.throw_form import KINDS, MOST_THROWS, Form, ThrowForm, measures_of


def empty_form() -> Form:
    """Return the form of a first visit: two throws to fill in, the first of them the reference."""
    return Form(throws=(ThrowForm("t1"), ThrowForm("t2")), reference="t1")


def demo_form(demo: Demo, athlete: DemoAthlete) -> Form:
    """Fill the form with an invented thrower: the reference throw, then what they threw on the block's last day."""
    own = (athlete.own_ball_mass_g, athlete.own_ball_diameter_mm, athlete.own_speed_m_s)
    thrown = [(mass, demo.diameter_of(mass), speed) for mass, speed in demo.last_day(athlete.athlete)]
    throws = tuple(ThrowForm(f"t{i}", *typed) for i, typed in enumerate([own, *thrown][:MOST_THROWS], start=1))
    kind = next((key for key, words in KINDS.items() if words == athlete.reference_kind), "estimated")
    return Form(measures_of(athlete), throws, "t1", kind, athlete.reference_date)


def copy_throw(form: Form, key: str) -> Form:
    """Put a copy of a throw right after it."""
    place = form.place(key)
    if place < 0 or len(form.throws) >= MOST_THROWS:
        return form
    copied = replace(form.throws[place], key=f"t{1 + len(form.throws)}")
    return replace(form, throws=(*form.throws[: place + 1], copied, *form.throws[place + 1 :]))


def remove_throw(form: Form, key: str) -> Form:
    """Take a throw out. If it was the reference, the first of those left becomes the reference."""
    left = tuple(throw for throw in form.throws if throw.key != key)
    reference = form.reference
    if reference == key:
        reference = left[0].key if left else ""
    return replace(form, throws=left, reference=reference, headline="" if form.headline == key else form.headline)


def rack_form(rack: Iterable[RackBall]) -> ProfileForm:
    """Make a form without readings for a rack of balls."""
    balls = {ball.mass_g: ball.diameter_mm for ball in rack}
    masses = sorted(balls, key=float)
    return ProfileForm(tuple(BallRow(f"b{i}", mass, balls[mass]) for i, mass in enumerate(masses, start=1)))


def with_readings(form: ProfileForm, readings: Iterable[DemoReading]) -> ProfileForm:
    """Fill in the readings of a demo thrower."""
    cells: dict[str, list[Cell]] = {}
    for reading in readings:
        effort = "" if reading.asked_effort == "100" else reading.asked_effort
        cells.setdefault(reading.ball_mass_g, []).append(Cell(reading.speed_m_s, reading.date, effort))
    rows = tuple(replace(row, cells=tuple(cells.get(row.mass_g, row.cells))) for row in form.rows)
    return replace(form, rows=rows)


def readings_form(demo: Demo, code: str) -> ProfileForm:
    """The readings of an invented thrower with the balls of the rack."""
    own = [reading for reading in load_readings() if reading.athlete == code]
    return with_readings(rack_form(demo.rack), own)
