"""The page's callbacks: thin; they read the fields, call a pure function, and set the parts.

The fields on the page are the one truth, with what they were made from beside them, see `meant`. `change` runs when a
button is pressed or other units are chosen, and makes fields anew; `draw` runs when any value changed and draws what
follows from the fields; as soon as that is on the screen the browser keeps the form, and `tell` puts what was kept into
words. What was kept from before is read once, when the page opens.
"""

from datetime import date
from typing import Any

from dash import ctx, no_update
from dash.exceptions import PreventUpdate
from flask import current_app

from app.demo import load_demo
from app.pages.compare import ids
from app.pages.compare.along.link import opened
from app.pages.compare.answers import compare
from app.pages.compare.changes import added, emptied, held_otherwise, moved, put_back, readied, restored
from app.pages.compare.checks import check_throwers
from app.pages.compare.moving import identity_of, moving_of
from app.pages.compare.multiples import multiples
from app.pages.compare.on_page import (
    CHOSEN,
    PICKED,
    VIEW_OUTPUTS,
    as_drawn,
    cases_of_form,
    form_of_fields,
    profiles_of_form,
)
from app.pages.compare.parts import rack_choices
from app.pages.compare.picture import figure_of, paper_of, samples_of
from app.pages.compare.rows import rows, sizes_id
from app.pages.compare.throwers import exchanged, filled, joined, released_as_before, remeasured, without_second
from app.pages.compare.view import view_of
from app.pages.compare.words import invented_words
from app.show import ids as shared_ids
from app.show.axes import width_px
from app.show.basis import basis_of
from app.show.cautions import cautioned
from app.show.invented import invented_throwers
from app.show.joint_centres import chain_of
from app.show.markup import to_html
from app.show.meant import meant, read_written, written
from app.show.page_parts import changed_only, dom_id
from app.show.palette import theme_named
from app.show.person_fields import athlete_fields
from app.show.read_form import read_form
from app.show.throw_form import OTHER, Form, FormError, from_json, measure_name, to_json
from app.show.throw_form_change import Change, opening
from app.units.systems import System, system_named

NARROW_PX = 560.0  # a figure below this is narrow: lower, with smaller type and two small panels side by side


def change(
    pressed: dict[str, Any], fields: dict[str, Any], saved: Any, before: Any, profiles: Any, units: Any = None
) -> dict[str, Any]:
    """Open the page, or do what a button or a choice says; see `changes`."""
    demo = load_demo()
    source = ctx.triggered_id
    form, shown = form_of_fields(fields)
    system = system_named(units)
    if source is None or not fields["measure_ids"]:
        return _changed(opening(saved, demo, current_app.config["LEVELPEAK"].demo), None, system, everything=True)
    if source == shared_ids.SHELL_UNITS:
        if system == shown:
            raise PreventUpdate
        still = dict.fromkeys(("notice", "put_back_hidden", "speeds_hidden", "before"), no_update)
        return _changed(Change(form), None, system, everything=True) | still
    if not ctx.triggered[0]["value"]:
        raise PreventUpdate  # a control that was just made, not one that was used
    if isinstance(source, dict):
        made = _worked(source, form, saved, before, profiles, system)
        if made is None:
            raise PreventUpdate  # nothing follows from what was chosen or typed
        return _changed(made, form, system)
    if source == ids.COMPARE_DISMISS:
        kept = ("athlete", "other", "second_hidden", "join_hidden", "rows", "before", "focus", "balls", "written")
        still = dict.fromkeys((*kept, "choose", "choose_other", "rack", "ready"), no_update)
        hidden = {"put_back_hidden": True, "speeds_hidden": True}
        return still | hidden | {"chosen": dict.fromkeys(CHOSEN, no_update), "notice": ""}
    if source == ids.COMPARE_JOIN:
        focus = dom_id({"type": shared_ids.COMPARE_MEASURE, "name": measure_name(OTHER, "code")})
        return _changed(Change(form, focus=focus), form, system, everything=True, joining=True)
    if source == ids.COMPARE_ADD:
        return _changed(added(form, demo), form, system)
    if source == ids.COMPARE_RACK:
        return _changed(added(form, demo, pressed["rack"]), form, system)
    whole = {
        ids.COMPARE_EXAMPLE: lambda: filled(form, demo, demo.athletes[0].athlete),
        ids.COMPARE_CHOOSE: lambda: filled(form, demo, pressed["choose"]),
        ids.COMPARE_CLEAR: lambda: emptied(form),
        ids.COMPARE_LINK_OPENED: lambda: opened(form, pressed["link"]),
        ids.COMPARE_PUT_BACK: lambda: put_back(form, before),
        ids.COMPARE_KEEP_SPEEDS: lambda: released_as_before(form, before),
        ids.COMPARE_READY: lambda: readied(form, pressed["ready"], cases_of_form(form, profiles)),
        ids.COMPARE_CHOOSE_OTHER: lambda: joined(form, demo, pressed["choose_other"]),
        ids.COMPARE_EXCHANGE: lambda: exchanged(form),
        ids.COMPARE_ALONE: lambda: without_second(form),
        ids.COMPARE_RESTORE: lambda: restored(form, pressed["restored"]),
    }
    return _changed(whole[source](), form, system, everything=True)


