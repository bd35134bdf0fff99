"""The balls of an athlete's rack, to be chosen from: one of them, or all but some."""

import dash_mantine_components as dmc
from dash.development.base_component import Component

from app.show.subject import Case, is_same
from app.show.throw_form import LONGEST_KEPT
from app.units.conversion import from_si, plain
from model.ball import Ball


def name_of(ball: Ball, case: Case) -> str:
    """Call a ball of the rack by mass and diameter, and say if it is the own one.

    Parameters
    ----------
    ball : Ball
    case : Case

    Returns
    -------
    str
        For example "145 g, 73 mm, own ball".
    """
    own = ", own ball" if is_same(ball, case.own_ball) else ""
    return f"{case.mass(ball.mass_kg)}, {case.system.text(ball.diameter_m, 'mm')}{own}"


def texts_of(ball: Ball) -> tuple[str, str]:
    """Mass (g) and diameter (mm) of a ball, as they would be typed."""
    return plain(from_si(ball.mass_kg, "g")), plain(from_si(ball.diameter_m, "mm"))


def rack_of(case: Case) -> list[dict[str, str]]:
    """The athlete's balls, to choose one of.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of dict
        ``value`` with mass (g) and diameter (mm), and ``label``.
    """
    made = {"|".join(texts_of(ball)): name_of(ball, case) for ball in case.rack}
    return [{"value": value, "label": label} for value, label in made.items()]


def picked_texts(picked: object) -> tuple[str, str] | None:
    """Read which ball was chosen.

    Parameters
    ----------
    picked : object
        What the browser sent: mass (g) and diameter (mm) with an upright bar between them, as `rack_of` has it.

    Returns
    -------
    (str, str) or None
        Both as they would be typed; None if that is no ball.
    """
    if not isinstance(picked, str) or picked.count("|") != 1:
        return None
    mass, diameter = (text[:LONGEST_KEPT] for text in picked.split("|"))
    return mass, diameter


def masses_of(case: Case) -> list[str]:
    """The masses (g) of the rack, by which its balls are ticked.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of str
        Light to heavy; no two balls of a rack share one.
    """
    return [texts_of(ball)[0] for ball in case.rack]


def boxes_of(case: Case, own_stays: bool = False) -> list[Component]:
    """Make a box to tick for each ball, for a `dmc.CheckboxGroup` whose value is the masses that are ticked.

    Parameters
    ----------
    case : Case
    own_stays : bool
        Whether the box of the own ball cannot be unticked.

    Returns
    -------
    list of Component
    """
    made = []
    for mass, ball in zip(masses_of(case), case.rack, strict=True):
        own = is_same(ball, case.own_ball)
        label = f"{case.mass(ball.mass_kg)}{', own ball' if own else ''}"
        made.append(dmc.Checkbox(value=mass, label=label, disabled=own and own_stays))
    return made


def left_out(shown: object, ticked: object) -> str:
    """Write which balls were unticked: what is kept, so that a ball that joins the rack later is ticked.

    Parameters
    ----------
    shown : object
        Masses (g) of all boxes on the page, as the browser sent them.
    ticked : object
        Those ticked.

    Returns
    -------
    str
        Masses (g) with a space between them, to be kept in a form.
    """
    if not isinstance(shown, list) or not isinstance(ticked, list):
        return ""
    return " ".join(mass for mass in shown if isinstance(mass, str) and mass not in ticked)[:LONGEST_KEPT]


def balls_in(case: Case, out: str) -> tuple[Ball, ...]:
    """The balls of the rack but for those left out.

    Parameters
    ----------
    case : Case
    out : str
        As `left_out` writes it.

    Returns
    -------
    tuple of Ball
        Light to heavy; empty if all were left out.
    """
    without = out.split()
    return tuple(ball for mass, ball in zip(masses_of(case), case.rack, strict=True) if mass not in without)
