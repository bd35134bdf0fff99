"""The parts of the page: headings, bound fields, choices, and places for what follows from them."""

from collections.abc import Mapping
from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.bind import ids as bound_ids
from app.bind.fields import act_button, bound
from app.bind.steps import steps
from app.bind.visit import Visit
from app.pages.athlete import acts, dated, grid, ids
from app.pages.athlete.caps import OF, READOUT_WORDS
from app.records.reads import AthleteData
from app.show.controls import ORDER, choice
from app.show.curves_figure import GRAPH_CONFIG
from app.show.glossary import explained
from app.show.page_parts import file_field, page_link
from app.show.subject import JOINTS
from app.units.systems import System
from model.day_speeds import SEASON_DAYS

BASIS_CHOICES = {"all": "every throw", "mean": "the mean of each ball", "best": "the best of each ball"}
LARGEST_FILE_BYTES = 1_000_000
HOW = "Enter goes to the next reading; Enter in an empty cell goes to the next ball."
SINCE = f"empty: the last {SEASON_DAYS} days (our own judgement), or all where none lie in them"


def options(words: Mapping[str, str]) -> list[dict[str, str]]:
    """Choices as a list takes them."""
    return [{"value": key, "label": text} for key, text in words.items()]


def paste_description(system: System) -> str:
    """What can be pasted."""
    mass = "with its unit, such as 5 oz," if system.converts("g") else "in g"
    return (
        f"A column: readings of one ball. A table: the ball’s mass {mass} first in each line, or on top of "
        "each column. A comma marks decimals."
    )


def section(name: str, title: str, children: list[Any]) -> Component:
    """Make a section with its heading."""
    head = f"{name}-title"
    return html.Section(
        [html.H2(explained(title), id=head), *children], className=f"part-{name}", **{"aria-labelledby": head}
    )


def header(visit: Visit) -> Component:
    """Make the heading of the page."""
    return html.Div([html.H1("Athlete"), steps(visit)], className="page-head")


def readings(visit: Visit, data: AthleteData) -> Component:
    """Make the grid's place, the dated list's, and what is done to them."""
    unit, accepted = (getattr(grid.SPEED, name)(visit.system) for name in ("unit_in", "accepted"))
    add = act_button(visit, "Add a ball", acts.ADD_BALL, **{"data-key": "a"})
    clear = act_button(visit, "Clear readings", acts.CLEAR)
    team = html.Span(["Its mass holds for the whole team, whose balls are on ", page_link("Balls", "/balls"), "."])
    return section(
        "readings",
        "Radar readings",
        [
            html.P([f"Full effort, speed in {unit}, {accepted}. ", html.Span(HOW, className="how")], className="quiet"),
            _day(visit),
            html.Div(id=ids.ATHLETE_GRID, className="ball-rows"),
            html.Div([add, clear, html.Span(team, className="quiet")], className="grid-tools"),
            html.P(id=ids.ATHLETE_NOTICE, role="status", className="paste-notice"),
            _paste(visit, data),
            _listed(data),
            html.Div(
                [
                    html.Div(
                        [
                            bound(
                                visit,
                                "profile.since",
                                said=SINCE,
                            ),
                            html.Div(
                                [
                                    act_button(visit, "All readings", acts.ALL_READINGS),
                                    act_button(visit, "A season", acts.A_SEASON),
                                ],
                                className="grid-tools",
                            ),
                        ]
                    ),
                    bound(visit, "profile.basis", label="Work from", data=options(BASIS_CHOICES)),
                    bound(visit, "profile.own_speed_m_s", said="used while there are no readings with it"),
                ],
                className="asked-of-fit",
            ),
            html.Div(id=ids.ATHLETE_USED, className="used"),
            dcc.Input(id=ids.ATHLETE_DROPPED, type="hidden", value=""),
            *(_hidden(visit, do) for do in (acts.REMOVE_READING, acts.REMOVE_BALL)),
        ],
    )


def _day(visit: Visit) -> Component:
    """The day that new readings get; it stands in the address, and is today's on the next visit."""
    _, text, problem = grid.readings_day(visit)
    return dmc.TextInput(
        id=ids.ATHLETE_DAY,
        label="Day of new readings",
        description="year-month-day; today unless changed here",
        inputWrapperOrder=ORDER,
        value=text,
        error=problem or None,
        debounce=True,
        className="field readings-day",
    )


def _hidden(visit: Visit, do: str) -> Component:
    """A control for plain buttons: the browser gives it the value of the one that was pressed."""
    return dcc.Input(id=bound_ids.act_id(visit.owner, do, "", bound_ids.PICK), type="hidden", value="")


def _listed(data: AthleteData) -> Component:
    month = choice(
        "Show", dated.months(data), dated.NEWEST, id=ids.ATHLETE_MONTH, searchable=False, className="field month"
    )
    return html.Details(
        [html.Summary("By day: change, remove"), month, html.Div(id=ids.ATHLETE_LIST, className="details")],
        className="fold",
    )


