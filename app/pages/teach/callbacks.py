"""The page's callbacks: thin; they read what was set up, call a pure function, and set the parts.

The kept session is the one truth: `change` writes it, `draw` shows it. The forms of the other pages are read from where
the browser keeps them, and never written.
"""

import base64
import binascii
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate
from flask import current_app

from app.demo import Demo, load_demo
from app.pages.teach import ids
from app.pages.teach.answers import ball_choices, ball_of, balls_of, lesson_of, text_of
from app.pages.teach.form import OF_FILE, Kept, Session, from_file, from_json, moved, switched, to_file, to_json
from app.pages.teach.parts import LARGEST_FILE_BYTES, move_id, step_rows
from app.pages.teach.view import view_of
from app.show import ids as shared_ids
from app.show.checks import check_athlete
from app.show.drawn import drawn
from app.show.invented import is_invented
from app.show.page_parts import dom_id
from app.show.subject import case_of
from app.show.throw_form import LONGEST_KEPT, FormError
from app.show.whose import OF_COMPARE, UNREAD, Whose, people, whose
from app.units.systems import System, system_named

BALL = {"type": ids.TEACH_BALL, "which": ALL}
MOVE = {"type": ids.TEACH_MOVE, "step": ALL, "move": ALL}

VIEW_OUTPUTS = {
    "story": Output(ids.TEACH_STORY, "data"),
    "empty": Output(ids.TEACH_EMPTY, "children"),
    "empty_hidden": Output(ids.TEACH_EMPTY, "hidden"),
    "body_hidden": Output(ids.TEACH_BODY, "hidden"),
    "who": Output(ids.TEACH_SHOWN_WHO, "children"),
    "caution": Output(ids.TEACH_CAUTION, "children"),
    "growing": Output(ids.TEACH_GROWING, "children"),
}
"""The parts that `View` fills one to one."""


