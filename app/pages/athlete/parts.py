"""The parts of the page that stay: headings, fields, choices. Functions that make components and do no work."""

from collections.abc import Mapping
from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from app.pages.athlete import grid, ids
from app.pages.athlete.caps import OF, READOUT_WORDS
from app.show import ids as shared_ids
from app.show import profile_fields as fields
from app.show.controls import choice, text_field
from app.show.curves_figure import GRAPH_CONFIG
from app.show.glossary import explained, field_words
from app.show.invented import INVENTED
from app.show.page_parts import file_field
from app.show.person_fields import athlete_fields
from app.show.profile_form import ProfileForm
from app.show.subject import JOINTS
from app.units.systems import METRIC, System
from app.version import VERSION
from model.checks import Limit

BASIS_CHOICES = {"all": "every throw", "mean": "the mean of each ball", "best": "the best of each ball"}
JOINT_CHOICES = {"varus": "Elbow", "internal_rotation": "Shoulder"}
LARGEST_FILE_BYTES = 1_000_000


def choice_id(name: str) -> dict[str, str]:
    """The id of a choice."""
    return {"type": ids.ATHLETE_CHOICE, "name": name}


def typed_id(name: str) -> dict[str, str]:
    """The id of a typed field outside the grid."""
    return {"type": ids.ATHLETE_TYPED, "name": name}


def _pick(label: str, name: str, words: Mapping[str, str], **props: Any) -> Component:
    data = [{"value": key, "label": text} for key, text in words.items()]
    start = getattr(ProfileForm(), name)
    return choice(label, data, start, id=choice_id(name), searchable=False, **props)


LABELS = {
    "own_speed_m_s": "Own-ball full speed",
    "throw_distance_m": "Distance",
    "throw_height_m": "Release height",
    "radar_distance_m": "Read how far from the hand",
}
"""What the fields in the reader's units are called."""

OWN_SPEED_HINT = "used while there are no readings with it"


def typed_label(name: str, system: System = METRIC) -> str:
    """What stands over a typed field in the reader's units."""
    return f"{LABELS[name]}, {fields.WITH_UNITS[name].unit_in(system)}"


def typed_description(name: str, system: System = METRIC) -> str:
    """What stands under it."""
    return OWN_SPEED_HINT if name == "own_speed_m_s" else fields.WITH_UNITS[name].described(system)


def paste_description(system: System = METRIC) -> str:
    """What can be pasted."""
    mass = "with its unit, such as 5 oz," if system.converts("g") else "in g"
    return (
        f"A column: readings of one ball. A table: the ball’s mass {mass} first in each line, or on top of "
        "each column. A comma marks decimals."
    )


def _measured(name: str) -> Component:
    """A typed field in the reader's units; which they are is known when the page is open."""
    value = getattr(ProfileForm(), name)
    return text_field(typed_label(name), typed_description(name), numeric=True, id=typed_id(name), value=value)


def _typed(label: str, name: str, limit: Limit, unit: str, hint: str = "") -> Component:
    described = str(limit).removesuffix(unit).strip().replace("-", "\u2212") + (f"; {hint}" if hint else "")
    return text_field(
        f"{label}, {unit}", described, numeric=True, id=typed_id(name), value=getattr(ProfileForm(), name)
    )


def _section(name: str, title: str, children: list[Any], **props: Any) -> Component:
    head = f"{name}-title"
    return html.Section(
        [html.H2(explained(title), id=head), *children], className=f"part-{name}", **{"aria-labelledby": head}, **props
    )


def _joint(name: str, heard: str) -> Component:
    return dmc.SegmentedControl(
        id=choice_id(name),
        data=[{"value": key, "label": word} for key, word in JOINT_CHOICES.items()],
        value="varus",
        size="xs",
        className="joint",
        **{"aria-label": heard},
    )


MEASURES_NOTE = (
    "A changed measure leaves readings and measured speeds as they are. At the same release speed a longer arm "
    "of the same build needs about the same torque; at the same joint speeds it needs more: that is shown on Compare."
)


def header() -> Component:
    """Make the heading of the page, which says so while an invented athlete is shown."""
    said = html.P(INVENTED, id=ids.ATHLETE_INVENTED, className="quiet", hidden=True)
    return html.Div([html.H1("Athlete"), said], className="page-head")


def measures() -> Component:
    """Make the place of the measures and of what they come to."""
    return _section(
        "measures",
        "Measures",
        [
            html.Div(id=ids.ATHLETE_MEASURES, className="measures"),
            html.P(MEASURES_NOTE, className="quiet"),
            html.Div(id=ids.ATHLETE_ARM, className="arm"),
        ],
    )


def measure_fields(athlete: Mapping[str, str], system: System = METRIC) -> list[Component]:
    """Make the fields of the athlete: those of the Compare page, under this page's ids.

    Parameters
    ----------
    athlete : mapping of str to str
        As kept.
    system : System
        The units they are shown in.

    Returns
    -------
    list of Component
    """
    made = athlete_fields(athlete, system)
    for part in html.Div(made)._traverse():
        known = getattr(part, "id", None)
        if isinstance(known, dict) and known.get("type") == shared_ids.COMPARE_MEASURE:
            part.id = known | {"type": ids.ATHLETE_MEASURE}
        elif known == shared_ids.COMPARE_LENGTHS:
            del part.id
    return made


