"""The radar correction: what it would do to each ball's reading, and what it does to the answer while it is on."""

import math

from dash import html
from dash.development.base_component import Component

from app.show.plain_table import plain_table, with_unit
from app.show.subject import Case, Fitted, mean_speeds
from app.units.conversion import plain
from model.checks import InputError
from model.radar import Radar, release_speed

EXAMPLE_M_S = 30.0  # a reading the table is told for, where the athlete's full speed is not known


def section(case: Case) -> list[Component]:
    """Say what the correction does."""
    if case.choices.radar is None:
        return [html.P("No correction until distance and angle are mended.", className="invitation")]
    return [html.P(_effect(case), className="told", role="status"), _table(case, case.choices.radar)]


def _effect(case: Case) -> str:
    profile = case.profile
    if not case.choices.corrected:
        return "Off: every reading is taken as the release speed."
    if profile is None or not case.found.used:
        return "On: there is no reading to correct yet."
    without = case.found_with(None).profile
    if without is None:
        return ""
    p, before = profile.exponent(), without.exponent()
    return (
        f"On: readings are raised to release speed. p is {p.estimate:.2f} ({p.low:.2f} to {p.high:.2f}) instead of "
        f"{before.estimate:.2f} ({before.low:.2f} to {before.high:.2f}); all speeds share an error of "
        f"{100 * case.found.common_relative_sd:.1f} %, which widens them and not p."
    )


def _table(case: Case, radar: Radar) -> Component:
    rows = []
    full = [case.full_speed_m_s or EXAMPLE_M_S] * len(case.rack)
    if case.profile is not None and case.found.own_speed is not None:
        masses = tuple(ball.mass_kg for ball in case.rack)
        full = mean_speeds(Fitted(case.profile), masses).estimate.tolist()
    for ball, speed in zip(case.rack, full, strict=True):
        try:
            # with the correction on the profile's speeds are release speeds
            shows = speed / release_speed(speed, ball, radar).factor if case.choices.corrected else speed
            found = release_speed(shows, ball, radar)
        except InputError:
            continue
        release = f"{case.speed(found.speed_m_s)} ± {case.speed(found.sd_m_s)}"
        rows.append((case.mass(ball.mass_kg), case.speed(shows), release, f"+{100 * (found.factor - 1):.1f} %"))
    unit = case.speed_unit
    heads = ("Ball", with_unit("Radar shows", unit), with_unit("At release", f"{unit}, ± 1 SD"), "Added")
    far = case.system.number(radar.distance_m, "m")
    caption = (
        f"Ball read {far} ± {case.system.text(radar.distance_sd_m, 'm')} from the hand, "
        f"{plain(math.degrees(radar.angle_rad))} ± {plain(math.degrees(radar.angle_sd_rad))}° off the radar’s line, "
        f"drag known to ± {100 * radar.drag_relative_sd:.0f} %."
    )
    return plain_table(caption, heads, rows)
