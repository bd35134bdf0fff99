"""The part of the page that is taken along: a button for paper, and a fold with files and the link."""

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.pages.compare import ids

WITHOUT = (
    "A link holds the throws and what is asked of them. Body measures, code and age go along only if that is ticked; "
    "without them whoever opens it says whose throws they are."
)
PRIVATE = (
    "It holds all of this behind its #, which a browser sends nowhere. Radar readings stay here: a throw held on the "
    "speed profile goes along at its release speed."
)


def tools() -> list[Component]:
    """Make the fold, the button for paper, and what they need out of sight.

    Returns
    -------
    list of Component
    """
    return [
        html.Button(
            "Print", id=ids.COMPARE_PRINT, type="button", n_clicks=0, className="print-page", **{"data-key": "p"}
        ),
        html.Details(
            [
                html.Summary("Take along"),
                html.Div([_picture(), _tables(), _link()], className="along-parts"),
                html.P(id=ids.COMPARE_ALONG_SAID, role="status", className="along-said"),
            ],
            id=ids.COMPARE_ALONG,
            className="fold along",
        ),
        dcc.Download(id=ids.COMPARE_TABLE_FILE),
        dcc.Store(id=ids.COMPARE_IMAGE_FILE),
        dcc.Store(id=ids.COMPARE_LINK_MADE),
        dcc.Store(id=ids.COMPARE_ASKED),
    ]


def offer() -> Component:
    """Make the place where it is said what a link holds, and where it is opened or left."""
    return html.Section(
        [
            dcc.Store(id=ids.COMPARE_LINK_OPENED),
            html.P(id=ids.COMPARE_OFFER_SAID, role="status"),
            html.P(
                [
                    html.Button("", id=ids.COMPARE_TAKE, type="button", n_clicks=0, hidden=True),
                    " ",
                    html.Button("Leave it", id=ids.COMPARE_LEAVE, type="button", n_clicks=0),
                ]
            ),
        ],
        id=ids.COMPARE_OFFER,
        className="offer",
        hidden=True,
        **{"aria-label": "From a link"},
    )


def _button(words: str, part: str) -> Component:
    return html.Button(words, id=part, type="button", n_clicks=0)


def _picture() -> Component:
    return html.Section(
        [
            html.H3("Figure"),
            html.P([_button("Picture, PNG", ids.COMPARE_PNG), " ", _button("Drawing, SVG", ids.COMPARE_SVG)]),
            html.P("On white paper, with title, cautions and version. It names the code only.", className="quiet"),
        ]
    )


def _tables() -> Component:
    return html.Section(
        [
            html.H3("Numbers"),
            html.P([_button("Curves, CSV", ids.COMPARE_CURVES), " ", _button("Readings, CSV", ids.COMPARE_READINGS)]),
            dmc.Checkbox(
                id=ids.COMPARE_ALL_CURVES,
                label="Curves of all torques and forces",
                checked=False,
                className="tick",
                persistence=True,
                persistence_type="memory",
            ),
            html.P("The code stands in each line, the body measures do not.", className="quiet"),
        ]
    )


def _link() -> Component:
    return html.Section(
        [
            html.H3("Link to this view"),
            html.P(_button("Copy link", ids.COMPARE_COPY)),
            dmc.Checkbox(id=ids.COMPARE_WITH_MEASURES, label="With body measures", checked=False, className="tick"),
            dmc.TextInput(
                id=ids.COMPARE_LINK,
                label="Link, as it was when copied",
                value="",
                readOnly=True,
                spellCheck=False,
                className="field",
            ),
            html.P(WITHOUT, className="quiet"),
            html.P(PRIVATE, className="quiet"),
        ]
    )
