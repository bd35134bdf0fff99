"""The page's callbacks: thin; they read the records anew, call a pure function, and set the parts."""

import base64
import binascii
from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, State, ctx, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import Visit, hand_of, visit_again
from app.pages.athlete import advice, arm, caps, correction, dated, ids, over_time, speeds, strip
from app.pages.athlete.drawing import with_paper
from app.pages.athlete.grid import DAY, readings_day
from app.pages.athlete.paste import Pasted, PasteError, from_csv, pasted
from app.pages.athlete.plot import figure, shown_of
from app.pages.athlete.putting import acts_of, dropped, masses_of
from app.pages.athlete.wild import wild_of
from app.records.acts import TEAM
from app.records.faults import RecordsError
from app.records.fields import LONGEST_NUMBER
from app.records.reads import AthleteData
from app.show import ids as shared_ids
from app.show.basis import basis_of
from app.show.counted import readings_since
from app.show.from_records import case_of
from app.show.markup import to_html
from app.show.palette import theme_named
from app.show.subject import Case


def register(app: Dash) -> None:
    """Give the page's callbacks to the app."""
    version, here = Input(bound.VERSION, "data"), State(bound.HERE, "data")
    theme, narrow = Input(shared_ids.SHELL_THEME, "data"), Input(ids.ATHLETE_NARROW, "data")
    app.callback(Output(ids.ATHLETE_FIGURE, "figure"), Output(ids.ATHLETE_DRAWN, "data"), version, theme, narrow, here)(
        draw
    )
    app.callback(
        Output(ids.ATHLETE_OVER_TIME, "figure"),
        Output(ids.ATHLETE_OVER_TIME_SAID, "children"),
        Output(ids.ATHLETE_OVER_TIME_PLACE, "hidden"),
        version,
        theme,
        narrow,
        here,
    )(draw_over_time)
    app.callback(Output(ids.ATHLETE_TOLD, "data"), version, here)(tell)
    app.callback(
        Output(ids.ATHLETE_LISTED, "data"),
        Output(ids.ATHLETE_MONTH, "data"),
        version,
        Input(ids.ATHLETE_MONTH, "value"),
        here,
    )(list_readings)
    app.callback(
        Output(ids.ATHLETE_NOTICE, "children"),
        Output(ids.ATHLETE_FILE, "contents"),
        Input(ids.ATHLETE_PASTE_IN, "n_clicks"),
        Input(ids.ATHLETE_FILE, "contents"),
        Input(ids.ATHLETE_DROPPED, "value"),
        State(ids.ATHLETE_PASTE, "value"),
        State(ids.ATHLETE_PASTE_BALL, "value"),
        here,
        State(bound.VERSION, "data"),
        prevent_initial_call=True,
    )(put_in)
    app.callback(Input(ids.ATHLETE_DAY, "value"), here, prevent_initial_call=True)(of_day)
    for store in (ids.ATHLETE_DRAWN, ids.ATHLETE_TOLD):
        app.clientside_callback(ClientsideFunction("shell", "fill"), Input(store, "data"))
    for function, of in (
        ("list", Input(ids.ATHLETE_LISTED, "data")),
        ("card", Input(ids.ATHLETE_CARD_PRINT, "n_clicks")),
    ):
        app.clientside_callback(ClientsideFunction("athlete", function), of)
    app.clientside_callback(
        ClientsideFunction("athlete", "cells"),
        Output(ids.ATHLETE_GRID, "data-filled"),
        Input(ids.ATHLETE_CELLS, "data"),
    )
    app.clientside_callback(
        ClientsideFunction("athlete", "narrow"), Output(ids.ATHLETE_NARROW, "data"), Input(ids.ATHLETE_NARROW, "id")
    )


def _known(here: Any) -> tuple[Visit, AthleteData]:
    visit = visit_again(here)
    if visit.data is None:
        raise PreventUpdate
    return visit, visit.data


def _case(visit: Visit, data: AthleteData) -> Case:
    return case_of(data, visit.today, visit.system)


def draw(_: Any, theme: Any, narrow: Any, here: Any) -> tuple[dict[str, Any], dict[str, str]]:
    """Draw the plot and the strip, which stand on the same level points, with the words beside them."""
    visit, data = _known(here)
    case, since = _case(visit, data), readings_since(data, visit.today)
    wild = wild_of(case)
    shown = shown_of(case, [place for one in wild for place in one.places], over_time.older_speeds(data, case, since))
    which = speeds.counted(data, since, data.settings["profile.since"] is not None)
    return with_paper(figure, shown, theme_named(theme), narrow is True), {
        ids.ATHLETE_ARM: to_html(arm.section(case)),
        ids.ATHLETE_USED: to_html(speeds.used(case, which)),
        ids.ATHLETE_WILD: to_html(speeds.wild_notes(wild)),
        ids.ATHLETE_FIGURE_NOTE: to_html(speeds.figure_note(case)),
        ids.ATHLETE_SPEEDS: to_html(speeds.table(case)),
        ids.ATHLETE_STRIP: to_html(strip.section(case)),
    }


