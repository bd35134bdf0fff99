"""What is asked of the Map page, as the athlete's settings have it: what is drawn, over which part, which throw."""

import math
from dataclasses import dataclass

from app.records.field_list import field_of
from app.records.fields import in_words
from app.records.reads import AthleteData
from app.show.kept import refused_settings, setting_of
from app.show.subject import Case
from app.show.window import Spot, Window
from app.units.conversion import from_si, plain, rounded_up, to_si
from app.units.systems import METRIC, System
from model.channels import READINGS
from model.checks import InputError
from model.quantity import Quantity

SHOWN_READINGS = ("varus", "internal_rotation", *(key for key, reading in READINGS.items() if reading.braking))
"""Elbow, shoulder, and the braking group."""

MASS, SPEED = "map.ball_mass_kg", "map.ball_speed_m_s"
MASS_ENDS = ("map.mass_from_kg", "map.mass_to_kg")
SPEED_ENDS = ("map.speed_from_m_s", "map.speed_to_m_s")

LEAST_RATIO = 1.2  # of the ends of an axis: closer together there is nothing to be seen between them
HEAVIER = 2.0  # times the own ball: the first throw looked at is with the ball of the rack that is nearest to it


@dataclass(frozen=True)
class Asked:
    """What is asked.

    Attributes
    ----------
    quantity : Quantity
    base : str
        What 100 % is: a key of `app.show.hundred.BASES`; empty for what goes without choosing.
    log : bool
        Whether the mass axis is in even ratios; else in even masses.
    spot : Spot
        The throw that is looked at: as kept, or the usual one.
    usual : (float or None, float or None)
        Mass (kg) and speed (m/s) that stand for fields left empty.
    refused : bool
        Whether what was typed of the throw was refused.
    """

    quantity: Quantity
    base: str
    log: bool
    spot: Spot
    usual: tuple[float | None, float | None]
    refused: bool


def asked_of(data: AthleteData, case: Case) -> Asked:
    """What an athlete's settings ask; where no throw is kept, a heavier ball at full speed is looked at."""
    reading = data.settings["map.reading"]
    quantity = Quantity(reading if reading in SHOWN_READINGS else "varus", data.settings["map.readout"])
    usual_kg = usual_mass(case)
    mass_kg = _or_usual(data, MASS, usual_kg)
    usual_m_s = full_speed(case, mass_kg)
    rows = (data.setting_rows.get(path) for path in (MASS, SPEED))
    typed = (row.typed.get("value", "") if row is not None else "" for row in rows)
    return Asked(
        quantity,
        setting_of(data, "map.of") or "",
        data.settings["map.axis"] != "linear",
        Spot(mass_kg, _or_usual(data, SPEED, usual_m_s), *typed),
        (usual_kg, usual_m_s),
        bool(refused_settings(data, (MASS, SPEED))),
    )


def _or_usual(data: AthleteData, path: str, usual: float | None) -> float | None:
    """What is kept; the usual where nothing is; None where it was refused, for nothing is guessed then."""
    value: float | None = setting_of(data, path)
    return usual if value is None and not refused_settings(data, [path]) else value


def usual_mass(case: Case) -> float | None:
    """The rack's ball (kg) nearest to `HEAVIER` times the own one; None while nothing is known of any speed."""
    if case.full_speed_m_s is None:
        return None
    wanted = HEAVIER * case.own_ball.mass_kg
    others = [ball.mass_kg for ball in case.rack if ball != case.own_ball]
    return min(others, key=lambda mass: abs(mass - wanted), default=to_si(round(from_si(wanted, "g")), "g"))


def full_speed(case: Case, mass_kg: float | None) -> float | None:
    """Full speed with a ball (m/s), to a tenth as it would be typed; None while it is not known."""
    if mass_kg is None or case.profile is None or case.full_speed_m_s is None:
        return None
    return round(float(case.profile.mean_speed(mass_kg).estimate), 1)


def clicked(where: object, system: System = METRIC) -> tuple[str, str] | None:
    """Read where the map was clicked.

    Parameters
    ----------
    where : object
        What the browser sent: mass (g) and speed (m/s).
    system : System
        The reader's units.

    Returns
    -------
    (str, str) or None
        Mass in whole grams and speed to 0.1 m/s, or both to a tenth of the reader's units, as they would be typed;
        None if it is no place on a map.
    """
    if not isinstance(where, dict):
        return None
    typed = []
    for path, name, places in ((MASS, "mass_g", 0), (SPEED, "speed_m_s", 1)):
        value, field = where.get(name), field_of(path)
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            return None
        unit = field.unit_in(system)
        low, high = from_si(field.of.low, unit), from_si(field.of.high, unit)
        shown = from_si(to_si(float(value), field.unit), unit)
        typed.append(plain(min(max(shown, low), high), most=1 if system.converts(field.unit) else places))
    return typed[0], typed[1]


def window_of(data: AthleteData, fitting: Window, system: System = METRIC) -> tuple[Window, list[str]]:
    """The part of the plane that is drawn.

    Parameters
    ----------
    data : AthleteData
    fitting : Window
        The ends that stand for what was left out or cannot be used.
    system : System
        The units of the messages.

    Returns
    -------
    Window
    list of str
        Of each axis whose ends meet or cross, what is wrong.
    """
    masses, mass_problem = _ends(data, MASS_ENDS, (fitting.mass_low_kg, fitting.mass_high_kg), system)
    speeds, speed_problem = _ends(data, SPEED_ENDS, (fitting.speed_low_m_s, fitting.speed_high_m_s), system)
    return Window(*masses, *speeds), [problem for problem in (mass_problem, speed_problem) if problem]


def _ends(
    data: AthleteData, paths: tuple[str, str], fitting: tuple[float, float], system: System
) -> tuple[tuple[float, float], str]:
    """Both ends of an axis. An end that was left out makes room for the other; two of them must lie apart."""
    low, high = (setting_of(data, path) for path in paths)
    first, field = (field_of(path) for path in paths)
    limit, unit = field.of, field.unit_in(system)
    if low is not None and high is not None and high < LEAST_RATIO * low:
        accepted = (
            f"at least {rounded_up(from_si(low, unit) * LEAST_RATIO, unit):g} {unit}, a fifth above the other end"
        )
        if low * LEAST_RATIO > limit.high:
            accepted = f"a lower number for “{first.label.lower()}”"
        return fitting, in_words(InputError(field.label, system.text(high, field.unit, most=6), accepted))
    if low is None:
        low = min(fitting[0], (high or fitting[1]) / LEAST_RATIO)
    if high is None:
        high = max(fitting[1], low * LEAST_RATIO)
    high = min(high, limit.high)
    if high < LEAST_RATIO * low:  # the lower end was typed at the very end of what is accepted
        low = high / LEAST_RATIO
    return (max(low, limit.low), high), ""
