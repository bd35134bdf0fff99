"""A session of no plan: its fields, which the records keep while they are filled in, and what its buttons do."""

from collections.abc import Mapping
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.bind.edit import Doing, dom_id
from app.bind.fields import act_button, bound
from app.bind.ids import field_id
from app.bind.visit import Visit
from app.pages.log import ids
from app.pages.log.words import counted, day_words
from app.records.acts import Act, Add, Edit, Put, Remove
from app.records.field_list import SETTINGS
from app.records.fields import in_words
from app.records.reads import AthleteData, in_field
from app.records.tables import Ball as KeptBall
from app.records.tables import SessionLog
from app.show.ball_words import ball_words
from app.show.page_parts import page_link
from app.show.sessions import ball_in
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.checks import InputError

FIELDS = ("log.day", "log.ball", "log.throws", "log.top_speed_m_s", "log.note")
NEEDED = ("log.throws", "log.top_speed_m_s")
GONE = "This session was removed in the meantime."


def enter(visit: Visit) -> Component:
    """Make the part in which a session of no plan is entered, or changed."""
    changed, choices = changed_row(visit), ball_choices(visit)
    head = "Enter a session outside a plan" if changed is None else f"The session of {day_words(changed.day)}, changed"
    build_up = [page_link("Build up", visit.address("/build-up")), ": what is noted there decides what comes next."]
    no_balls = html.P(["No ball is known yet. ", page_link("Enter one on Athlete", visit.address("/athlete")), "."])
    today: dict[str, Any] = {"placeholder": visit.today.isoformat(), "said": "year-month-day; today if left empty"}
    fields = [
        bound(visit, "log.day", label="Day", **today),
        bound(visit, "log.ball", label="Ball", data=choices, **as_it_was(visit, changed)),
        bound(visit, "log.throws", label="Throws"),
        bound(visit, "log.top_speed_m_s"),
        bound(
            visit,
            "log.note",
            label="Note",
            said="Such as pain or soreness: where, when, how much.",
            className="field log-note",
            minRows=1,
        ),
    ]
    keep = act_button(
        visit, "Keep the session" if changed is None else "Keep the change", ids.KEEP, className="log-keep"
    )
    leave = [] if changed is None else [act_button(visit, "Leave it as it was", ids.LEAVE)]
    return html.Section(
        [
            html.H2(head, id="log-enter-title"),
            html.P(["Sessions of a plan are entered on ", *build_up], className="quiet"),
            *([] if choices else [no_balls]),
            html.Div(fields, className="log-fields"),
            html.Div([keep, *leave], className="log-press-line"),
        ],
        id=ids.LOG_ENTER,
        className="log-enter",
        **{"aria-labelledby": "log-enter-title"},
    )


def changed_row(visit: Visit) -> SessionLog | None:
    """The session of no plan that is being changed, if it is still there."""
    uid = visit.data.settings["log.changed"] if visit.data else None
    return row_of(visit.data, uid) if visit.data and uid else None


def row_of(data: AthleteData, uid: str) -> SessionLog | None:
    """A session of no plan by its uid."""
    return next((row for row in data.sessions if row.uid == uid and row.plan_id is None), None)


def as_it_was(visit: Visit, changed: SessionLog | None) -> dict[str, Any]:
    """What stands in the choice of the ball where the changed session's is none of the records'."""
    if changed is None or visit.data is None:
        return {}
    try:
        return {"placeholder": f"as entered: {ball_words(ball_in(changed.body, visit.data), visit.system)}"}
    except InputError:
        return {}


def ball_choices(visit: Visit) -> list[dict[str, str]]:
    """The athlete's own ball, then the team's that are not archived."""
    balls = list(visit.data.balls.values()) if visit.data else []
    known = [one for one in balls if one.mass_kg is not None and one.archived_at is None]
    ordered = sorted(known, key=lambda one: (one.athlete_id is None, one.mass_kg or 0.0))
    return [{"value": one.uid, "label": _named(one, visit)} for one in ordered]


def _ball(one: KeptBall) -> Ball | None:
    if one.mass_kg is None:
        return None
    return Ball(one.mass_kg, DEFAULT_DIAMETER_M if one.diameter_m is None else one.diameter_m)


def _named(one: KeptBall, visit: Visit) -> str:
    ball = _ball(one)
    words = ball_words(ball, visit.system) if ball else ""
    named = "own ball" if one.athlete_id is not None else one.name
    return (named or words) if words in named or not named else f"{named}, {words}"