def draw_over_time(_: Any, theme: Any, narrow: Any, here: Any) -> tuple[dict[str, Any], list[Any], bool]:
    """Draw the own-ball speed over time, and say whether it rose."""
    visit, data = _known(here)
    over = over_time.over_time_of(data, _case(visit, data), readings_since(data, visit.today))
    drawn = with_paper(over_time.figure, over, theme_named(theme), narrow is True)
    return drawn, over_time.section(over), not (over.days or over.older)


def of_day(text: Any, here: Any) -> None:
    """Give new readings another day: the page is made anew with it in its address."""
    visit = visit_again(here)
    if not isinstance(text, str) or text.strip() == readings_day(visit)[1]:
        raise PreventUpdate
    asked = {key: value for key, value in visit.asked.items() if key != DAY}
    day = {} if text.strip() in ("", visit.today.isoformat()) else {DAY: text.strip()[:LONGEST_NUMBER]}
    set_props(shared_ids.SHELL_URL, {"search": visit.address("", **asked, **day)})


def tell(_: Any, here: Any) -> dict[str, str]:
    """Work out what follows from the profile."""
    visit, data = _known(here)
    case, today = _case(visit, data), visit.today
    return {
        ids.ATHLETE_CAPS: to_html(caps.section(case, today.isoformat())),
        ids.ATHLETE_NEXT: to_html(advice.next_section(case)),
        ids.ATHLETE_EFFORT: to_html(advice.effort_section(case)),
        ids.ATHLETE_FLIGHT: to_html(advice.flight_section(case)),
        ids.ATHLETE_RADAR: to_html(correction.section(case)),
        ids.ATHLETE_BASIS: to_html(basis_of(case.person)),
    }


def list_readings(_: Any, month: Any, here: Any) -> tuple[dict[str, str], list[dict[str, str]]]:
    """Make the dated list of readings, as HTML, with the first day that counts; and the months that it can show."""
    visit, data = _known(here)
    months = dated.months(data)
    known = month if any(one["value"] == month for one in months) else dated.NEWEST
    since = readings_since(data, visit.today)
    html = dated.list_html(visit, data, known, since)
    return {"html": html, "since": since.isoformat() if since else ""}, months


def put_in(_: Any, contents: Any, cell: Any, text: Any, ball: Any, here: Any, seen: Any) -> tuple[str, str | None]:
    """Put in what was pasted or loaded, as one act; or say why not, and leave the text where it is."""
    if not ctx.triggered or not ctx.triggered[0]["value"]:
        raise PreventUpdate  # a control that was just made, not one that was used
    visit, data = _known(here)
    try:
        found = _read(ctx.triggered_id, visit, data, contents, cell, (text, ball))
        notice = put(visit, found, here, seen)
    except (PasteError, RecordsError) as error:
        return str(error), None
    set_props(bound.REFRESH, {"data": {"said": notice, "focus": ids.ATHLETE_PASTE_IN}})
    return "", None


def _read(source: Any, visit: Visit, data: AthleteData, contents: Any, cell: Any, typed: tuple[Any, Any]) -> Pasted:
    masses = masses_of(data)
    if source == ids.ATHLETE_FILE:
        try:
            return from_csv(masses, base64.b64decode(str(contents).partition(",")[2], validate=True))
        except binascii.Error:
            raise PasteError("The file was not read: it did not arrive whole.") from None
    if source == ids.ATHLETE_DROPPED:
        text, place = dropped(cell)
        return pasted(text, masses, "", place, visit.system)
    text, ball = (one if isinstance(one, str) else "" for one in typed)
    return pasted(text, masses, ball, None, visit.system)


def put(visit: Visit, found: Pasted, here: Any, seen: Any) -> str:
    """Keep pasted readings: one act of the athlete's, which one Undo takes back; new balls are the team's."""
    balls, readings = acts_of(found.readings, readings_day(visit)[0])
    if balls:
        visit.store.act(TEAM, balls, hand_of(here, seen, None, TEAM), visit.system)
    acted = visit.store.act(visit.owner, readings, hand_of(here, seen, None, visit.owner), found.system)
    if acted.stopped:
        raise PasteError("Not put in: " + next(one.message for one in acted.outcomes if one.message))
    told = [found.notice]
    told += [f"{len(balls)} new in the team’s balls."] if balls else []
    told += list(dict.fromkeys(one.message for one in acted.outcomes if one.message))[:3]
    return " ".join(told)
