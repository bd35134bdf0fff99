"""Equal-load speeds: for each ball the speed that loads as much as a share of full speed with the own ball does."""

import math
from dataclasses import dataclass
from functools import lru_cache

from dash import html
from dash.development.base_component import Component

from app.show.cautions import CAUTIONS, NO_VERDICT, beside_choice, cautions, path_note
from app.show.plain_table import plain_table, with_unit
from app.show.subject import JOINTS, Case, Fitted, is_same, radar_factor
from app.units.conversion import plain
from app.version import VERSION
from model.ball import Ball
from model.checks import InputError
from model.interval import Interval
from model.level import EqualLoad, equal_load_speeds
from model.person import Person
from model.quantity import Quantity

READOUT_WORDS = {
    "peak": "same peak",
    "rise_rate": "same rise rate",
    "area": "same area",
    "loaded_s": "same time loaded",
}
OF = {"profile": "the profile’s full speed", "reference": "the reference throw’s speed"}
ABOVE_FULL = 1.0


@dataclass(frozen=True)
class Cap:
    """A row of the table.

    Attributes
    ----------
    ball : Ball
    own : bool
        Whether it is the own ball.
    speed : Interval
        Release speed (m/s).
    share : Interval or None
        That as a share of full speed with this ball.
    factor : float
        Release speed over what the radar shows; 1 while the radar correction is off.
    """

    ball: Ball
    own: bool
    speed: Interval
    share: Interval | None
    factor: float = 1.0

    @property
    def radar(self) -> Interval:
        """What the radar shows at that speed (m/s)."""
        speed, factor = self.speed, self.factor
        return Interval(speed.estimate / factor, speed.low / factor, speed.high / factor, speed.level)


@dataclass(frozen=True)
class Caps:
    """The table, or why there is none.

    Attributes
    ----------
    rows : tuple of Cap
    full_m_s : float
        The full speed that the share is taken of (m/s).
    title : str
        What is held level.
    instead : str
        Why there is no table; empty if there is one.
    """

    rows: tuple[Cap, ...] = ()
    full_m_s: float = math.nan
    title: str = ""
    instead: str = ""


def caps_of(case: Case) -> Caps:
    """Work out the table."""
    profile, choices = case.profile, case.choices
    if case.person is None or profile is None:
        return Caps(instead="No speeds until the measures above are complete.")
    if case.throw is None:
        return Caps(instead="No speeds until a full-effort speed with the own ball is known.")
    joint, share = choices.cap_joint, choices.cap_share
    if share is None:
        return Caps(instead="No speeds until the share is mended.")
    given = case.reference.speed_m_s if choices.cap_of == "reference" else None
    if choices.cap_of == "reference" and given is None:
        return Caps(instead="The reference throw has no speed.")
    quantity = Quantity(joint, choices.cap_readout)
    full = given if given is not None else case.throw.speed_m_s
    try:
        found = _equal(case.person, case.own_ball, case.rack, Fitted(profile), quantity, share, given)
    except InputError as error:
        return Caps(instead=f"No speeds: {error}.")
    title = (
        f"{READOUT_WORDS[quantity.readout].capitalize()} as {plain(100 * share)} % of full speed with the own ball, "
        f"{case.speed(share * full)} {case.speed_unit} ({JOINTS[joint].split(', ')[1]})"
    )
    rows = tuple(
        Cap(one.ball, is_same(one.ball, case.own_ball), one.speed_m_s, one.share_of_full, radar_factor(one.ball, case))
        for one in found
    )
    return Caps(rows, full, title)


@lru_cache(maxsize=32)
def _equal(
    person: Person,
    own: Ball,
    rack: tuple[Ball, ...],
    fitted: Fitted,
    quantity: Quantity,
    share: float,
    given: float | None,
) -> tuple[EqualLoad, ...]:
    return equal_load_speeds(
        person, own, quantity, rack, profile=fitted.profile, reference_speed_m_s=given, share=share
    )


def section(case: Case, today: str) -> list[Component]:
    """Make the table and the pocket card, which has the date."""
    caps = caps_of(case)
    if caps.instead:
        return [html.P(caps.instead, className="invitation", role="status")]
    parts: list[Component] = [beside_choice(case.person), _table(case, caps)]
    over = [cap for cap in caps.rows if cap.share is not None and cap.share.estimate > ABOVE_FULL and not cap.own]
    if over:
        names = " and ".join(case.mass(cap.ball.mass_kg) for cap in over)
        parts.append(
            html.P(
                f"{names}: this is more than the athlete’s full speed with it, so at full effort it loads less.",
                className="quiet",
            )
        )
    note = path_note(case.person)
    if note:
        parts.append(html.P(note, className="at-number"))
    parts.append(html.P(NO_VERDICT, className="quiet"))
    return [html.Div(parts, className="caps-part"), _card(case, caps, today)]


def _table(case: Case, caps: Caps) -> Component:
    rows = []
    for cap in caps.rows:
        name = [case.mass(cap.ball.mass_kg), *([html.Span(" own ball", className="unit")] if cap.own else [])]
        speeds = [_speed(one, case) for one in (cap.speed, *([cap.radar] if case.radar else []))]
        rows.append([name, *speeds, "–" if cap.share is None else _percents(cap.share)])
    unit = f"{case.speed_unit}, 90 %"
    heads = ["Ball", with_unit("Release speed", unit), *([with_unit("Radar shows", unit)] if case.radar else [])]
    heads.append(with_unit("Of full speed with this ball", "90 %"))
    return plain_table(caps.title + ".", heads, rows, "caps-table")


def _speed(speed: Interval, case: Case) -> list[Component | str]:
    if not math.isfinite(speed.estimate):
        return ["no speed does"]
    return [html.Strong(case.speed(speed.estimate)), *_between(speed, case)]


def _between(speed: Interval, case: Case) -> list[Component | str]:
    if not (math.isfinite(speed.low) and math.isfinite(speed.high)) or speed.high - speed.low < 0.05:
        return []
    low, high = sorted((speed.low, speed.high))
    return [html.Span(f" {case.speed(low)}–{case.speed(high)}", className="kind")]


def _percents(share: Interval) -> list[Component | str]:
    if not math.isfinite(share.estimate):
        return ["–"]
    low, high = sorted((100 * share.low, 100 * share.high))
    span = [] if high - low < 0.5 else [html.Span(f" {low:.0f}–{high:.0f}", className="kind")]
    return [f"{100 * share.estimate:.0f} %", *span]


def _card(case: Case, caps: Caps, today: str) -> Component:
    rows = [
        html.Tr(
            [
                html.Th([case.mass(cap.ball.mass_kg), " own" if cap.own else ""], scope="row"),
                html.Td(_speed(cap.radar, case)),
            ]
        )
        for cap in caps.rows
    ]
    person = path_note(case.person)
    growing = cautions(case.person)[: -len(CAUTIONS)]  # before any number
    return html.Div(
        [
            html.P([html.B(case.code or "no code"), html.Span(today)], className="card-head"),
            *(html.P(line) for line in growing),
            html.P(caps.title, className="card-title"),
            html.Table(
                [
                    html.Caption(f"Radar speeds not to go beyond, {case.speed_unit} (90 % interval)"),
                    html.Tbody(rows),
                ]
            ),
            *(html.P(line) for line in CAUTIONS),
            *([html.P(person)] if person else []),
            html.P(f"Levelpeak {VERSION}", className="card-foot"),
        ],
        className="pocket-card",
        role="group",
        **{"aria-label": "Pocket card"},
    )
