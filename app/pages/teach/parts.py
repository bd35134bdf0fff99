"""The parts of the page that stay: the stage, the set-up, notes and questions. Functions that make components only."""

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

from app.pages.teach import ids
from app.pages.teach.form import Session
from app.pages.teach.notes import question_parts
from app.pages.teach.words import TITLES
from app.show.controls import choice
from app.show.invented import INVENTED
from app.show.page_parts import file_field

LARGEST_FILE_BYTES = 500_000


def _button(words: str, part: str, key: str = "", **props: str) -> Component:
    keyed = {"data-key": key} if key else {}
    return html.Button(words, id=part, type="button", n_clicks=0, **keyed, **props)


def header() -> Component:
    """Make the heading of the page, which says so while an invented athlete is shown."""
    tools = html.Div(
        [
            _button("Present", ids.TEACH_PRESENT, "f"),
            _button("Notes in a second window", ids.TEACH_WINDOW, "w"),
            _button("Print the handout", ids.TEACH_PRINT, "h"),
        ],
        className="whole teach-tools",
    )
    invented = html.P(INVENTED, id=ids.TEACH_INVENTED, className="quiet", hidden=True)
    return html.Div([html.H1("Ten minutes in front of a room"), invented, tools], className="page-head")


def stage() -> Component:
    """Make the stage; the browser fills it."""
    nav = html.Div(
        [
            _button("Back", ids.TEACH_BACK, "ArrowLeft", **{"aria-label": "Step back"}),
            _button("Next", ids.TEACH_ON, "ArrowRight", **{"aria-label": "Next step"}),
            html.Span(id=ids.TEACH_COUNT, className="stage-count"),
            _button("Play", ids.TEACH_PLAY, "p", **{"aria-label": "Play or pause"}),
            html.Span(id=ids.TEACH_WHEN, className="stage-when"),
            _button("Leave", ids.TEACH_LEAVE, className="stage-leave", **{"aria-label": "Leave the presentation"}),
        ],
        className="stage-nav",
    )
    return html.Section(
        [
            html.Div(
                [html.H2(id=ids.TEACH_TITLE), html.Span(id=ids.TEACH_SHOWN_WHO, className="stage-who")],
                className="stage-head",
            ),
            html.Div(
                [
                    html.Div(id=ids.TEACH_WORDS, className="stage-words", role="status", **{"aria-live": "polite"}),
                    html.Div(id=ids.TEACH_GROWING, className="stage-growing"),
                ],
                className="stage-told",
            ),
            html.Div(id=ids.TEACH_PICTURE, className="stage-picture"),
            html.Div(id=ids.TEACH_CONTROLS, className="stage-controls"),
            html.Div(id=ids.TEACH_CAUTION, className="stage-caution"),
            nav,
        ],
        id=ids.TEACH_STAGE,
        className="stage",
        tabIndex=-1,
        **{"aria-labelledby": ids.TEACH_TITLE},
    )


def setup() -> Component:
    """Make the set-up: athlete, balls, what is shown, the steps, and the file."""
    balls = [
        choice(label, [], "", id={"type": ids.TEACH_BALL, "which": which}, searchable=False)
        for which, label in (("second", "Ball beside the own one"), ("third", "Third ball"))
    ]
    named = dmc.Switch(id=ids.TEACH_NAMED, label="Show code, age and body mass to the room", checked=False)
    opened = file_field("Open a session:", ids.TEACH_OPEN, ".json", LARGEST_FILE_BYTES)
    return html.Details(
        [
            html.Summary("Set up: athlete, balls, steps"),
            html.Div(
                [
                    html.Div(
                        [
                            choice("Whose arm", [], "", id=ids.TEACH_WHO, searchable=False),
                            *balls,
                            html.P("Balls and readings are entered on the Athlete page.", className="quiet"),
                            named,
                            html.P(_button("Save this session as a file", ids.TEACH_SAVE)),
                            opened,
                            html.P(
                                "The file holds steps and balls, and the athlete’s code, measures and radar readings: "
                                "keep it as you keep those.",
                                className="quiet",
                            ),
                        ],
                        className="teach-chosen",
                    ),
                    html.Ol(id=ids.TEACH_STEPS, className="teach-steps"),
                ],
                className="teach-setup",
            ),
        ],
        id=ids.TEACH_SETUP,
        className="fold",
    )


def said() -> Component:
    """Make the place where it is said what was done, or why not."""
    return html.P(id=ids.TEACH_SAID, role="status", className="teach-said")


def below() -> Component:
    """Make what the presenter reads below the stage: notes to the step, and the questions."""
    return html.Div(
        [
            html.Section(
                [html.H2("Notes to this step"), html.Div(id=ids.TEACH_NOTES, className="teach-notes")],
            ),
            html.Section(
                [html.H2("Questions a sceptical athlete asks"), *question_parts()], className="teach-questions"
            ),
        ],
        className="teach-below",
    )


def step_rows(session: Session) -> list[Component]:
    """Make the list of steps, with what moves and drops each.

    Parameters
    ----------
    session : Session

    Returns
    -------
    list of Component
    """
    order = session.order
    last_shown = len(session.shown) == 1
    rows = []
    for place, (key, shown) in enumerate(order):
        title = TITLES[key]
        moves = [
            _move("Up", key, "up", f"Move up: {title}", place == 0),
            _move("Down", key, "down", f"Move down: {title}", place == len(order) - 1),
            _move(
                "Drop" if shown else "Take in",
                key,
                "switch",
                f"{'Drop' if shown else 'Take in'}: {title}",
                shown and last_shown,
            ),
        ]
        words = html.Span(title, className="step-name" if shown else "step-name dropped")
        rows.append(html.Li([words, html.Span(moves, className="step-moves")]))
    return rows


def move_id(step: str, move: str) -> dict[str, str]:
    """The id of a button of the list of steps."""
    return {"type": ids.TEACH_MOVE, "step": step, "move": move}


def _move(words: str, step: str, move: str, said: str, disabled: bool) -> Component:
    return html.Button(
        words, id=move_id(step, move), type="button", n_clicks=0, disabled=disabled, **{"aria-label": said}
    )