def _paste(visit: Visit, data: AthleteData) -> Component:
    area = dmc.Textarea(
        id=ids.ATHLETE_PASTE,
        label="From a spreadsheet",
        description=paste_description(visit.system),
        inputWrapperOrder=["label", "description", "input", "error"],
        autosize=True,
        minRows=3,
        maxRows=8,
        value="",
        debounce=True,
        className="field",
    )
    balls = [{"value": ball.uid, "label": grid.ball_words(ball, visit)} for ball in grid.grid_balls(data)]
    ball = choice(
        "A column belongs to", balls, "", id=ids.ATHLETE_PASTE_BALL, placeholder="choose a ball", searchable=False
    )
    put = html.Button("Put in", id=ids.ATHLETE_PASTE_IN, type="button", n_clicks=0)
    said = "CSV file: ball_mass_g, speed_m_s; if known date, asked_effort (%)"
    file = file_field(said, ids.ATHLETE_FILE, ".csv", LARGEST_FILE_BYTES)
    return html.Details(
        [html.Summary("Paste, or load a file"), html.Div([area, html.Div([ball, put, file])], className="paste")],
        className="fold",
    )


def _figure(part: str) -> Component:
    return dcc.Graph(id=part, config=GRAPH_CONFIG, className="graph")


def fit(visit: Visit) -> Component:
    """Make the place of the plot and of the table of speeds."""
    figure = html.Figure([_figure(ids.ATHLETE_FIGURE), html.Figcaption(id=ids.ATHLETE_FIGURE_NOTE)])
    return section(
        "fit",
        "The fit",
        [
            bound(visit, "profile.joint", className="field joint"),
            html.Div(id=ids.ATHLETE_WILD, role="status"),
            html.Div([figure, html.Div(id=ids.ATHLETE_SPEEDS)], className="fit-bench"),
        ],
    )


def over_time() -> Component:
    """Make the place of the own-ball speed over time."""
    said = html.Div(id=ids.ATHLETE_OVER_TIME_SAID)
    figure = html.Figure(_figure(ids.ATHLETE_OVER_TIME), id=ids.ATHLETE_OVER_TIME_PLACE)
    return section("over-time", "Own-ball speed over time", [said, figure])


def exponent() -> Component:
    """Make the place of the strip."""
    return section("exponent", "The exponent", [html.Div(id=ids.ATHLETE_STRIP)])


def caps(visit: Visit) -> Component:
    """Make the place of the equal-load speeds."""
    joint = {key: words[0].upper() + words[1:] for key, words in JOINTS.items()}
    asked = html.Div(
        [
            bound(visit, "profile.cap_readout", label="Hold level", data=options(READOUT_WORDS)),
            bound(visit, "profile.cap_joint", label="At the", data=options(joint)),
            bound(visit, "profile.cap_share"),
            bound(visit, "profile.cap_of", label="Full speed is", data=options(OF)),
        ],
        className="asked-of-caps",
    )
    card = html.Button("Print the pocket card", id=ids.ATHLETE_CARD_PRINT, type="button", n_clicks=0)
    return section("caps", "Same load, other ball", [asked, html.Div(id=ids.ATHLETE_CAPS, className="caps"), card])


def flight(visit: Visit, data: AthleteData) -> Component:
    """Make the place of a throw prescribed as a distance."""
    balls = [ball for ball in grid.grid_balls(data) if ball.mass_kg is not None]
    offered = [{"value": ball.uid, "label": grid.ball_words(ball, visit)} for ball in balls]
    asked = html.Div(
        [
            bound(visit, "profile.throw_distance_m"),
            bound(visit, "profile.throw_ball", label="Ball", data=offered, placeholder="own ball", clearable=True),
            bound(visit, "profile.throw_height_m", label=f"Release height, {visit.system.unit('m')}"),
            bound(visit, "profile.throw_angle_deg", label="Release angle, °"),
            bound(visit, "profile.throw_farthest", className="tick"),
        ],
        className="asked-of-flight",
    )
    return section("flight", "A throw given as a distance", [asked, html.Div(id=ids.ATHLETE_FLIGHT)])


def correction(visit: Visit) -> Component:
    """Make the place of the radar correction."""
    asked = html.Div(
        [
            bound(visit, "profile.radar", label="Correct readings to release speed", className="tick"),
            bound(visit, "profile.radar_distance_m", label=f"Read how far from the hand, {visit.system.unit('m')}"),
            bound(visit, "profile.radar_angle_deg", label="Angle between radar and flight, °"),
        ],
        className="asked-of-radar",
    )
    return section("radar", "Radar correction", [asked, html.Div(id=ids.ATHLETE_RADAR)])


def notes(visit: Visit, data: AthleteData) -> Component:
    """Make the notes of the athlete, the newest first."""
    lines = [
        html.Li(
            [
                bound(visit, "note.day", one, label="Day", said=""),
                bound(visit, "note.text", one, label="Note", said=""),
                act_button(
                    visit, "Remove", acts.REMOVE_NOTE, one.uid, **{"aria-label": f"Remove the note of {one.day}"}
                ),
            ]
        )
        for one in data.notes[::-1]
    ]
    kept = [html.Ul(lines, className="notes")] if lines else [html.P("No notes yet.", className="quiet")]
    return section("notes", "Notes", [*kept, act_button(visit, "Add a note", acts.ADD_NOTE)])


def place(name: str, title: str, part: str) -> Component:
    """Make a section that only shows what follows from the rest."""
    return section(name, title, [html.Div(id=part)])


def away() -> Component:
    """Say where an athlete is archived or erased."""
    link = page_link("Athletes", "/")
    return html.P(
        ["To archive this athlete, or to erase all that is kept for good: ", link, "."], className="quiet away"
    )