def _worked(
    source: dict[str, str], form: Form, saved: Any, before: Any, profiles: Any, system: System
) -> Change | None:
    """What follows from a control of a throw or of the athlete; None where nothing does."""
    if source.get("type") == ids.COMPARE_MOVE:
        return moved(form, str(source.get("throw")), str(source.get("move")))
    if source.get("type") == shared_ids.COMPARE_MEASURE:
        return remeasured(form, saved, before, system)
    return held_otherwise(form, str(source.get("throw")), profiles_of_form(form, profiles))


def _changed(
    made: Change, before: Form | None, system: System, everything: bool = False, joining: bool = False
) -> dict[str, Any]:
    form, before = made.form, made.before or before
    second = form.two or joining
    kept = to_json(before) if made.undo and before is not None else None
    return {
        "athlete": athlete_fields(form.athlete, system) if everything else no_update,
        "other": (athlete_fields(form.other, system, OTHER) if second else []) if everything else no_update,
        "second_hidden": not second if everything else no_update,
        "join_hidden": second if everything else no_update,
        "rows": rows(form, system),
        "chosen": {name: getattr(form, name) or None if name in PICKED else getattr(form, name) for name in CHOSEN},
        "notice": made.notice,
        "put_back_hidden": kept is None,
        "speeds_hidden": not made.speeds,
        "before": kept,
        "focus": made.focus,
        "choose": None,
        "choose_other": None,
        "rack": None,
        "ready": None,
        "balls": rack_choices(load_demo(), system) if everything else no_update,
        "written": written(form, system),
    }


def draw(
    fields: dict[str, Any],
    theme: Any,
    width: Any,
    samples: list[list[Any]],
    saved: Any,
    profiles: Any,
    identity: Any = None,
) -> dict[str, Any]:
    """Draw what follows from the fields. The form goes along with the figure, to be kept once that is on the screen."""
    if not fields["measure_ids"]:
        raise PreventUpdate  # the page is opening: there are no fields yet, and nothing to keep
    form, known, system = as_drawn(fields, saved, profiles)
    comparison = compare(form, date.today(), known, system)
    worn = theme_named(theme)
    wide = width_px(width)
    figure = figure_of(comparison, worn, wide < NARROW_PX, wide)
    keys = [trace["meta"] for trace in figure["data"] if "meta" in trace]
    figure["layout"]["meta"] = {"form": to_json(form)} | moving_of(comparison, keys)
    styles, needed = samples_of(comparison, worn), identity_of(comparison)
    return {
        "figure": figure,
        "samples": changed_only(samples, lambda part: styles.get(part.get("throw", ""), {})),
        "identity": no_update if needed == identity else needed,
    }


def draw_every(opened: Any, saved: Any, theme: Any, width: Any, profiles: Any) -> dict[str, Any]:
    """Draw every quantity, while its fold is open."""
    if opened is not True:
        raise PreventUpdate
    try:
        form = from_json(saved)
    except FormError:
        raise PreventUpdate from None
    comparison = compare(form, date.today(), profiles_of_form(form, profiles))
    return multiples(comparison, theme_named(theme), width_px(width) < NARROW_PX)


def tell(
    saved: Any,
    measures: list[list[Any]],
    throws: list[list[Any]],
    held: list[list[Any]],
    profiles: Any,
    written: Any = None,
) -> dict[str, Any]:
    """Put into words what was drawn; it comes second, so that the curve never waits for the words."""
    try:
        form = from_json(saved)
    except FormError:
        raise PreventUpdate from None  # nothing was kept yet
    comparison = compare(form, date.today(), profiles_of_form(form, profiles), read_written(written)[1])
    view = view_of(form, comparison)
    said = invented_words(comparison, invented_throwers(form, load_demo()))
    return {
        "view": {name: getattr(view, name) for name in VIEW_OUTPUTS},
        "paper": paper_of(comparison),
        "invented": said,
        "invented_hidden": not said,
        "measure_errors": changed_only(measures, lambda part: view.measure_problems.get(part.get("name", ""))),
        "throw_errors": changed_only(
            throws, lambda part: view.throw_problems.get(part.get("throw", ""), {}).get(part.get("name", ""))
        ),
        "told": {dom_id(sizes_id(key)): to_html(part) for key, part in view.sizes.items()},
        "held": changed_only(held, lambda part: view.held.get(part.get("throw", ""), "")),
    }


def rest_on(measures: list[Any], measure_ids: list[Any], written: Any = None) -> tuple[Any, dict[str, Any]]:
    """Say what the page rests on for these throwers, and give their line figures."""
    if not measure_ids:
        raise PreventUpdate  # the page is opening: there are no fields yet
    page = read_form(list(zip(measure_ids, measures, strict=False)), [], {})
    people = {by: who.person for by, who in check_throwers(meant(page, *read_written(written))).items()}
    second = measure_name(OTHER, "code") in [part.get("name") for part in measure_ids if isinstance(part, dict)]
    there = people.values() if second else [people[""]]
    return basis_of(cautioned(there)), {by: chain_of(person) for by, person in people.items()}
