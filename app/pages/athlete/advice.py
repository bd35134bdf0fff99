"""Which ball to throw next; what an asked effort really is; what a distance comes to."""

import math
from functools import lru_cache

from dash import html
from dash.development.base_component import Component

from app.show.cautions import beside_choice, is_growing
from app.show.plain_table import plain_table, with_unit
from app.show.sources import FLIGHT_NOTE, effort_source
from app.show.subject import Case, Fitted
from model.ball import Ball
from model.checks import InputError
from model.effort import effort_curve
from model.flight import Flight, Launch, fly, speed_for_distance
from model.next_reading import NextReading, next_readings
from model.quantity import Quantity, quantity_at
from model.throw import path_loads

TRIED = 3  # throws with which the balls are held against each other
COUNTS = (1, 2, 3, 5, 10)
COUNT_WORDS = {1: "one", 2: "two", 3: "three", 5: "five", 10: "ten"}
HALF, NEAR_HALF = 0.5, 0.03
ASKED = (0.5, 0.6, 0.7, 0.75, 0.8, 0.9, 1.0)
TOLD = 0.75  # the asked effort that the sentence is about
GROWING_READING = (
    "For a thrower who is still growing no full-effort throw with another ball is proposed. Readings with the own ball "
    "tell the full speed; how much another ball slows this thrower stays an estimate from published groups."
)
FULL_EFFORT = "A reading takes a throw at full effort: only for a thrower who may throw that hard."
VARUS_PEAK = Quantity("varus", "peak")


@lru_cache(maxsize=32)
def _next(fitted: Fitted, rack: tuple[Ball, ...]) -> tuple[NextReading, ...]:
    best = next_readings(fitted.profile, rack, throws=(TRIED,))[0].ball
    return next_readings(fitted.profile, (best,), throws=COUNTS)


def next_words(told: NextReading, ball_name: str) -> str:
    """Say what further throws with a ball, such as the "360 g ball", do to the interval of the exponent."""
    throws, ending = ("throw", "s") if told.throws == 1 else ("throws", "")
    start = f"{COUNT_WORDS.get(told.throws, told.throws)} {throws} with the {ball_name}"
    if abs(told.ratio - HALF) <= NEAR_HALF:
        return f"{start} halve{ending} the interval"
    return f"{start} narrow{ending} the interval by {100 * (1.0 - told.ratio):.0f}\u202f%"


def next_section(case: Case) -> list[Component]:
    """Say which ball would narrow the answer most."""
    profile = case.profile
    if profile is None:
        return [html.P("Nothing to say until the measures above are complete.", className="invitation")]
    first = [html.P(FULL_EFFORT), beside_choice(case.person)]
    if profile.posterior.own is None:
        own = case.mass(case.own_ball.mass_kg)
        return [*first, html.P(f"Begin with the own ball, {own}: one ball alone tells nothing of p.", className="told")]
    if is_growing(case.person):
        return [*first, html.P(GROWING_READING, className="told")]
    found = _next(Fitted(profile), case.rack)
    name = f"{case.mass(found[0].ball.mass_kg)} ball"
    halving = next((one for one in found if one.ratio <= HALF), None)
    told = halving or next(one for one in found if one.throws == TRIED)
    sentence = next_words(told, name)
    width = told.width_now
    after = f"Now p is known to within {width:.2f} (90 %); after them to about {told.width_then:.2f}."
    rows = [(str(one.throws), f"{one.width_then:.2f}", f"{100 * one.ratio:.0f} %") for one in found]
    heads = ("Throws", "Width of the interval then", "Of the width now")
    caption = f"Further full-effort throws with the {name}, on average over what they may show."
    return [
        *first,
        html.P([html.Strong(f"{sentence[0].upper()}{sentence[1:]}."), " ", after], className="told", role="status"),
        html.Details(
            [html.Summary("Other numbers of throws"), plain_table(caption, heads, rows)],
            className="fold",
        ),
    ]