def readings() -> Component:
    """Make the place of the grid, and of what is done to it."""
    add = html.Button("Add a ball", id=ids.ATHLETE_ADD, type="button", n_clicks=0, **{"data-key": "a"})
    clear = html.Button("Clear readings", id=ids.ATHLETE_CLEAR, type="button", n_clicks=0)
    own = _measured("own_speed_m_s")
    return _section(
        "readings",
        "Radar readings",
        [
            html.P(
                [
                    "Full effort. ",
                    html.Span(grid.speed_hint(), id=ids.ATHLETE_HINT),
                    html.Span(
                        "Enter goes to the next reading; Enter in an empty cell goes to the next ball.",
                        className="how",
                    ),
                ],
                className="quiet",
            ),
            html.Div(id=ids.ATHLETE_GRID, className="ball-rows"),
            html.Div([add, clear], className="grid-tools"),
            _paste(),
            html.Details(
                [
                    html.Summary("Day, asked effort, ball diameters", id=ids.ATHLETE_DETAILS_OPEN, n_clicks=0),
                    html.Div(id=ids.ATHLETE_DETAILS, className="details"),
                ],
                className="fold",
            ),
            html.Div([_pick("Work from", "basis", BASIS_CHOICES), own], className="asked-of-fit"),
            html.Div(id=ids.ATHLETE_USED, className="used"),
        ],
    )


def _paste() -> Component:
    area = dmc.Textarea(
        id=ids.ATHLETE_PASTE,
        label="From a spreadsheet",
        description=paste_description(),
        inputWrapperOrder=["label", "description", "input", "error"],
        autosize=True,
        minRows=3,
        maxRows=8,
        value="",
        debounce=True,
        className="field",
    )
    ball = choice(
        "A column belongs to", [], "", id=ids.ATHLETE_PASTE_BALL, placeholder="choose a ball", searchable=False
    )
    put = html.Button("Put in", id=ids.ATHLETE_PASTE_IN, type="button", n_clicks=0)
    said = "CSV file: ball_mass_g, speed_m_s; if known date, asked_effort (%)"
    file = file_field(said, ids.ATHLETE_FILE, ".csv", LARGEST_FILE_BYTES)
    return html.Details(
        [html.Summary("Paste, or load a file"), html.Div([area, html.Div([ball, put, file])], className="paste")],
        className="fold",
    )


def fit() -> Component:
    """Make the place of the plot and of the table of speeds."""
    graph = dcc.Graph(id=ids.ATHLETE_FIGURE, config=GRAPH_CONFIG, className="graph")
    figure = html.Figure([graph, html.Figcaption(id=ids.ATHLETE_FIGURE_NOTE)])
    return html.Section(
        [
            html.Div(
                [html.H2("The fit", id="fit-title"), _joint("joint", "Joint of the level lines and of the exponent")],
                className="title-line",
            ),
            html.Div(id=ids.ATHLETE_WILD, role="status"),
            html.Div([figure, html.Div(id=ids.ATHLETE_SPEEDS)], className="fit-bench"),
        ],
        className="part-fit",
        **{"aria-labelledby": "fit-title"},
    )


def exponent() -> Component:
    """Make the place of the strip."""
    return _section("exponent", "The exponent", [html.Div(id=ids.ATHLETE_STRIP)])


def caps() -> Component:
    """Make the place of the equal-load speeds."""
    joint = {key: words[0].upper() + words[1:] for key, words in JOINTS.items()}
    asked = html.Div(
        [
            _pick("Hold level", "cap_readout", READOUT_WORDS),
            _pick("At the", "cap_joint", joint),
            _typed("Share of full speed", "cap_share", fields.SHARE, "%"),
            _pick("Full speed is", "cap_of", OF),
        ],
        className="asked-of-caps",
    )
    card = html.Button("Print the pocket card", id=ids.ATHLETE_CARD_PRINT, type="button", n_clicks=0)
    return _section("caps", "Same load, other ball", [asked, html.Div(id=ids.ATHLETE_CAPS, className="caps"), card])


def next_reading() -> Component:
    """Make the place of the next reading."""
    return _section("next", "Next reading", [html.Div(id=ids.ATHLETE_NEXT)])


def effort() -> Component:
    """Make the place of the asked effort."""
    return _section("effort", "Asked effort is not speed", [html.Div(id=ids.ATHLETE_EFFORT)])


def flight() -> Component:
    """Make the place of a throw prescribed as a distance."""
    asked = html.Div(
        [
            _measured("throw_distance_m"),
            choice(
                "Ball", [], "", id=choice_id("throw_ball"), searchable=False, placeholder="own ball", clearable=True
            ),
            _measured("throw_height_m"),
            _typed("Release angle", "throw_angle_deg", fields.ANGLE, "°", "empty: the one that carries farthest"),
        ],
        className="asked-of-flight",
    )
    return _section("flight", "A throw given as a distance", [asked, html.Div(id=ids.ATHLETE_FLIGHT)])


def correction() -> Component:
    """Make the place of the radar correction."""
    asked = html.Div(
        [
            dmc.Switch(id=ids.ATHLETE_SWITCH, label=field_words("Correct readings to release speed"), checked=False),
            _measured("radar_distance_m"),
            _typed("Angle between radar and flight", "radar_angle_deg", fields.RADAR_ANGLE, "°"),
        ],
        className="asked-of-radar",
    )
    return _section("radar", "Radar correction", [asked, html.Div(id=ids.ATHLETE_RADAR)])


def notice() -> Component:
    """Make the place where it is said what was replaced or removed, and where it can be put back."""
    back = html.Button("Put back", id=ids.ATHLETE_PUT_BACK, type="button", n_clicks=0, hidden=True, **{"data-key": "z"})
    away = html.Button("Dismiss", id=ids.ATHLETE_DISMISS, type="button", n_clicks=0)
    return html.Div([html.Span(id=ids.ATHLETE_NOTICE), " ", back, " ", away], className="notice", role="status")


def imprint(today: str) -> Component:
    """Make the last line of the printed page: date and version."""
    return html.P(f"Levelpeak {VERSION} · printed {today}", className="paper-only quiet")