def register(app: Dash) -> None:
    """Give the page's callbacks to the app.

    Parameters
    ----------
    app : Dash
    """
    app.callback(
        output={
            "saved": Output(ids.TEACH_SAVED, "data"),
            "said": Output(ids.TEACH_SAID, "children"),
            "focus": Output(ids.TEACH_FOCUS, "data"),
            "contents": Output(ids.TEACH_OPEN, "contents"),
            "steps": Output(ids.TEACH_STEPS, "children"),
            "people": Output(ids.TEACH_WHO, "data"),
            "who": Output(ids.TEACH_WHO, "value"),
            "rack": Output(BALL, "data"),
            "balls": Output(BALL, "value"),
            "named": Output(ids.TEACH_NAMED, "checked"),
        },
        inputs={
            "read": Input(ids.TEACH_READ, "data"),
            "who": Input(ids.TEACH_WHO, "value"),
            "balls": Input(BALL, "value"),
            "named": Input(ids.TEACH_NAMED, "checked"),
            "moves": Input(MOVE, "n_clicks"),
            "contents": Input(ids.TEACH_OPEN, "contents"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
            "saved": State(ids.TEACH_SAVED, "data"),
            "ball_ids": State(BALL, "id"),
        },
    )(change)
    app.callback(
        output={**VIEW_OUTPUTS, "invented": Output(ids.TEACH_INVENTED, "hidden")},
        inputs={
            "saved": Input(ids.TEACH_SAVED, "data"),
            "units": Input(shared_ids.SHELL_UNITS, "data"),
            "read": State(ids.TEACH_READ, "data"),
        },
    )(draw)
    app.callback(
        Output(ids.TEACH_FILE, "data"),
        Input(ids.TEACH_SAVE, "n_clicks"),
        State(ids.TEACH_SAVED, "data"),
        State(ids.TEACH_READ, "data"),
        prevent_initial_call=True,
    )(save)
    drawn(app, read=ids.TEACH_READ)
    app.clientside_callback(ClientsideFunction("teach", "story"), Input(ids.TEACH_STORY, "data"))
    app.clientside_callback(ClientsideFunction("compare", "focus"), Input(ids.TEACH_FOCUS, "data"))


def _kept(saved: Any) -> Kept:
    try:
        return from_json(saved)
    except FormError:
        return Kept()


def _whose(kept: Kept, read: Any) -> Whose:
    """The forms of the arm that is shown."""
    if kept.session.who == OF_FILE and kept.brought is not None:
        return kept.brought
    return whose(kept.session.who, read, load_demo(), current_app.config["LEVELPEAK"].demo)


def change(
    read: Any,
    who: Any,
    balls: Sequence[Any],
    named: Any,
    moves: Sequence[Any],
    contents: Any,
    units: Any,
    saved: Any,
    ball_ids: Sequence[Any],
) -> dict[str, Any]:
    """Open the page, take over a choice, move or drop a step, or open a file."""
    if not isinstance(read, dict):
        raise PreventUpdate  # the page is opening, and the browser was not asked yet what it keeps
    kept, source = _kept(saved), ctx.triggered_id
    said: Any = ""
    focus = ""
    if source in (None, ids.TEACH_READ):
        said = no_update  # also when the list of steps was made anew: what was said before still holds
        if saved is not None and kept == Kept() and saved != to_json(kept):
            said = "The session that was kept could not be read: the usual one is shown."
        elif _whose(kept, read).unread:
            said = UNREAD
    elif source == ids.TEACH_OPEN:
        kept, said = opened_file(kept, contents)
    elif isinstance(source, dict) and source.get("type") == ids.TEACH_MOVE:
        kept, focus = _moved(kept, source, moves)
    elif source != shared_ids.SHELL_UNITS:
        kept = replace(kept, session=chosen(kept, who, balls, named))
    told = {"saved": to_json(kept), "said": said, "focus": focus, "contents": None}
    return told | _setup(kept, read, system_named(units), ball_ids)


def _setup(kept: Kept, read: Any, system: System, ball_ids: Sequence[Any]) -> dict[str, Any]:
    """The controls as they show what is set up."""
    session = kept.session
    arm = _whose(kept, read)
    case = case_of(arm.compared, arm.profile, date.today(), system)
    balls = dict(zip(("second", "third"), map(text_of, balls_of(session, case)), strict=True))
    offered = people_of(kept, load_demo())
    return {
        "steps": step_rows(session),
        "people": offered,
        "who": session.who if session.who in {one["value"] for one in offered} else OF_COMPARE,
        "rack": [ball_choices(session, case)] * len(ball_ids),
        "balls": in_place(balls, ball_ids),
        "named": session.named == "yes",
    }


def in_place(balls: Mapping[str, str], ball_ids: Sequence[Any]) -> list[str | None]:
    """Put the balls in the order of their controls.

    Parameters
    ----------
    balls : mapping of str to str
        By ``second`` and ``third``.
    ball_ids : sequence
        Ids of the controls, as the browser sent them.

    Returns
    -------
    list of str or None
        None for what is no control of a ball.
    """
    return [balls.get(str(part.get("which"))) if isinstance(part, dict) else None for part in ball_ids]


def _moved(kept: Kept, source: dict[str, Any], clicks: Sequence[Any]) -> tuple[Kept, str]:
    if not any(clicks):
        raise PreventUpdate  # buttons that were just made, not one that was pressed
    step, move = str(source.get("step")), str(source.get("move"))
    session = kept.session
    session = switched(session, step) if move == "switch" else moved(session, step, -1 if move == "up" else 1)
    if not session.shown:
        raise PreventUpdate  # a story has at least one step
    ends = [session.order[0][0], session.order[-1][0]]
    goes_on = {"up": "down", "down": "up"}.get(move, move) if step in ends else move
    return replace(kept, session=session), dom_id(move_id(step, goes_on))


def chosen(kept: Kept, who: Any, balls: Sequence[Any], named: Any) -> Session:
    """Take over what was chosen; a choice that is none of those offered leaves things as they are.

    Parameters
    ----------
    kept : Kept
    who : object
        Whose arm, as the browser sent it.
    balls : sequence of object
        The second and the third ball.
    named : object
        Whether the switch is on.

    Returns
    -------
    Session
    """
    session = kept.session
    offered = {one["value"] for one in people_of(kept, load_demo())}
    if isinstance(who, str) and who in offered and who != session.who:
        session = replace(session, who=who, second="", third="")  # another athlete has other balls
    else:
        texts = dict(zip(("second", "third"), balls, strict=False))
        for which, text in texts.items():
            if isinstance(text, str) and len(text) <= LONGEST_KEPT and ball_of(text) is not None:
                session = replace(session, **{which: text})
    return replace(session, named="yes" if named is True else "")


def people_of(kept: Kept, demo: Demo) -> list[dict[str, Any]]:
    """Whose arm can be shown.

    Parameters
    ----------
    kept : Kept
    demo : Demo

    Returns
    -------
    list of dict
        ``value`` and ``label``.
    """
    file = [{"value": OF_FILE, "label": "athlete of the opened file"}] if kept.brought is not None else []
    first, *others = people(demo)
    return [first, *file, *others]


def opened_file(kept: Kept, contents: Any) -> tuple[Kept, str]:
    """Open a session's file.

    Parameters
    ----------
    kept : Kept
        What stays if it cannot be read.
    contents : object
        A data URL, as `dcc.Upload` sends it.

    Returns
    -------
    Kept
    str
        What is said about it.
    """
    if contents is None:
        raise PreventUpdate
    try:
        data = base64.b64decode(str(contents).partition(",")[2], validate=True)
    except (binascii.Error, ValueError):
        return kept, "The file was not opened: it did not arrive whole."
    if len(data) > LARGEST_FILE_BYTES:
        return kept, (
            f"The file was not opened: {len(data) // 1000} kB given; accepted: up to {LARGEST_FILE_BYTES // 1000} kB."
        )
    try:
        return from_file(data), "The session was opened. Compare and Athlete stay as they are."
    except FormError as error:
        return kept, f"The file was not opened: {error}."


def draw(saved: Any, units: Any, read: Any) -> dict[str, Any]:
    """Work out the lesson and put it into words and pictures."""
    if not isinstance(read, dict) or saved is None:
        raise PreventUpdate  # the page is opening
    kept, today = _kept(saved), date.today()
    arm, system = _whose(kept, read), system_named(units)
    case, lesson = lesson_of(kept.session, arm.compared, arm.profile, today, system)
    invented = is_invented(arm.compared, load_demo())
    problems = check_athlete(arm.compared.athlete, system).problems
    view = view_of(kept.session, case, lesson, problems, invented, today)
    return {name: getattr(view, name) for name in VIEW_OUTPUTS} | {"invented": not invented}


def save(clicks: Any, saved: Any, read: Any) -> dict[str, str]:
    """Write the session as a file."""
    if not clicks:
        raise PreventUpdate  # a button that was just made
    kept = _kept(saved)
    arm = _whose(kept, read)
    text = to_file(kept.session, arm.compared, arm.profile)
    return {"content": text, "filename": f"session_{date.today().isoformat()}.json", "type": "application/json"}
