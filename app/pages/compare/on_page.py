"""What the callbacks read off the page, the fields as one form and the athletes' readings; and what they set on it."""

from datetime import date
from typing import Any

from dash import ALL, Input, Output, State
from flask import current_app

from app.demo import load_demo
from app.pages.compare import ids
from app.pages.compare.holding import settled
from app.pages.compare.throwers import clocks_kept_since
from app.show import ids as shared_ids
from app.show.kept import form_of
from app.show.meant import meant, read_written
from app.show.read_form import read_form
from app.show.subject import Case, case_of
from app.show.throw_form import OTHER, Form, swapped
from app.units.systems import System
from model.speed import SpeedProfile

MEASURE = {"type": shared_ids.COMPARE_MEASURE, "name": ALL}
THROW = {"type": ids.COMPARE_THROW, "throw": ALL, "name": ALL}
SAMPLE = {"type": ids.COMPARE_SAMPLE, "throw": ALL}
MOVE = {"type": ids.COMPARE_MOVE, "throw": ALL, "move": ALL}
HOLD = {"type": ids.COMPARE_THROW, "throw": ALL, "name": "hold"}
HELD = {"type": ids.COMPARE_HELD, "throw": ALL}

CHOSEN = {
    "reference": ids.COMPARE_REFERENCE,
    "kind": ids.COMPARE_KIND,
    "date": ids.COMPARE_DATE,
    "quantity": ids.COMPARE_QUANTITY,
    "headline": ids.COMPARE_HEADLINE,
    "above": ids.COMPARE_ABOVE,
    "align": ids.COMPARE_ALIGN,
    "scale": ids.COMPARE_SCALE,
}

PICKED = {"reference", "kind", "quantity", "headline", "align", "scale"}
"""Those that are chosen, not typed: nothing chosen is None."""


VIEW_OUTPUTS = {
    "summary": Output(ids.COMPARE_SUMMARY, "children"),
    "sentence": Output(ids.COMPARE_SENTENCE, "children"),
    "others": Output(ids.COMPARE_OTHERS, "children"),
    "warnings": Output(ids.COMPARE_WARNINGS, "children"),
    "figure_title": Output(ids.COMPARE_FIGURE_TITLE, "children"),
    "figure_note": Output(ids.COMPARE_FIGURE_NOTE, "children"),
    "table": Output(ids.COMPARE_TABLE, "children"),
    "headline_choices": Output(ids.COMPARE_HEADLINE, "data"),
    "headline_default": Output(ids.COMPARE_HEADLINE, "placeholder"),
    "level_label": Output(ids.COMPARE_ABOVE, "label"),
    "level_placeholder": Output(ids.COMPARE_ABOVE, "placeholder"),
    "level_problem": Output(ids.COMPARE_ABOVE, "error"),
    "date_problem": Output(ids.COMPARE_DATE, "error"),
    "date_off": Output(ids.COMPARE_DATE, "disabled"),
    "kind_off": Output(ids.COMPARE_KIND, "disabled"),
}
"""The parts that `View` fills one to one."""


def fields_of(kind: type[Input] | type[State]) -> dict[str, Any]:
    """All that makes the form, as inputs or as states."""
    return {
        "measures": kind(MEASURE, "value"),
        "measure_ids": State(MEASURE, "id"),
        "throws": kind(THROW, "value"),
        "throw_ids": State(THROW, "id"),
        "chosen": {name: kind(part, "value") for name, part in CHOSEN.items()},
        "written": kind(ids.COMPARE_WRITTEN, "data"),
    }


FIELDS = fields_of(State)
"""All that makes the form, for a callback that a button starts."""


def form_of_fields(fields: dict[str, Any]) -> tuple[Form, System]:
    """The form, and the units in which the fields show it."""
    measures = list(zip(fields["measure_ids"], fields["measures"], strict=False))
    throws = list(zip(fields["throw_ids"], fields["throws"], strict=False))
    before, system = read_written(fields.get("written"))
    return meant(read_form(measures, throws, fields["chosen"]), before, system), system


def as_drawn(fields: dict[str, Any], saved: Any, profiles: Any) -> tuple[Form, dict[str, SpeedProfile], System]:
    """The form of the fields, the speed profiles its throws may be held on, and the units it is shown in.

    Throws whose hold or whose athlete was just changed are as `change` is about to write them into the fields.
    """
    form, system = form_of_fields(fields)
    known = profiles_of_form(form, profiles)
    return settled(clocks_kept_since(saved, form), known), known, system


def profiles_of_form(form: Form, profiles: Any) -> dict[str, SpeedProfile]:
    """The speed profile of each thrower, where a throw is held on it and there is one."""
    needed = {throw.thrower for throw in form.throws if throw.held == "profile"}
    found = {thrower: case_of_form(form, profiles, thrower).profile for thrower in needed}
    return {thrower: profile for thrower, profile in found.items() if profile is not None}


def case_of_form(form: Form, profiles: Any, thrower: str = "") -> Case:
    """A thrower with the readings that the Athlete page keeps."""
    seen = swapped(form) if thrower else form
    readings, _ = form_of(profiles, seen, load_demo(), current_app.config["LEVELPEAK"].demo)
    return case_of(seen, readings, date.today())


def cases_of_form(form: Form, profiles: Any) -> dict[str, Case]:
    """Both throwers so."""
    return {thrower: case_of_form(form, profiles, thrower) for thrower in ("", OTHER)}
