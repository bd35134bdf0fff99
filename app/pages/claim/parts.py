"""The parts of the page that stay: headings, choices, fields. Functions that make components and do no work."""

from dash import html
from dash.development.base_component import Component

from app.bind.fields import act_button, bound, bound_radios
from app.bind.ids import PICK, act_id
from app.bind.visit import Visit
from app.pages.claim import acts, ids
from app.pages.claim.asked import JOINTS, SAME_SPEED, THROWN, ball_paths, speed_path
from app.records.field_list import field_of
from app.show.controls import choice
from app.show.quantities import title
from app.show.rack import rack_of
from app.show.subject import Case
from model.channels import READINGS


def asked(visit: Visit, case: Case) -> Component:
    """Make the form: which joint, the two balls, and how they are thrown."""
    joints = [{"value": key, "label": title(READINGS[key])} for key in JOINTS]
    thrown = [{"value": key, "label": words} for key, words in THROWN.items()]
    way = [
        bound_radios(visit, "claim.way", "The first ball loads it", key="m"),
        html.Span("than the second", className="mantine-InputWrapper-label"),
    ]
    same = html.Div(bound(visit, SAME_SPEED), id=ids.CLAIM_SAME, hidden=True)
    swap = act_button(visit, "Swap the balls", acts.SWAP, **{"data-key": "s"})
    return html.Section(
        [
            html.H2("The claim", id="claim-asked-title", className="hidden"),
            html.Div(
                [
                    bound(visit, "claim.reading", label="What is loaded", data=joints),
                    bound(visit, "claim.thrown", label="How they are thrown", data=thrown),
                ],
                className="claim-asked",
            ),
            html.Div(
                [
                    _ball(visit, case, "first", "First ball"),
                    html.Div([html.Div(way, className="claim-way"), same, swap], className="claim-between"),
                    _ball(visit, case, "second", "Second ball"),
                ],
                className="claim-balls",
            ),
        ],
        className="claim-form",
        **{"aria-labelledby": "claim-asked-title"},
    )


def _ball(visit: Visit, case: Case, which: str, words: str) -> Component:
    rack = choice(
        f"{words} from the rack",
        rack_of(case),
        "",
        id=act_id(visit.owner, acts.BALL, which, PICK),
        placeholder="choose, or type below",
        searchable=False,
    )
    named = zip((*ball_paths(which), speed_path(which)), ("Mass", "Diameter", "Release speed"), strict=True)
    mass, diameter, speed = (
        bound(visit, path, label=f"{label}, {field_of(path).unit_in(visit.system)}") for path, label in named
    )
    typed = html.Div(speed, id={"type": ids.CLAIM_TYPED, "ball": which}, hidden=True)
    return html.Div([rack, mass, diameter, typed], className="claim-ball", role="group", **{"aria-label": words})


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
