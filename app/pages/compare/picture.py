"""From the numbers to what is drawn of them: the figure, the same on paper, and the pieces of line in the list."""

import math
from dataclasses import replace
from typing import Any

from app.pages.compare.answers import Answer, Comparison, bwh_of
from app.pages.compare.rows import sample_style
from app.show.curve_labels import Line
from app.show.curves_figure import Shown, empty_figure, figure, for_paper
from app.show.curves_figure_words import Level
from app.show.numbers import share_of
from app.show.palette import Theme
from app.units.conversion import from_si, plain
from model.channels import RELEASE_PHASE
from model.person import Person


def figure_of(comparison: Comparison, theme: Theme, narrow: bool, width_px: float | None = None) -> dict[str, Any]:
    """Draw the throws that have a curve.

    Parameters
    ----------
    comparison : Comparison
    theme : Theme
    narrow : bool
        Whether the figure is narrow: lower, with smaller type.
    width_px : float, optional
        Of the figure; a usual one unless given.

    Returns
    -------
    dict
        A figure for Plotly.
    """
    if not comparison.drawn:
        return empty_figure(theme, narrow)
    return figure(_shown(comparison), theme, narrow, f"{comparison.reading.key} {comparison.align}", width_px)


def paper_of(comparison: Comparison) -> dict[str, Any]:
    """Draw the same for the printer.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    dict
        What `assets/compare.js` puts on while the page is printed.
    """
    return for_paper(_shown(comparison)) if comparison.drawn else {}


def samples_of(comparison: Comparison, theme: Theme) -> dict[str, dict[str, Any]]:
    """A piece of each throw's line, for the list.

    Parameters
    ----------
    comparison : Comparison
    theme : Theme

    Returns
    -------
    dict of str to dict
        CSS by key; nothing for a throw without a curve.
    """
    return {answer.key: sample_style(answer, theme) for answer in comparison.answers}


def scale_of(comparison: Comparison, person: Person | None) -> tuple[float, str]:
    """What the curves of a thrower are multiplied with to be drawn, and the unit they have then.

    Parameters
    ----------
    comparison : Comparison
    person : Person or None
        The thrower.

    Returns
    -------
    float
    str
        The curve's own unit where the chosen scale does not apply: a force has no %BW·H, and without a reference there
        is no per cent of it.
    """
    unit, reference = comparison.reading.unit, comparison.reference
    if comparison.scale == "bwh" and unit == "N·m" and person is not None:
        return bwh_of(1.0, person), "%BW·H"
    if comparison.scale == "reference" and reference is not None and reference.readouts is not None:
        share = share_of(1.0, reference.readouts.peak)
        if math.isfinite(share) and share > 0.0:
            return share, "%"
    return 1.0, unit


def measured_in(comparison: Comparison) -> str:
    """What the curves are measured in, in words.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    str
    """
    unit = scale_of(comparison, next(iter(comparison.people), None))[1]
    return "% of the reference’s peak" if unit == "%" else unit


def zero_ms(answer: Answer, align: str) -> float:
    """The time from release (ms) of the instant at which a throw is laid over the others.

    Parameters
    ----------
    answer : Answer
        With a curve.
    align : str
        A key of `ALIGNED`.

    Returns
    -------
    float
        0 for release, negative before it.
    """
    if align == "contact":
        return float(answer.time_ms()[0])
    if align == "rotation" and answer.curves is not None:
        return from_si(answer.curves.max_external_rotation_s, "ms")
    return 0.0


def level_of(comparison: Comparison) -> Level | None:
    """The level of "time above" with its words, or None.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    Level or None
        None also where one torque stands at two heights: in %BW·H, with two throwers.
    """
    if comparison.level is None or (comparison.scale == "bwh" and len(set(comparison.people)) > 1):
        return None
    height = f"{plain(comparison.level, most=1)} {comparison.reading.unit}"
    return Level(comparison.level, height if comparison.level_typed else f"half the reference’s peak, {height}", height)


def _shown(comparison: Comparison) -> Shown:
    reading = comparison.reading
    factor, unit = scale_of(comparison, comparison.drawn[0].person)
    lines = tuple(_line(answer, comparison) for answer in comparison.drawn)
    level = level_of(comparison)
    drawn = None if level is None else replace(level, value=factor * level.value)
    return Shown(lines, unit, drawn, reading.end_phase > RELEASE_PHASE, comparison.align)


def _line(answer: Answer, comparison: Comparison) -> Line:
    if answer.curves is None or answer.throw.ball is None:
        raise ValueError(f"{answer.name} has no curve")
    factor, _ = scale_of(comparison, answer.person)
    readouts, time_ms = answer.readouts, answer.time_ms()
    rotation_ms, zero = from_si(answer.curves.max_external_rotation_s, "ms"), zero_ms(answer, comparison.align)
    peak = None
    if readouts is not None and readouts.peak > 0.0:
        peak = (-from_si(readouts.peak_before_release_s, "ms") - zero, factor * readouts.peak)
    return Line(
        label=answer.label,
        mass_kg=answer.throw.ball.mass_kg,
        reference=answer.reference,
        time_ms=time_ms - zero,
        value=factor * answer.value(comparison.reading),
        peak=peak,
        max_external_rotation_ms=rotation_ms - zero,
        release_ms=-zero,
        key=answer.key,
        other=bool(answer.thrower),
    )
