"""The overlay: the varus torque of the first, the middle and the last step against time, as Compare draws throws."""

from dataclasses import replace
from typing import Any

import numpy as np

from app.pages.buildup.course import Course
from app.pages.buildup.paper import figure_rows
from app.pages.buildup.stairs import is_narrow, on_paper
from app.show.curve_labels import Line
from app.show.curves_figure import Shown, figure
from app.show.palette import THEMES, Theme
from app.show.subject import is_same
from app.units.conversion import array_from_si, from_si
from app.units.systems import System
from model.build_up import Step
from model.channels import READINGS
from model.readouts import read_curves
from model.throw import Throw, curves

READING = READINGS["varus"]
FULL = 1.0 - 1e-9


def chosen_steps(count: int) -> list[int]:
    """Places of the first, the middle and the last of so many steps, each once."""
    return sorted({0, (count - 1) // 2, count - 1})


def overlay(course: Course, theme: Theme, system: System, width_px: float) -> dict[str, Any]:
    """Lay the curves over one another, at release.

    Parameters
    ----------
    width_px : float
        Of the figure.

    Returns
    -------
    dict
        A figure for Plotly.
    """
    narrow = is_narrow(width_px, theme)
    return figure(_shown(course, system, narrow), theme, narrow, revision="overlay", width_px=width_px)


def paper_overlay(course: Course, system: System) -> dict[str, Any]:
    """Draw it for the printer."""
    theme, paper = THEMES["print"], on_paper(figure_rows(course))
    made = figure(_shown(course, system), theme, narrow=True, revision="overlay", width_px=paper["width"])
    made["layout"] |= paper
    return made


def _shown(course: Course, system: System, short: bool = False) -> Shown:
    """The lines; with short labels the speeds stand in the table of steps alone."""
    steps = course.record.steps
    return Shown(tuple(_line(i, steps[i], course, system, short) for i in chosen_steps(len(steps))), READING.unit)


def _line(place: int, step: Step, course: Course, system: System, short: bool) -> Line:
    record = course.record
    thrown = curves(Throw(record.person, step.ball, step.speed_m_s))
    read = read_curves(thrown, READING.key)
    value = READING.sign * np.asarray(thrown.values[READING.channel])
    ball, speed = system.text(step.ball.mass_kg, "g"), "" if short else f" · {system.cap(step.speed_m_s, 'm/s')}"
    line = Line(
        label=f"step {place + 1} · {ball}{speed}",
        mass_kg=step.ball.mass_kg,
        reference=is_same(step.ball, record.own_ball) and step.share >= FULL,
        time_ms=array_from_si(thrown.time_s, "ms"),
        value=value,
        peak=None,
        max_external_rotation_ms=from_si(thrown.max_external_rotation_s, "ms"),
        key=str(place),
    )
    if read.peak > 0.0:
        line = replace(line, peak=(-from_si(read.peak_before_release_s, "ms"), read.peak))
    return line
