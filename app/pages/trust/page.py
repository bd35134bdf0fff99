"""The page How far to trust it: the model beside print, what it leaves out, its frames, and the band's own story."""

from dash import dcc, html
from dash.development.base_component import Component

from app.bind.page import Page
from app.bind.visit import Visit
from app.pages.trust import ids, words
from app.pages.trust.callbacks import register
from app.pages.trust.frames import angle_drawings
from app.show.cautions import general_cautions
from app.show.check_words import NOT_IN_THE_MODEL
from app.show.page_parts import imprint

TITLE = "How far to trust it"


def layout(visit: Visit) -> Component:
    """Make the page, the same for everybody; what is computed is put in by the callback."""
    return html.Div(
        [
            html.Div([html.H1(TITLE), html.P(words.LEAD, className="summary")], className="page-head"),
            html.Div(html.P(words.WAITING, className="quiet"), id=ids.TRUST_HEADLINE, role="status"),
            _section("Not in the model", [html.Ul([html.Li(line) for line in NOT_IN_THE_MODEL])]),
            _section("The model beside print", [html.Div(id=ids.TRUST_TABLE, className="trust-table")]),
            _section(
                "How sure a difference is", [html.Div(html.P(words.WAITING_BAND, className="quiet"), id=ids.TRUST_BAND)]
            ),
            _section("Angles and frames", _frames()),
            _section("Equations", _equations()),
            html.Div(general_cautions(), className="trust-part"),
            imprint(visit.today.isoformat()),
            dcc.Store(id=ids.TRUST_TABLE_TOLD),
            dcc.Store(id=ids.TRUST_BAND_TOLD),
        ],
        className="trust",
    )


def _section(heading: str, parts: list[Component]) -> Component:
    name = f"{ids.TRUST}-{heading.lower().replace(' ', '-')}"
    return html.Section([html.H2(heading, id=name), *parts], className="trust-part", **{"aria-labelledby": name})


def _frames() -> list[Component]:
    said = (
        "Where each angle is zero (thin line), which way it counts (thick line and arrow), and what the ISB "
        "recommendation has."
    )
    axes = [html.Li(f"{joint}, axes of the {frame}: {told}.") for joint, frame, told in words.TORQUE_AXES]
    return [
        html.P(said),
        angle_drawings(),
        *(html.P(text) for text in words.FRAME_WORDS),
        html.P(words.AXES),
        html.Ul(axes),
        html.P(words.RECOMMENDATION, className="source"),
    ]


def _equations() -> list[Component]:
    parts = []
    for name, equation, told in words.EQUATIONS:
        parts += [html.Dt(name), html.Dd([html.Span(equation, className="trust-equation", **{"data-as-is": ""}), told])]
    return [html.P(words.CHAIN_WORDS), html.Dl(parts, className="trust-equations")]


PAGE = Page(path="/trust", title=TITLE, layout=layout, register=register, of_athlete=False)
