"""What a page rests on, and the cautions."""

from dash import html
from dash.development.base_component import Component

from app.show.cautions import caution_part
from app.show.glossary import explained
from app.show.page_parts import page_link
from model.person import Person

TRUST = "/trust"
"""The page that holds the model against print."""

BASIS = (
    (
        "Path",
        "Joint angles of one throw, solved for once, for an adult man; every throw takes this path, faster or slower. "
        "An assumption.",
    ),
    (
        "Body measures",
        "Arm lengths, masses and inertias are scaled from the measures; a measured length replaces a scaled one.",
    ),
    ("Time of the peak", "The top of the curve is broad: the time of its peak is known to about ±7 ms at full speed."),
    (
        "Level",
        "Calibrated, not evidence: level, shape and timing were in view when the path was solved. "
        "Laboratories differ by ±25 % and more for similar throws.",
    ),
    (
        "After release",
        "The hand is empty: only the speed matters, not the ball. The varus torque there is not calibrated.",
    ),
    ("Speed", "Release speed, the ball still in the hand; a radar reads a moment later."),
)


def basis_of(person: Person | None) -> list[Component]:
    """Say what the page rests on, and the cautions.

    Parameters
    ----------
    person : Person or None

    Returns
    -------
    list of Component
    """
    rests = [part for term, text in BASIS for part in (html.Dt(explained(term)), html.Dd(text))]
    more = html.P(page_link("How far to trust it", TRUST), className="screen-only")
    return [html.Section([html.H2("What this rests on"), html.Dl(rests), more]), caution_part(person)]
