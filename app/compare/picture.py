"""From the numbers to what is drawn of them: the figure, the same on paper, and the pieces of line in the list."""

from typing import Any

from app.compare.answers import Answer, Comparison, plain
from app.compare.figure import Level, Shown, empty_figure, figure, for_paper
from app.compare.line_labels import Line
from app.compare.rows import sample_style
from app.palette import Theme
from app.units import from_si
from model.channels import RELEASE_PHASE


def figure_of(comparison: Comparison, theme: Theme, narrow: bool) -> dict[str, Any]:
    """Draw the throws that have a curve.

    Parameters
    ----------
    comparison : Comparison
    theme : Theme
    narrow : bool
        Whether the window is narrow.

    Returns
    -------
    dict
        A figure for Plotly.
    """
    if not comparison.drawn:
        return empty_figure(theme, narrow)
    return figure(_shown(comparison), theme, narrow, revision=comparison.reading.key)


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


def level_of(comparison: Comparison) -> Level | None:
    """The level of "time above" with its words, or None.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    Level or None
    """
    if comparison.level is None:
        return None
    height = f"{plain(comparison.level, most=1)} {comparison.reading.unit}"
    return Level(comparison.level, height if comparison.level_typed else f"half the reference’s peak, {height}")


def _shown(comparison: Comparison) -> Shown:
    reading = comparison.reading
    lines = tuple(_line(answer, comparison) for answer in comparison.drawn)
    return Shown(lines, reading.unit, level_of(comparison), at_ends=reading.end_phase > RELEASE_PHASE)


def _line(answer: Answer, comparison: Comparison) -> Line:
    if answer.curves is None or answer.checked.ball is None:
        raise ValueError(f"{answer.name} has no curve")
    readouts = answer.readouts
    peak = None
    if readouts is not None and readouts.peak > 0.0:
        peak = (-from_si(readouts.peak_before_release_s, "ms"), readouts.peak)
    return Line(
        label=answer.name.replace(" at ", " · "),
        mass_kg=answer.checked.ball.mass_kg,
        reference=answer.reference,
        time_ms=answer.time_ms(),
        value=answer.value(comparison.reading),
        peak=peak,
        max_external_rotation_ms=from_si(answer.curves.max_external_rotation_s, "ms"),
    )