def effort_section(case: Case) -> list[Component]:
    """Say what an asked effort really is."""
    known = case.profile is not None and case.found.own_speed is not None
    curve = effort_curve(case.found.used if known else (), case.profile)
    efforts = [effort for effort in ASKED if effort >= curve.lowest_effort]
    shares = [curve.share_of_speed(effort) for effort in efforts]
    throw, peaks = case.throw, _peaks(case, shares)
    rows = [[f"{100 * effort:.0f} %", f"{100 * share:.0f} %"] for effort, share in zip(efforts, shares, strict=True)]
    heads = [with_unit("Asked effort"), with_unit("Of full speed")]
    more = ""
    if peaks and throw is not None:
        heads += [
            with_unit("Speed", case.speed_unit),
            with_unit("Of full peak", "varus torque"),
            with_unit("Peak", "N·m"),
        ]
        parts = [peak / peaks[-1] for peak in peaks]
        speeds = [case.speed(share * throw.speed_m_s) for share in shares]
        for row, speed, part, peak in zip(rows, speeds, parts, peaks, strict=True):
            row += [speed, f"{100 * part:.0f} %", f"{peak:.0f}"]
        if TOLD in efforts:
            place = efforts.index(TOLD)
            more = f", {speeds[place]} {case.speed_unit}, and {100 * parts[place]:.0f} % of the full throw’s varus peak"
    told: list[Component | str] = [effort_source(curve)]
    if TOLD in efforts:
        says = f"Asked for {100 * TOLD:.0f} %, it is {100 * shares[efforts.index(TOLD)]:.0f} % of full speed{more}."
        told = [html.Strong(says), " ", *told]
    table = plain_table("Own ball; straight between the known points.", heads, rows, "effort-table")
    return [html.P(told, className="told"), table]


def _peaks(case: Case, shares: list[float]) -> list[float]:
    """Varus peak (N m) of the own ball at each share of full speed; none where there is no full speed."""
    throw = case.throw
    if throw is None:
        return []
    loads = path_loads(throw.person, throw.ball.diameter_m)
    try:
        speeds = [share * throw.speed_m_s for share in shares]
        return list(quantity_at(loads, VARUS_PEAK, throw.ball.mass_kg, speeds).tolist())
    except InputError:
        return []


@lru_cache(maxsize=64)
def _flown(ball: Ball, distance_m: float, launch: Launch) -> Flight:
    return fly(ball, speed_for_distance(ball, distance_m, launch), launch)


def flight_section(case: Case) -> list[Component]:
    """Say what release speed a distance asks for, and the torque peak that comes with it."""
    distance_m, launch = case.choices.distance_m, case.choices.launch
    ball = case.choices.throw_ball or case.own_ball
    if distance_m is None or launch is None:
        return [html.P("No speed until distance, height and angle are mended.", className="invitation")]
    try:
        flight = _flown(ball, distance_m, launch)
    except InputError as error:
        given = case.system.text(distance_m, "m", most=6)
        said = f"Distance: {given} given; accepted: {case.system.retold(error.accepted)}."
        return [html.P(said, className="invitation")]
    speed = float(flight.speed_m_s[0])
    best = "at the angle that carries farthest, " if launch.angle_rad is None else "at "
    far, name = case.system.text(distance_m, "m"), case.mass(ball.mass_kg)
    sentence = (
        f"{far} with the {name} ball, {best}{math.degrees(flight.angle_rad):.0f}°: "
        f"{case.speed(speed)} {case.speed_unit} at release"
    )
    landing = f"{case.speed(flight.end_speed_m_s)} {case.speed_unit}"
    more = [f"In the air {flight.duration_s:.1f} s, landing at {landing}."]
    profile, throw = case.profile, case.throw
    if profile is not None and throw is not None:
        full = float(profile.mean_speed(ball.mass_kg).estimate)
        sentence += f", {100 * speed / full:.0f} % of this athlete’s full speed with it"
        own_loads, loads = (path_loads(throw.person, d) for d in (throw.ball.diameter_m, ball.diameter_m))
        peak = float(quantity_at(loads, VARUS_PEAK, ball.mass_kg, speed))
        own = float(quantity_at(own_loads, VARUS_PEAK, throw.ball.mass_kg, throw.speed_m_s))
        more.append(
            f"Varus peak {peak:.0f} N·m, {100 * peak / own:.0f} % of the own ball’s at full speed ({own:.0f} N·m)."
        )
        if speed > full:
            more.append("That is faster than this athlete’s full speed with it.")
    return [
        html.P([html.Strong(f"{sentence}."), " ", " ".join(more)], className="told", role="status"),
        html.P(FLIGHT_NOTE, className="quiet"),
    ]
