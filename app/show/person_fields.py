"""The fields of who throws."""

from collections.abc import Mapping

from dash import html
from dash.development.base_component import Component

from app.show import ids
from app.show.controls import choice, number_field, text_field
from app.show.form_fields import BY_AGE, LENGTHS, MARK, MARKS, MEASURES, Field
from app.show.throw_form import measure_name
from app.units.systems import METRIC, System


def athlete_fields(athlete: Mapping[str, str], system: System = METRIC, thrower: str = "") -> list[Component]:
    """Make the fields of a thrower.

    Parameters
    ----------
    athlete : mapping of str to str
        As kept.
    system : System
        The units they are shown in.
    thrower : str
        The first ("") or the second (`OTHER`).

    Returns
    -------
    list of Component
    """

    def measure(name: str) -> dict[str, str]:
        return {"type": ids.COMPARE_MEASURE, "name": measure_name(thrower, name)}

    def named(label: str, unit: str = "") -> str | Component:
        after = f", {unit}" if unit else ""
        whose = html.Span(" of the second thrower", className="hidden")
        return html.Span([label, whose, after]) if thrower else f"{label}{after}"

    def number(field: Field) -> Component:
        label = named(field.label, field.unit_in(system))
        return number_field(field, athlete[field.name], label, system, id=measure(field.name))

    def pick(name: str, label: str, words: tuple[str, ...]) -> Component:
        data = [{"value": word, "label": word} for word in words]
        return choice(named(label), data, athlete[name], id=measure(name), placeholder="choose", searchable=False)

    age, *size = (number(field) for field in MEASURES)
    marks = [{"value": key, "label": word} for key, word in MARKS.items()]
    marked = choice(
        named("Still growing"),
        marks,
        athlete[MARK] or BY_AGE,
        "by age: under 18",
        id=measure(MARK),
        searchable=False,
    )
    lengths = [number(field) for field in LENGTHS]
    opened = any(athlete[f.name].strip() for f in LENGTHS)
    return [
        text_field(named("Code"), "no names", value=athlete["code"], id=measure("code")),
        pick("sex", "Sex", ("male", "female")),
        pick("handedness", "Throwing hand", ("right", "left")),
        age,
        marked,
        *size,
        html.Details(
            [
                html.Summary("Measured arm lengths"),
                html.P("Between joint centres. Left out, a length is scaled from stature.", className="quiet"),
                html.Div(lengths, className="lengths"),
            ],
            open=opened,
            id=ids.COMPARE_LENGTHS_OTHER if thrower else ids.COMPARE_LENGTHS,
            className="fold",
        ),
    ]
