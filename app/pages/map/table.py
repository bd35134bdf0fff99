"""The map as tables: the readings of the throw that is looked at, and the speeds of each ball along the lines."""

import math

from dash import html
from dash.development.base_component import Component

from app.pages.map.answers import Contour, Looked, MapAnswer, full_speeds
from app.pages.map.words import PRIOR, base_words, quantity_words, share_words
from app.show.ball_words import ball_words, interval_words, throw_words, value_words
from app.show.cautions import path_note
from app.show.checked_range import beyond
from app.show.glossary import explained
from app.show.numbers import READOUT_ORDER, capital
from app.units.conversion import range_in
from model.channels import READINGS
from model.interval import Interval
from model.quantity import READOUTS, Quantity
from model.throw import SPEED_LIMIT

NEVER = "–"


def looked_table(answer: MapAnswer) -> list[Component]:
    """Show the readings of the throw that is looked at."""
    looked, hundred = answer.looked, answer.hundred
    if looked is None or hundred is None:
        told = "" if answer.asked.refused else "Type a ball and a speed, or click the map."
        return [html.P(told, className="quiet")]
    source = READINGS[answer.quantity.reading]
    rows = [_reading(key, looked, answer, hundred.kind) for key in READOUT_ORDER]
    system = answer.case.system
    made: list[Component] = [
        html.P(throw_words(looked.throw, system), className="map-throw"),
        html.Table([html.Caption(capital(source.label)), html.Tbody(rows)], className="map-looked"),
    ]
    if looked.full_speed_m_s is not None:
        prior = "Full speed by the prior, not by this athlete’s readings"
        by = prior if answer.on_prior else "This athlete’s full speed"
        said = f"{by}, with {ball_words(looked.throw.ball, system)}: {interval_words(looked.full_speed_m_s, system)}."
        made.append(html.P(said, className="quiet"))
    mass, speed = looked.throw.ball.mass_kg, looked.throw.speed_m_s
    if told := beyond((mass, mass), (speed, speed), throw_words(looked.throw, system), system):
        made.append(html.P(told, className="beyond"))
    if note := path_note(answer.case.person):
        made.append(html.P(note, className="at-number"))
    return made


def _reading(key: str, looked: Looked, answer: MapAnswer, kind: str) -> Component:
    value, reference = (float(getattr(one, key)) for one in (looked.readouts, looked.reference))
    name = READOUTS[key].label
    chosen = "chosen" if key == answer.quantity.readout else ""
    said = value_words(value, Quantity(answer.quantity.reading, key).unit), share_words(value, reference, kind)
    return html.Tr([html.Th(explained(capital(name)), scope="row"), *map(html.Td, said)], className=chosen)


def speeds_table(answer: MapAnswer) -> Component | None:
    """Show the speeds of each ball along each line, the numbers behind the picture; None where there are no lines."""
    hundred = answer.hundred
    if hundred is None or not answer.contours:
        return None
    full = full_speeds(answer.case.profile, [ball.mass_kg for ball in answer.case.rack])
    head = [html.Th("Ball", scope="col"), *(_head(contour, answer) for contour in answer.contours)]
    if full is not None:
        note = PRIOR.split(",")[0] if answer.on_prior else "90 % interval"
        head.append(html.Th([*explained("Full speed"), html.Span(note, className="note")], scope="col"))
    rows = [_ball(i, answer, full) for i in range(len(answer.case.rack))]
    caption = (
        f"{quantity_words(answer.quantity)}: release speed, {answer.case.speed_unit}, at which each ball reaches a "
        f"share of {base_words(hundred)} ({hundred.kind})."
    )
    if any(not math.isfinite(speed) for contour in answer.contours for speed in contour.rack_m_s):
        caption += f" {NEVER}: no speed from {range_in(SPEED_LIMIT, answer.case.speed_unit)} does."
    if path_note(answer.case.person):
        caption += " The path comes from adult men."
    parts = [html.Caption(html.Span(caption, className="caption")), html.Thead(html.Tr(head)), html.Tbody(rows)]
    scrolls = {"tabIndex": 0, "role": "region", "aria-label": "Speeds by ball, scrolls sideways"}
    return html.Div(html.Table(parts, className="readings"), className="scrolls", **scrolls)


def _head(contour: Contour, answer: MapAnswer) -> Component:
    unit = html.Span(value_words(contour.value, answer.quantity.unit), className="note")
    return html.Th([f"{contour.percent} %", unit], scope="col", className="level" if contour.percent == 100 else "")


def _ball(place: int, answer: MapAnswer, full: Interval | None) -> Component:
    ball = answer.case.rack[place]
    name = [ball_words(ball, answer.case.system)]
    if ball == answer.case.own_ball:
        name.append(html.Span("own ball", className="note"))
    cells = [
        html.Td(_speed(contour.rack_m_s[place], answer), className="level" if contour.percent == 100 else "")
        for contour in answer.contours
    ]
    if full is not None:
        low, middle, high = (answer.case.speed(end[place]) for end in (full.low, full.estimate, full.high))
        cells.append(html.Td([middle, html.Span(f"{low} to {high}", className="note")]))
    return html.Tr([html.Th(name, scope="row"), *cells])


def _speed(speed_m_s: float, answer: MapAnswer) -> str:
    return answer.case.speed(speed_m_s) if math.isfinite(speed_m_s) else NEVER