def keep(visit: Visit, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Keep what was entered as a session, or as the change of one."""
    data = visit.data
    if data is None:
        return Doing()
    settings, changed = data.settings, changed_row(visit)
    if settings["log.changed"] and changed is None:
        return Doing([Edit("log.changed", "")], said=f"{GONE} What you entered still stands: keep it as a new one.")
    for path in FIELDS:
        _, problem = in_field(path, data.setting_rows.get(path), visit.system, settings, visit.today)
        if problem:
            return Doing(said=f"Not kept yet. {problem}", focus=_focus(visit, path))
    missing = next((path for path in NEEDED if settings[path] is None), "")
    ball = next((_ball(one) for one in data.balls.values() if one.uid == settings["log.ball"]), None)
    if ball is None and changed is None:
        missing = "log.ball"
    if missing:
        spec = SETTINGS[missing]
        accepted = spec.accepted(visit.system) if spec.kind != "link" else "one of the balls in the list"
        said = in_words(InputError(spec.label, "", accepted))
        return Doing(said=f"Not kept yet. {said}", focus=_focus(visit, missing))
    day = settings["log.day"] or visit.today
    body = body_of(settings, ball, changed.body if changed is not None else {})
    if changed is None:
        acts: list[Act] = [Add("session_log", values={"day": day, "body": body})]
    else:
        acts = [Put("session_log", "day", day, changed.uid), Put("session_log", "body", body, changed.uid)]
    throws = counted(settings["log.throws"], "throw")
    return Doing([*acts, *emptied()], focus=_focus(visit, "log.day"), said=f"Kept: {throws} on {day_words(day)}.")


def body_of(settings: Mapping[str, Any], ball: Ball | None, before: Mapping[str, Any]) -> dict[str, Any]:
    """A session as it is kept; what it held beside the fields stays."""
    made = dict(before) | {"throws": settings["log.throws"], "top_speed_m_s": settings["log.top_speed_m_s"]}
    made["note"] = settings["log.note"]
    if not made["note"]:
        del made["note"]
    return made | ({} if ball is None else {"ball": {"mass_kg": ball.mass_kg, "diameter_m": ball.diameter_m}})


def emptied() -> list[Act]:
    """Empty the fields."""
    return [Edit(path, "") for path in (*FIELDS, "log.changed")]


def change(visit: Visit, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Take a session of no plan into the fields, to be changed there."""
    found = row_of(visit.data, row) if visit.data else None
    if visit.data is None or found is None:
        return Doing(said=GONE)
    acts = [Edit(path, text) for path, text in texts_of(found, visit.data).items()]
    return Doing([*acts, Edit("log.changed", found.uid)], focus=_focus(visit, "log.day"))


def texts_of(row: SessionLog, data: AthleteData) -> dict[str, str]:
    """A session as texts of the fields; a speed with its unit, so that it is the same in all units."""
    body = row.body
    try:
        ball: Ball | None = ball_in(body, data)
    except InputError:
        ball = None
    uid = next((one.uid for one in data.balls.values() if ball is not None and _ball(one) == ball), "")
    top, throws, note = body.get("top_speed_m_s", body.get("speed_m_s")), body.get("throws"), body.get("note")
    speed = SETTINGS["log.top_speed_m_s"].kept(top) if _is_number(top) else ""
    return {
        "log.day": row.day.isoformat(),
        "log.ball": uid,
        "log.throws": f"{throws:g}" if _is_number(throws) else "",
        "log.top_speed_m_s": f"{speed} m/s" if speed else "",
        "log.note": note if isinstance(note, str) else "",
    }


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def leave(visit: Visit, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Leave a session as it was."""
    return Doing(emptied(), focus=_focus(visit, "log.day"), said="The session is as it was.")


def remove(visit: Visit, row: str, value: Any) -> Doing:  # noqa: ARG001
    """Remove a session of no plan."""
    found = row_of(visit.data, row) if visit.data else None
    if found is None:
        return Doing(said=GONE)
    being = visit.data is not None and visit.data.settings["log.changed"] == row
    said = f"Removed: the session of {day_words(found.day)}. Undo brings it back."
    return Doing([Remove("session_log", row), *(emptied() if being else [])], focus=_focus(visit, "log.day"), said=said)


def _focus(visit: Visit, path: str) -> str:
    return dom_id(field_id(visit.owner, path, "", visit.system.key))
