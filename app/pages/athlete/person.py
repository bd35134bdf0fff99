"""Who throws: code, measures of the newest day, own ball and reference throw, each a field of the records."""

from dash import html
from dash.development.base_component import Component

from app.bind.cells import cell_html
from app.bind.fields import act_button, bound
from app.bind.visit import Visit
from app.pages.athlete import acts, ids
from app.pages.athlete.parts import section
from app.records.field_list import FIELDS
from app.records.reads import AthleteData
from app.records.tables import Measures, Reference
from model.person import MEASURED_LENGTHS

MEASURES_NOTE = (
    "A changed measure leaves readings and measured speeds as they are. At the same release speed a longer arm "
    "of the same build needs about the same torque; at the same joint speeds it needs more: that is shown on Compare."
)
SIZES = ("measures.age_years", "measures.stature_m", "measures.body_mass_kg")
LENGTHS = tuple(f"measures.{name}" for name in MEASURED_LENGTHS)
FIRST_MEASURES = "athlete-first-measures"


def measures(visit: Visit, data: AthleteData) -> Component:
    """Make the fields of who throws, and the place of what they come to."""
    newest = data.measures[-1] if data.measures else None
    growing = bound(
        visit, "athlete.still_growing", data.athlete, description="unmarked: by age, under 18", className="tick"
    )
    return section(
        "measures",
        "Measures",
        [
            html.Div(
                [
                    bound(visit, "athlete.code", data.athlete, said="no names; a new one renames this athlete"),
                    bound(visit, "athlete.sex", data.athlete, placeholder="choose"),
                    bound(visit, "athlete.handedness", data.athlete, placeholder="choose"),
                    *_sizes(visit, newest, growing),
                ],
                className="measures",
            ),
            html.P(MEASURES_NOTE, className="quiet"),
            *_days(visit, data),
            html.Div(id=ids.ATHLETE_ARM, className="arm"),
        ],
    )


def _sizes(visit: Visit, newest: Measures | None, growing: Component) -> list[Component]:
    """The measures of the newest day; before there are any, plain cells: what is typed first makes the row of them."""
    if newest is None:
        return [growing, html.Div(id=FIRST_MEASURES, className="first-measures")]
    opened = any(getattr(newest, path.partition(".")[2]) is not None for path in LENGTHS)
    lengths = html.Details(
        [
            html.Summary("Measured arm lengths"),
            html.P("Between joint centres. Left out, a length is scaled from stature.", className="quiet"),
            html.Div([bound(visit, path, newest) for path in LENGTHS], className="lengths"),
        ],
        open=opened,
        className="fold",
    )
    age, *sizes = (bound(visit, path, newest) for path in SIZES)
    return [age, growing, *sizes, lengths]


def first_measures_html(visit: Visit) -> str:
    """Fields of measures of which none is kept yet."""
    return "".join(_first(visit, path) for path in (*SIZES, *LENGTHS))


def _first(visit: Visit, path: str) -> str:
    field = FIELDS[path]
    label = f"{field.label}, {field.unit_in(visit.system)}"
    said = "; ".join(part for part in (field.accepted(visit.system), field.hint) if part)
    of = {"of": visit.owner, "row": "", "line": f"{visit.tab}/measures", "units": visit.system.key}
    cell = cell_html(path, "", label, more='inputmode="text"', **of)
    return (
        f'<div class="first-measure" data-problems><span class="first-label" aria-hidden="true">{label}</span>{cell}'
        f'<span class="quiet">{said}</span><div class="cell-problems" role="status"></div></div>'
    )


def _days(visit: Visit, data: AthleteData) -> list[Component]:
    """The day of the measures, and the earlier ones, folded."""
    if not data.measures:
        return []
    newest, earlier = data.measures[-1], data.measures[-2::-1]
    day = bound(visit, "measures.day", newest, label="Measured on", said="")
    new = act_button(visit, "New measures today", acts.NEW_MEASURES)
    made: list[Component] = [html.Div([day, new], className="measured-on")]
    if earlier:
        lines = [
            html.Li([_told(visit, one), " ", _remove(visit, acts.REMOVE_MEASURES, one, "measures")]) for one in earlier
        ]
        made.append(_fold("Earlier measures", lines))
    return made


def _told(visit: Visit, one: Measures) -> str:
    said = []
    for path in (*SIZES, *LENGTHS):
        field = FIELDS[path]
        value = getattr(one, field.name)
        if value is not None:
            said.append(f"{field.label.lower()} {field.told(value, one.typed.get(field.name, ''), visit.system)}")
    return f"{one.day}: {', '.join(said) or 'nothing'}"


def own_ball(visit: Visit, data: AthleteData) -> Component:
    """Make the fields of the own ball and of the reference throw with it."""
    ball, known = data.own_ball, data.reference
    made: list[Component] = []
    if ball is None:
        add = act_button(visit, "Add the own ball", acts.OWN_BALL)
        made.append(html.P(["Which ball this athlete throws in games is not kept yet. ", add]))
    else:
        made.append(
            html.Div(
                [bound(visit, f"ball.{name}", ball) for name in ("mass_kg", "diameter_m")], className="asked-of-ball"
            )
        )
    if known is not None:
        names = ("speed_m_s", "day", "kind", "relative_sd")
        made.append(html.Div([bound(visit, f"reference.{name}", known) for name in names], className="asked-of-ball"))
    made.append(html.P(act_button(visit, "New reference throw", acts.NEW_REFERENCE)))
    earlier = data.references[-2::-1]
    if earlier:
        lines = [
            html.Li([_throw(visit, one), " ", _remove(visit, acts.REMOVE_REFERENCE, one, "reference throw")])
            for one in earlier
        ]
        made.append(_fold("Earlier reference throws", lines))
    if known is not None and ball is not None and known.ball_id not in (None, ball.id):
        made.append(html.P("The reference throw was made with another ball than the own one.", className="at-number"))
    intro = "The newest reference throw is the one that counts. A ball is changed here for this athlete only."
    return section("own-ball", "Own ball and reference throw", [html.P(intro, className="quiet"), *made])


def _throw(visit: Visit, one: Reference) -> str:
    def told(name: str) -> str:
        return FIELDS[f"reference.{name}"].told(getattr(one, name), one.typed.get(name, ""), visit.system)

    doubt = "" if one.relative_sd is None else f", ± {told('relative_sd')}"
    return f"{one.day or 'no day'}: {told('speed_m_s')}, {told('kind')}{doubt}"


def _remove(visit: Visit, do: str, row: Measures | Reference, what: str) -> Component:
    return act_button(visit, "Remove", do, row.uid, **{"aria-label": f"Remove the {what} of {row.day}"})


def _fold(words: str, lines: list[Component]) -> Component:
    return html.Details([html.Summary(f"{words}: {len(lines)}"), html.Ul(lines)], className="fold")
