"""The pictures of the story as plain data for the browser to draw: lines over phase, sliders, panels, points. Pure."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from app.pages.teach.answers import READING, SHARES, Lesson, Thrown
from app.pages.teach.session import Session
from app.pages.teach.studies import STUDIES, study_words
from app.pages.teach.words import SHARED_NAMES, Told, panel_words, share_words, stop_words
from app.show.ball_words import throw_words
from app.show.glossary import explained
from app.show.joint_centres import PLACES, chain_of
from app.show.markup import to_html
from app.show.palette import THEMES, depth_of, line_width
from app.units.conversion import from_si
from model.line_figure import line_figure

STEP = 4  # of the model's 501 phases: then curve and line figure stand at the same 126
LEAST_ROOM = 1.08  # of the highest value, so that no curve touches the top
TICKS = (1.0, 2.0, 2.5, 5.0)
MOST_TICKS = 5

Picture = dict[str, Any]


def line_of(thrown: Thrown, lesson: Lesson, dashed: bool = False) -> Picture:
    """Write a throw's curve for the browser.

    Parameters
    ----------
    thrown : Thrown
    lesson : Lesson
    dashed : bool
        Whether it is the athlete's reference throw.

    Returns
    -------
    dict
        ``name``; ``y``, the varus torque (N·m) at the phases of the figure; ``contact_ms``, when the foot lands;
        ``width`` and ``depth`` of the line after the ball's mass; ``dashed``; ``ball_radius_m``.
    """
    ball = thrown.throw.ball
    return {
        "name": throw_words(thrown.throw, lesson.case.system),
        "y": np.round(thrown.curves.values[READING][::STEP], 2).tolist(),
        "contact_ms": round(from_si(thrown.curves.foot_contact_s, "ms"), 2),
        "width": line_width(ball.mass_kg, THEMES["light"]),
        "depth": round(depth_of(ball.mass_kg), 3),
        "dashed": dashed,
        "ball_radius_m": 0.5 * ball.diameter_m,
    }


def figure_of(lesson: Lesson) -> Picture:
    """The thrower for the browser: joint centres over phase, and what a longer forearm moves.

    Parameters
    ----------
    lesson : Lesson

    Returns
    -------
    dict
        As `chain_of`; ``varus_axis`` as in `LineFigure`; ``rotation_phase`` of maximum external rotation; ``longer``,
        wrist and ball with the longest forearm of the story. Between the two every place is straight in the length.
    """
    throw = lesson.own.throw
    longest = lesson.series["forearm"][-1].throw
    own = line_figure(throw.person, throw.ball.diameter_m)
    longer = line_figure(longest.person, throw.ball.diameter_m)
    phase = 1.0 - lesson.own.curves.max_external_rotation_s / lesson.own.curves.foot_contact_s
    return chain_of(throw.person, throw.ball.diameter_m) | {
        "varus_axis": np.round(own.varus_axis, PLACES).tolist(),
        "rotation_phase": round(phase, 4),
        "longer": {name: np.round(longer.points[name], PLACES).tolist() for name in ("wrist", "ball")},
    }


def ranges(lines: Sequence[Picture]) -> Picture:
    """The axes that hold all lines.

    Parameters
    ----------
    lines : sequence of dict
        As `line_of` writes them; at least one.

    Returns
    -------
    dict
        ``x`` (ms) and ``y`` (N·m), each from and to, and ``x_step`` and ``y_step`` between their ticks.
    """
    start = min(line["contact_ms"] for line in lines)
    last = 0.25 * -start
    top = max(max(line["y"]) for line in lines) * LEAST_ROOM
    bottom = min(min(line["y"]) for line in lines) * LEAST_ROOM
    return {
        "x": [start, last],
        "y": [min(bottom, 0.0), top],
        "x_step": tick_step(last - start),
        "y_step": tick_step(top - bottom),
    }


def tick_step(span: float) -> float:
    """Choose a round step that puts at most `MOST_TICKS` on an axis of this length, above 0."""
    decade = 10.0 ** np.floor(np.log10(span / MOST_TICKS))
    return float(next((f * decade for f in TICKS if f * decade * MOST_TICKS >= span), 10.0 * decade))


def slider_of(step: str, lesson: Lesson) -> Picture:
    """The slider of a step in which one thing changes.

    Parameters
    ----------
    step : str
        A key of `Lesson.series`.
    lesson : Lesson

    Returns
    -------
    dict
        ``stops``: each a ``line``, what is ``said`` of it, and ``reach`` from the own forearm (0) to the longest (1);
        ``start``, the stop it opens at: nothing changed.
    """
    series = lesson.series[step]
    span = lesson.series["forearm"][-1].amount - 1.0
    stops = []
    for thrown in series:
        reach = (thrown.amount - 1.0) / span if step == "forearm" and span > 0.0 else 0.0
        line = line_of(thrown, lesson)
        if step in SHARES:
            line["name"] = f"{SHARED_NAMES[step]} {share_words(thrown.amount)}"
        said = stop_words(step, thrown, lesson)
        stops.append({"line": line, "said": said, "reach": round(reach, 4)})
    unchanged = lesson.own.throw.speed_m_s if step == "speed" else lesson.own.throw.ball.mass_kg
    wanted = unchanged if step in ("ball", "speed") else 1.0
    start = min(range(len(series)), key=lambda i: abs(series[i].amount - wanted))
    return {"stops": stops, "start": start}


def picture_of(step: str, lesson: Lesson, told: Told) -> Picture:
    """The picture of a step.

    Parameters
    ----------
    step : str
        A key of `session.STEPS`.
    lesson : Lesson
    told : Told
        The step's words, where they stand in the picture.

    Returns
    -------
    dict
        Its ``kind`` ('curves', 'vote', 'panels', 'studies' or 'strip') and what that needs.
    """
    own = line_of(lesson.own, lesson, dashed=True)
    second, third = (line_of(lesson.at_profile[which], lesson) for which in ("second", "third"))
    if step in lesson.series:
        slider = slider_of(step, lesson)
        axes = ranges([own, *(stop["line"] for stop in slider["stops"])])
        return {"kind": "curves", "still": [own], "slider": slider | {"label": told.slider}} | axes
    if step == "athlete":
        return {"kind": "strip"}
    if step == "limits":
        own_peak = round(float(lesson.own.read.peak), 1)
        rows = [{"value": study.value, "said": study_words(study)} for study in STUDIES]
        return {"kind": "studies", "rows": rows, "own": {"value": own_peak, "said": "this throw, by the model"}}
    if step == "build":
        built = [line_of(thrown, lesson) for thrown in lesson.built]
        titles = panel_words(lesson)
        panels = [{"title": title, "still": [own, line]} for title, line in zip(titles, built, strict=True)]
        return {"kind": "panels", "panels": panels, "note": f"Dashed: {own['name']}, the reference."} | ranges(
            [own, *built]
        )
    still = {"three": [own, second, third], "vote": [own, second]}.get(step, [own])
    return {"kind": "vote" if step == "vote" else "curves", "still": still, "rows": list(told.rows)} | ranges(still)


def story_of(session: Session, lesson: Lesson, told: dict[str, Told]) -> Picture:
    """All that the browser needs to show the story.

    Parameters
    ----------
    session : Session
    lesson : Lesson
    told : dict of str to Told
        The words of each step.

    Returns
    -------
    dict
        ``figure``, and ``steps``: each ``key``, ``title``, ``sentences`` as HTML, ``picture``.
    """
    steps = [
        {
            "key": key,
            "title": told[key].title,
            "sentences": [to_html(explained(text)) for text in told[key].sentences],
            "picture": picture_of(key, lesson, told[key]),
        }
        for key in session.shown
    ]
    return {"figure": figure_of(lesson), "steps": steps}
