"""What the measures come to: the arm's segments, and its equivalent mass."""

from dash import html
from dash.development.base_component import Component

from app.show.cautions import path_note
from app.show.person_words import who_words
from app.show.plain_table import plain_table, with_unit
from app.show.subject import Case
from app.units.systems import METRIC
from model.segments import arm_of

SEGMENTS = {
    "upper_arm": ("Upper arm", "upper_arm_length_m"),
    "forearm": ("Forearm", "forearm_length_m"),
    "hand": ("Hand, to the third knuckle", "hand_length_m"),
}


def section(case: Case) -> list[Component]:
    """Say what the arm comes to."""
    person, profile = case.person, case.profile
    if person is None or profile is None:
        return [html.P("The arm follows from sex, throwing hand, age, stature and body mass.", className="invitation")]
    arm, system = arm_of(person), case.system
    rows = []
    for name, (label, measured) in SEGMENTS.items():
        segment = getattr(arm, name)
        length = system.number(segment.length_m, "cm", least=1, most=1)
        kind = html.Span("scaled from stature" if getattr(person, measured) is None else "measured", className="quiet")
        rows.append((label, length, kind, system.number(segment.mass_kg, "kg", least=2 if system == METRIC else 1)))
    heads = ("Segment", with_unit("Length", system.unit("cm")), "", with_unit("Mass", system.unit("kg")))
    own, mu = case.mass(case.own_ball.mass_kg), system.text(profile.mu_kg, "g", most=0)
    note = path_note(person)
    return [
        html.P(f"{who_words(case)} · {person.handedness}-handed", className="paper-only summary"),
        plain_table("The arm", heads, rows, "arm-table"),
        html.Div(
            [
                html.P([html.Strong(f"μ = {mu}"), f" against the own ball’s {own}"], className="mu"),
                html.P(
                    "The arm’s equivalent mass: at the peak the elbow carries the arm itself as if it were a ball of "
                    "this mass. The smaller the arm, the more another ball changes.",
                    className="quiet",
                ),
                *([html.P(note, className="at-number")] if note else []),
            ],
            className="mu-part",
        ),
    ]
