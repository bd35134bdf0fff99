"""From the map's typed text to a quantity, ranges and a throw: every value is checked in its own field."""

from collections.abc import Mapping
from dataclasses import replace

from app.pages.map.form import SHOWN_READINGS, MapForm
from app.show.checks import message, read_field
from app.show.form_fields import Field
from app.show.window import Spot, Window
from app.units.conversion import from_si, rounded_up
from app.units.systems import METRIC, System
from model.ball import BALL_LIMITS
from model.checks import InputError
from model.quantity import READOUTS, Quantity
from model.throw import SPEED_LIMIT

LEAST_RATIO = 1.2  # of the ends of an axis: closer together there is nothing to be seen between them

MASS = Field("ball_mass_g", "Ball mass", "g", BALL_LIMITS["mass_kg"], "mass_kg")
SPEED = Field("speed_m_s", "Release speed", "m/s", SPEED_LIMIT, "speed_m_s")
ENDS = {
    "mass_from_g": replace(MASS, name="mass_from_g", label="Lightest ball", needed=False),
    "mass_to_g": replace(MASS, name="mass_to_g", label="Heaviest ball", needed=False),
    "speed_from_m_s": replace(SPEED, name="speed_from_m_s", label="Slowest throw", needed=False),
    "speed_to_m_s": replace(SPEED, name="speed_to_m_s", label="Fastest throw", needed=False),
}
"""The fields of the axes' ends."""


def quantity_of(form: MapForm) -> Quantity:
    """Find the chosen quantity; anything unknown is the varus torque's peak.

    Parameters
    ----------
    form : MapForm

    Returns
    -------
    Quantity
    """
    reading = form.reading if form.reading in SHOWN_READINGS else "varus"
    return Quantity(reading, form.readout if form.readout in READOUTS else "peak")


def check_window(form: MapForm, fitting: Window, system: System = METRIC) -> tuple[Window, dict[str, str]]:
    """Read the typed ends of the axes.

    Parameters
    ----------
    form : MapForm
    fitting : Window
        The ends that stand for what was left out or cannot be used.
    system : System
        The units of the messages.

    Returns
    -------
    Window
    dict of str to str
        A message for each field that could not be used.
    """
    problems: dict[str, str] = {}
    typed = {name: read_field(getattr(form, name), spec, problems, system) for name, spec in ENDS.items()}
    mass = _ends(typed, ("mass_from_g", "mass_to_g"), (fitting.mass_low_kg, fitting.mass_high_kg), problems, system)
    slow, fast = fitting.speed_low_m_s, fitting.speed_high_m_s
    speed = _ends(typed, ("speed_from_m_s", "speed_to_m_s"), (slow, fast), problems, system)
    return Window(*mass, *speed), problems


def _ends(
    typed: Mapping[str, float | None],
    names: tuple[str, str],
    fitting: tuple[float, float],
    problems: dict[str, str],
    system: System,
) -> tuple[float, float]:
    """Both ends of an axis. An end that was left out makes room for the other; two typed ones must lie apart."""
    low, high = (typed[name] for name in names)
    low_spec, high_spec = (ENDS[name] for name in names)
    if low is not None and high is not None and high < LEAST_RATIO * low:
        unit = high_spec.unit_in(system)
        least = rounded_up(from_si(low, unit) * LEAST_RATIO, unit)
        given = system.text(high, high_spec.unit, most=6)
        accepted = f"at least {least:g} {unit}, a fifth above the other end"
        if low * LEAST_RATIO > high_spec.limit.high:
            accepted = f"a lower number for “{low_spec.label.lower()}”"
        problems[names[1]] = message(InputError(high_spec.label, given, accepted))
        return fitting
    if low is None:
        low = min(fitting[0], (high or fitting[1]) / LEAST_RATIO)
    if high is None:
        high = max(fitting[1], low * LEAST_RATIO)
    limit = low_spec.limit
    high = min(high, limit.high)
    if high < LEAST_RATIO * low:  # the lower end was typed at the very end of what is accepted
        low = high / LEAST_RATIO
    return max(low, limit.low), high


def check_spot(form: MapForm, system: System = METRIC) -> Spot:
    """Read the throw that is looked at; one with nothing typed is neither right nor wrong.

    Parameters
    ----------
    form : MapForm
    system : System
        The units of the messages.

    Returns
    -------
    Spot
    """
    if form.pointless:
        return Spot()
    problems: dict[str, str] = {}
    mass, speed = (read_field(getattr(form, spec.name), spec, problems, system) for spec in (MASS, SPEED))
    return Spot(mass, speed, problems, form.ball_mass_g.strip(), form.speed_m_s.strip())
