"""The balls of an athlete's rack, to be chosen from: one of them, or all but some."""

import dash_mantine_components as dmc
from dash.development.base_component import Component

from app.records.field_list import field_of
from app.records.fields import LONGEST_NUMBER
from app.show.subject import Case, is_same
from app.units.conversion import from_si, plain
from model.ball import Ball


def name_of(ball: Ball, case: Case) -> str:
    """Call a ball of the rack by mass and diameter, such as "145 g, 73 mm, own ball"."""
    own = ", own ball" if is_same(ball, case.own_ball) else ""
    return f"{case.mass(ball.mass_kg)}, {case.system.text(ball.diameter_m, 'mm')}{own}"


def texts_of(ball: Ball) -> tuple[str, str]:
    """Mass (g) and diameter (mm) of a ball, as they would be typed."""
    return plain(from_si(ball.mass_kg, "g")), plain(from_si(ball.diameter_m, "mm"))


def rack_of(case: Case) -> list[dict[str, str]]:
    """The athlete's balls to choose one of: mass (g) and diameter (mm) with a bar between them, and the label."""
    made = {"|".join(texts_of(ball)): name_of(ball, case) for ball in case.rack}
    return [{"value": value, "label": label} for value, label in made.items()]


def picked_texts(picked: object) -> tuple[str, str] | None:
    """Mass (g) and diameter (mm) of the ball that was chosen, as they would be typed; None if it is no ball."""
    if not isinstance(picked, str) or picked.count("|") != 1:
        return None
    mass, diameter = (text[:LONGEST_NUMBER] for text in picked.split("|"))
    return mass, diameter


def masses_of(case: Case) -> list[str]:
    """The masses (g) of the rack, light to heavy, by which its balls are ticked; no two of them are the same."""
    return [texts_of(ball)[0] for ball in case.rack]


def boxes_of(case: Case, own_stays: bool = False) -> list[Component]:
    """A box to tick for each ball, for a `dmc.CheckboxGroup`; that of the own ball may be one that stays ticked."""
    made = []
    for mass, ball in zip(masses_of(case), case.rack, strict=True):
        own = is_same(ball, case.own_ball)
        label = f"{case.mass(ball.mass_kg)}{', own ball' if own else ''}"
        made.append(dmc.Checkbox(value=mass, label=label, disabled=own and own_stays))
    return made


def left_out(shown: object, ticked: object) -> str:
    """The masses (g) that were unticked, of those shown, with a space between: a ball that joins later is ticked."""
    if not isinstance(shown, list) or not isinstance(ticked, list):
        return ""
    longest = field_of("start.left_out").longest
    return " ".join(mass for mass in shown if isinstance(mass, str) and mass not in ticked)[:longest]


def balls_in(case: Case, out: str) -> tuple[Ball, ...]:
    """The balls of the rack, light to heavy, but for those left out, see `left_out`."""
    without = out.split()
    return tuple(ball for mass, ball in zip(masses_of(case), case.rack, strict=True) if mass not in without)
