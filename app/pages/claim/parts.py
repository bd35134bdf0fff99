"""The parts of the page that stay: headings, choices, fields. Functions that make components and do no work."""

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.demo import Demo
from app.pages.claim import ids
from app.pages.claim.checks import FIELDS, SAME
from app.pages.claim.form import JOINTS, THROWN, WAYS
from app.show.controls import choice, number_field
from app.show.quantities import title
from app.show.whose import OF_COMPARE, people
from app.units.systems import METRIC, System
from model.channels import READINGS


def asked(demo: Demo) -> Component:
    """Make the form: whose arm, which joint, the two balls, and how they are thrown."""
    joints = [{"value": key, "label": title(READINGS[key])} for key in JOINTS]
    thrown = [{"value": key, "label": words} for key, words in THROWN.items()]
    swap = html.Button("Swap the balls", id=ids.CLAIM_SWAP, type="button", n_clicks=0, **{"data-key": "s"})
    return html.Section(
        [
            html.H2("The claim", id="claim-asked-title", className="hidden"),
            html.Div(
                [
                    choice("Whose arm", people(demo), OF_COMPARE, id=ids.CLAIM_ATHLETE, searchable=False),
                    choice("What is loaded", joints, "varus", id=ids.CLAIM_READING, searchable=False),
                    choice("How they are thrown", thrown, "profile", id=ids.CLAIM_THROWN, searchable=False),
                ],
                className="claim-asked",
            ),
            html.Div(
                [
                    _ball("first", "First ball"),
                    html.Div([_way(), _same(), swap], className="claim-between"),
                    _ball("second", "Second ball"),
                ],
                className="claim-balls",
            ),
        ],
        className="claim-form",
        **{"aria-labelledby": "claim-asked-title"},
    )


def field_label(name: str, system: System = METRIC) -> str:
    """What stands over a field, by its name in the form."""
    words = {"mass_g": "Mass", "diameter_mm": "Diameter", "speed_m_s": "Release speed"}
    label = SAME.label if name == SAME.name else words[name.partition("_")[2]]
    return f"{label}, {FIELDS[name].unit_in(system)}"


def field_description(name: str, system: System = METRIC) -> str:
    """What stands under it."""
    spec = FIELDS[name]
    return f"{spec.described(system)}; {spec.hint}" if spec.hint else spec.described(system)


def _field(name: str) -> Component:
    return number_field(FIELDS[name], "", field_label(name), id={"type": ids.CLAIM_FIELD, "name": name})


def _ball(which: str, words: str) -> Component:
    rack = choice(
        f"{words} from the rack",
        [],
        "",
        id={"type": ids.CLAIM_RACK, "ball": which},
        placeholder="choose, or type below",
        searchable=False,
    )
    speed = html.Div(_field(f"{which}_speed_m_s"), id={"type": ids.CLAIM_TYPED, "ball": which}, hidden=True)
    return html.Div(
        [rack, _field(f"{which}_mass_g"), _field(f"{which}_diameter_mm"), speed],
        className="claim-ball",
        role="group",
        **{"aria-label": words},
    )


def _way() -> Component:
    control = dmc.SegmentedControl(
        id=ids.CLAIM_WAY,
        data=[{"value": key, "label": words} for key, words in WAYS.items()],
        value="more",
        size="xs",
        **{"aria-label": "The first ball loads it", "data-key": "m"},
    )
    before = html.Span("The first ball loads it", className="mantine-InputWrapper-label")
    after = html.Span("than the second", className="mantine-InputWrapper-label")
    return html.Div([before, control, after], className="claim-way")


def _same() -> Component:
    return html.Div(_field(SAME.name), id=ids.CLAIM_SAME, hidden=True)


def empty() -> Component:
    """Make the place where it is said what an answer needs."""
    return html.Div(id=ids.CLAIM_EMPTY, role="status", hidden=True)


def answer() -> Component:
    """Make the places of the sentence, of the four readouts, and of what is said beside them."""
    return html.Div(
        [
            html.Div(id=ids.CLAIM_SENTENCE, role="status", **{"aria-live": "polite"}),
            html.Div(id=ids.CLAIM_READOUTS, className="claim-readouts"),
            html.Div(id=ids.CLAIM_NOTES, className="claim-notes"),
        ],
        id=ids.CLAIM_BODY,
        className="claim-body",
    )
