"""The page's callbacks: thin; they read the fields, call a pure function, and set the parts.

The fields on the page are the one truth. `change` runs when a button is pressed and makes fields anew; when any value
changed, `keep` checks each field and keeps both forms, while `draw` and `tell` show what follows from them.

The Compare form belongs to the Compare page's store. A second store of the same id would wake that page's callbacks,
whose other parts are not here; so this page reads the form from the browser's storage when it opens, and writes it
back there (`assets/athlete.js`).
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate
from flask import current_app

from app.demo import load_demo
from app.pages.athlete import advice, arm, caps, correction, grid, ids, speeds, strip
from app.pages.athlete.changes import (
    Change,
    added,
    cleared,
    loaded,
    put_back,
    put_in,
    read_choices,
    read_page,
    removed,
    with_own_ball,
)
from app.pages.athlete.meant import meant, read_written, written
from app.pages.athlete.parts import LABELS, typed_id
from app.pages.athlete.plot import shown_of, with_paper
from app.pages.athlete.shown import beside, details_of, grid_of, labels, mass_of, typed_shown
from app.pages.athlete.wild import wild_of
from app.show import ids as shared_ids
from app.show.basis import basis_of
from app.show.checks import check_athlete
from app.show.flat_form import texts_meant
from app.show.invented import is_invented
from app.show.kept import form_for, read_kept, write_kept
from app.show.markup import to_html
from app.show.meant import ATHLETE_FIELDS
from app.show.page_parts import changed_only, names_in
from app.show.palette import theme_named
from app.show.profile_form import TEXT_NAMES, ProfileForm, to_json
from app.show.read_form import read_form
from app.show.subject import Case, case_of
from app.show.throw_form import Form, FormError
from app.show.throw_form import to_json as compare_json
from app.show.throw_form_change import opening
from app.units.systems import System, system_named

MEASURE = {"type": ids.ATHLETE_MEASURE, "name": ALL}
CHOICE = {"type": ids.ATHLETE_CHOICE, "name": ALL}
TYPED = {"type": ids.ATHLETE_TYPED, "name": ALL}
BUTTONS = (ids.ATHLETE_ADD, ids.ATHLETE_CLEAR, ids.ATHLETE_PUT_BACK, ids.ATHLETE_DISMISS, ids.ATHLETE_PASTE_IN)
UNREAD = "What was kept from last time could not be read: the readings start anew."


def _fields(kind: type[Input] | type[State]) -> dict[str, Any]:
    """All that makes the two forms, as inputs or as states."""
    return {
        "cells": kind(ids.ATHLETE_CELLS, "data"),
        "choices": kind(CHOICE, "value"),
        "choice_ids": State(CHOICE, "id"),
        "typed": kind(TYPED, "value"),
        "typed_ids": State(TYPED, "id"),
        "radar": kind(ids.ATHLETE_SWITCH, "checked"),
        "measures": kind(MEASURE, "value"),
        "measure_ids": State(MEASURE, "id"),
        "written": State(ids.ATHLETE_WRITTEN, "data"),
    }


def _form(fields: dict[str, Any]) -> ProfileForm:
    _, before, system = read_written(fields.get("written"))
    choices = read_choices(_pairs(fields, "choice_ids", "choices") + _pairs(fields, "typed_ids", "typed"))
    return meant(read_page(fields["cells"], choices | {"radar": bool(fields["radar"])}), before, system)


def _pairs(fields: dict[str, Any], ids_name: str, values_name: str) -> list[tuple[dict[str, Any], Any]]:
    pairs = zip(fields[ids_name], fields[values_name], strict=False)
    return [(part, value) for part, value in pairs if isinstance(part, dict)]


def _kept(saved: Any) -> tuple[dict[str, ProfileForm], bool]:
    """The kept forms, and whether they could be read."""
    try:
        return read_kept(saved), True
    except FormError:
        return {}, False


def _compared(read: Any) -> Form:
    """The Compare form as the browser keeps it; what the Compare page would open with if it keeps none."""
    kept = read.get("kept") if isinstance(read, dict) else None
    return opening(kept, load_demo(), current_app.config["LEVELPEAK"].demo).form


def _typed_forms(fields: dict[str, Any], read: Any) -> tuple[Form, ProfileForm]:
    """Both forms as they stand on the page."""
    if not fields["measure_ids"] or fields["cells"] is None:
        raise PreventUpdate  # the page is opening: there are no fields yet
    return replace(_compared(read), athlete=_athlete(fields)), _form(fields)


def _athlete(fields: dict[str, Any]) -> dict[str, str]:
    page = read_form(list(zip(fields["measure_ids"], fields["measures"], strict=False)), [], {}).athlete
    before, _, system = read_written(fields.get("written"))
    return texts_meant(page, before.athlete, system, ATHLETE_FIELDS)


def _shown_in(fields: dict[str, Any]) -> System:
    """The units in which the fields are shown."""
    return read_written(fields.get("written"))[2]


def _case(fields: dict[str, Any], read: Any) -> Case:
    return case_of(*_typed_forms(fields, read), date.today(), _shown_in(fields))


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    _register_browser(app)
    app.callback(
        output={
            "measures": Output(ids.ATHLETE_MEASURES, "children"),
            "grid": Output(ids.ATHLETE_ROWS, "data"),
            "choices": Output(CHOICE, "value"),
            "typed": Output(TYPED, "value"),
            "radar": Output(ids.ATHLETE_SWITCH, "checked"),
            "cells": Output(ids.ATHLETE_CELLS, "data"),
            "notice": Output(ids.ATHLETE_NOTICE, "children"),
            "put_back_hidden": Output(ids.ATHLETE_PUT_BACK, "hidden"),
            "before": Output(ids.ATHLETE_BEFORE, "data"),
            "code": Output(ids.ATHLETE_CODE, "data"),
            "file": Output(ids.ATHLETE_FILE, "contents"),
            "pasted": Output(ids.ATHLETE_PASTE, "value"),
            "written": Output(ids.ATHLETE_WRITTEN, "data"),
            "labels": [Output(typed_id(name), "label") for name in LABELS],
            "descriptions": [Output(typed_id(name), "description") for name in LABELS],
            "hints": [Output(ids.ATHLETE_HINT, "children"), Output(ids.ATHLETE_PASTE, "description")],
        },
        inputs={
            "read": Input(ids.ATHLETE_READ, "data"),
            "pressed": {
                "buttons": [Input(button, "n_clicks") for button in BUTTONS],
                "file": Input(ids.ATHLETE_FILE, "contents"),
                "dropped": Input(ids.ATHLETE_DROPPED, "data"),
                "removed": Input(ids.ATHLETE_REMOVED, "data"),
            },
            "fields": _fields(State),
            "paste": [State(ids.ATHLETE_PASTE, "value"), State(ids.ATHLETE_PASTE_BALL, "value")],
            "saved": State(ids.ATHLETE_SAVED, "data"),
            "before": State(ids.ATHLETE_BEFORE, "data"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
        },
        prevent_initial_call=True,
    )(change)
    app.callback(
        output={
            "saved": Output(ids.ATHLETE_SAVED, "data"),
            "compared": Output(ids.ATHLETE_COMPARE, "data"),
            "code": Output(ids.ATHLETE_CODE, "data", allow_duplicate=True),
            "grid": Output(ids.ATHLETE_ROWS, "data", allow_duplicate=True),
            "notice": Output(ids.ATHLETE_NOTICE, "children", allow_duplicate=True),
            "balls": [Output(ids.ATHLETE_PASTE_BALL, "data"), Output({**CHOICE, "name": "throw_ball"}, "data")],
            "details": Output(ids.ATHLETE_DETAILED, "data"),
            "cells": Output(ids.ATHLETE_CELLS, "data", allow_duplicate=True),
            "written": Output(ids.ATHLETE_WRITTEN, "data", allow_duplicate=True),
            "problems": Output(ids.ATHLETE_PROBLEMS, "data"),
            "typed_errors": Output(TYPED, "error"),
            "measure_errors": Output(MEASURE, "error"),
            "invented": Output(ids.ATHLETE_INVENTED, "hidden"),
            "own_speed": Output({**TYPED, "name": "own_speed_m_s"}, "placeholder"),
        },
        inputs={
            "fields": _fields(Input),
            "opened": Input(ids.ATHLETE_DETAILS_OPEN, "n_clicks"),
            "errors": [State(TYPED, "error"), State(MEASURE, "error")],
            "shown": [State(ids.ATHLETE_PASTE_BALL, "data"), State(ids.ATHLETE_DETAILED, "data")],
            "kept": [State(ids.ATHLETE_SAVED, "data"), State(ids.ATHLETE_CODE, "data")],
            "read": State(ids.ATHLETE_READ, "data"),
            "compared": State(ids.ATHLETE_COMPARE, "data"),
        },
        prevent_initial_call=True,
    )(keep)
    everything = {"fields": _fields(Input), "read": State(ids.ATHLETE_READ, "data")}
    app.callback(
        output=[Output(ids.ATHLETE_FIGURE, "figure"), Output(ids.ATHLETE_DRAWN, "data")],
        inputs=everything
        | {"theme": Input(shared_ids.SHELL_THEME, "data"), "narrow": Input(ids.ATHLETE_NARROW, "data")},
    )(draw)
    app.callback(output=Output(ids.ATHLETE_TOLD, "data"), inputs=everything)(tell)


def _register_browser(app: Dash) -> None:
    def function(name: str) -> ClientsideFunction:
        return ClientsideFunction("athlete", name)

    app.clientside_callback(function("narrow"), Output(ids.ATHLETE_NARROW, "data"), Input(ids.ATHLETE_NARROW, "id"))
    app.clientside_callback(function("read"), Output(ids.ATHLETE_READ, "data"), Input(ids.ATHLETE_READ, "id"))
    app.clientside_callback(
        function("kept"),
        Input(ids.ATHLETE_COMPARE, "data"),
        Input(ids.ATHLETE_PROBLEMS, "data"),
    )
    app.clientside_callback(function("rows"), Input(ids.ATHLETE_ROWS, "data"), State(ids.ATHLETE_CELLS, "data"))
    app.clientside_callback(function("details"), Input(ids.ATHLETE_DETAILED, "data"))
    for told in (ids.ATHLETE_DRAWN, ids.ATHLETE_TOLD):
        app.clientside_callback(ClientsideFunction("shell", "fill"), Input(told, "data"))
    app.clientside_callback(function("card"), Input(ids.ATHLETE_CARD_PRINT, "n_clicks"))


def change(
    read: Any,
    pressed: dict[str, Any],
    fields: dict[str, Any],
    paste: list[Any],
    saved: Any,
    before: Any,
    units: Any = None,
) -> dict[str, Any]:
    """Open the page, show it in other units, or do what a button says."""
    compared = _compared(read)
    source = ctx.triggered_id
    system = system_named(units)
    if source == ids.ATHLETE_READ:
        return _opened(compared, saved, fields, system)
    if source == shared_ids.SHELL_UNITS:
        if system == _shown_in(fields):
            raise PreventUpdate
        now, profile = _typed_forms(fields, read)
        return _shown_anew(now, profile, fields, system)
    compared = replace(compared, athlete=_athlete(fields)) if fields["measure_ids"] else compared
    if not ctx.triggered or not ctx.triggered[0]["value"]:
        raise PreventUpdate  # a control that was just made, not one that was used
    form = _form(fields)
    dropped, gone = (pressed[name] if isinstance(pressed[name], dict) else {} for name in ("dropped", "removed"))
    done: dict[str, Callable[[], Change]] = {
        ids.ATHLETE_ADD: lambda: added(form),
        ids.ATHLETE_CLEAR: lambda: cleared(form),
        ids.ATHLETE_PUT_BACK: lambda: put_back(form, before),
        ids.ATHLETE_PASTE_IN: lambda: put_in(form, paste[0], paste[1], system=system),
        ids.ATHLETE_FILE: lambda: loaded(form, pressed["file"]),
        ids.ATHLETE_DROPPED: lambda: put_in(
            form, dropped.get("text"), dropped.get("ball"), dropped.get("cell"), system
        ),
        ids.ATHLETE_REMOVED: lambda: removed(form, str(gone.get("ball")), system),
    }
    if source not in done:  # put the notice away
        return _still(fields) | {"notice": "", "put_back_hidden": True}
    made = _changed(done[source](), form, compared, fields, system)
    if source == ids.ATHLETE_PASTE_IN and made["before"] is not no_update:
        made["pasted"] = ""  # put in; while it is not, the text stays
    if source == ids.ATHLETE_FILE:
        made["file"] = None  # so that the same file can be chosen again
    return made


def _still(fields: dict[str, Any]) -> dict[str, Any]:
    names = ("measures", "grid", "radar", "cells", "notice", "put_back_hidden", "before", "code", "file")
    return dict.fromkeys((*names, "pasted", "written"), no_update) | {
        "labels": [no_update] * len(LABELS),
        "descriptions": [no_update] * len(LABELS),
        "hints": [no_update] * 2,
        "choices": [no_update] * len(fields["choice_ids"]),
        "typed": [no_update] * len(fields["typed_ids"]),
    }


def _opened(compared: Form, saved: Any, fields: dict[str, Any], system: System) -> dict[str, Any]:
    forms, readable = _kept(saved)
    code = compared.athlete["code"].strip()
    form = form_for(forms, code, load_demo(), current_app.config["LEVELPEAK"].demo)
    made = _changed(Change(form, "" if readable else UNREAD), form, compared, fields, system)
    return made | labels(compared, system) | {"code": code}


def _shown_anew(compared: Form, form: ProfileForm, fields: dict[str, Any], system: System) -> dict[str, Any]:
    """The same in other units."""
    still = dict.fromkeys(("notice", "put_back_hidden", "before"), no_update)
    return _changed(Change(form), form, compared, fields, system) | labels(compared, system) | still


def _changed(
    made: Change, before: ProfileForm, compared: Form, fields: dict[str, Any], system: System
) -> dict[str, Any]:
    own = case_of(compared, ProfileForm(), date.today()).own_ball
    form = with_own_ball(made.form, own)
    return _still(fields) | {
        "grid": grid_of(form, own.mass_kg, system),
        "choices": [getattr(form, name) or None for name in names_in(fields["choice_ids"], TEXT_NAMES)],
        "typed": [typed_shown(form, name, system) for name in names_in(fields["typed_ids"], TEXT_NAMES)],
        "written": written(compared, form, system),
        "radar": form.radar == "on",
        "cells": grid.values(form, system),
        "notice": made.notice,
        "put_back_hidden": not made.undo,
        "before": to_json(before) if made.undo else no_update,
    }


def keep(
    fields: dict[str, Any], opened: Any, errors: list[Any], shown: list[Any], kept: list[Any], read: Any, compared: Any
) -> dict[str, Any]:
    """Check every field, and hand on what was typed."""
    now, form = _typed_forms(fields, read)
    saved, old_code = kept[0], kept[1] if isinstance(kept[1], str) else ""
    forms, _ = _kept(saved)
    code, other = now.athlete["code"].strip(), None
    if code != old_code:
        if code in forms and not forms[code].untouched:
            other = forms[code]  # another athlete
        else:
            forms.pop(old_code, None)  # the same athlete, under a new code
    form_now = other or form
    system = _shown_in(fields)
    case = case_of(now, form_now, date.today(), system)
    kept_now = write_kept(forms if other is None else forms | {old_code: form}, code, form_now)
    listed = [{"value": key, "label": mass_of(ball, system)} for key, ball in case.found.checked.balls]
    problems, people = case.found.checked.problems, check_athlete(now.athlete, system).problems
    as_compared, reference = compare_json(now), case.reference.speed_m_s
    return {
        "saved": no_update if kept_now == saved else kept_now,
        "compared": no_update if as_compared == compared else as_compared,
        "code": no_update if code == old_code else code,
        "grid": no_update if other is None else grid_of(other, case.own_ball.mass_kg, system),
        "cells": no_update if other is None else grid.values(other, system),
        "written": no_update if other is None else written(now, beside(form, other), system),
        "notice": no_update if other is None else f"The readings of {code} are shown; those of {old_code} are kept.",
        "balls": [no_update, no_update] if listed == shown[0] else [listed, listed],
        "details": details_of(opened, form_now, shown[1], system),
        "problems": {at: told for at, told in problems.items() if "/" in at},
        "typed_errors": changed_only([fields["typed_ids"], errors[0]], lambda part: problems.get(part.get("name", ""))),
        "invented": not is_invented(now, load_demo()),
        "measure_errors": changed_only(
            [fields["measure_ids"], errors[1]], lambda part: people.get(part.get("name", ""))
        ),
        "own_speed": "" if reference is None else f"{case.speed(reference)}, the reference throw",
    }


def draw(fields: dict[str, Any], read: Any, theme: Any, narrow: Any) -> tuple[dict[str, Any], dict[str, str]]:
    """Draw the plot and the strip, which stand on the same level points, with the words beside them."""
    case = _case(fields, read)
    wild = wild_of(case)
    shown = shown_of(case, [place for one in wild for place in one.places])
    return with_paper(shown, theme_named(theme), narrow is True), {
        ids.ATHLETE_ARM: to_html(arm.section(case)),
        ids.ATHLETE_USED: to_html(speeds.used(case)),
        ids.ATHLETE_WILD: to_html(speeds.wild_notes(wild)),
        ids.ATHLETE_FIGURE_NOTE: to_html(speeds.figure_note(case)),
        ids.ATHLETE_SPEEDS: to_html(speeds.table(case)),
        ids.ATHLETE_STRIP: to_html(strip.section(case)),
    }


def tell(fields: dict[str, Any], read: Any) -> dict[str, str]:
    """Work out what follows from the profile."""
    case, today = _case(fields, read), date.today()
    return {
        ids.ATHLETE_CAPS: to_html(caps.section(case, today.isoformat())),
        ids.ATHLETE_NEXT: to_html(advice.next_section(case)),
        ids.ATHLETE_EFFORT: to_html(advice.effort_section(case)),
        ids.ATHLETE_FLIGHT: to_html(advice.flight_section(case)),
        ids.ATHLETE_RADAR: to_html(correction.section(case, today)),
        ids.ATHLETE_BASIS: to_html(basis_of(case.person)),
    }
