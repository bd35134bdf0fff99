"""From the numbers to the words around the figure: every part that changes, as one value."""

from dataclasses import dataclass
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.compare import words
from app.pages.compare.answers import Comparison
from app.pages.compare.picture import level_of, measured_in
from app.pages.compare.sentence import Sentence, headline, instead
from app.pages.compare.sizes import sizes
from app.pages.compare.table import BROAD_TOP, table
from app.records import tables
from app.records.field_list import ALIGNED
from app.show.glossary import explained
from app.show.listed_throw import REFERENCE_HELD
from app.show.quantities import title
from app.units.conversion import plain
from model.channels import CHANNELS


@dataclass(frozen=True)
class View:
    """All the words that change when a value does."""

    summary: str
    sentence: list[Component]
    others: Component | None
    warnings: Component | None
    figure_title: list[Any]
    figure_note: str
    table: Component | None
    headline_choices: list[dict[str, str]]
    headline_default: str
    level_placeholder: str
    day_missing: str
    day_off: bool
    kind_off: bool
    held: dict[str, str]
    sizes: dict[str, Component | None]


def view_of(row: tables.Comparison, comparison: Comparison) -> View:
    """Put the numbers into words.

    Parameters
    ----------
    row : app.records.tables.Comparison
        What is asked.
    comparison : Comparison
        What was worked out from it.

    Returns
    -------
    View
    """
    first, others = headline(comparison, row.headline)
    held = comparison.kind in REFERENCE_HELD.values()
    compared = {answer.key: answer for answer in comparison.compared}
    return View(
        summary=words.summary(comparison),
        sentence=_sentence(first, comparison),
        others=html.Ul([html.Li(_short(other)) for other in others], className="others") if others else None,
        warnings=_warnings(comparison),
        figure_title=_figure_title(comparison),
        figure_note=_figure_note(comparison),
        table=table(comparison),
        headline_choices=[{"value": key, "label": f"{a.name}, throw {a.number}"} for key, a in compared.items()],
        headline_default=f"{first.throw}, the first" if first else "",
        level_placeholder="" if comparison.level is None else plain(comparison.level, most=1),
        day_missing=comparison.day_missing,
        day_off=row.kind == "estimated" or held,
        kind_off=held,  # what follows from a clock or a profile was not measured
        sizes={answer.key: sizes(answer, comparison) for answer in comparison.answers},
        held={answer.key: words.held(answer) or answer.throw.missing for answer in comparison.answers},
    )


def _short(sentence: Sentence) -> list[Any]:
    before = f"{sentence.throw} against {sentence.against} ({sentence.kind}): "
    return [before, html.Strong(f"{sentence.says}.")]


def _parts(sentence: Sentence) -> list[Any]:
    return [
        f"{sentence.throw} against {sentence.against} ",
        html.Span(f"({sentence.kind})", className="kind"),
        ": ",
        html.Strong(_kept_together(f"{sentence.says}.")),
    ]


def _kept_together(says: str) -> list[Any]:
    """Break the line between the parts only, never inside "peak 9 % lower"."""
    parts = says.split(", ")
    ends = [", "] * (len(parts) - 1) + [""]
    return [piece for part, end in zip(parts, ends, strict=True) for piece in (html.Span(part, className="part"), end)]


def _sentence(first: Sentence | None, comparison: Comparison) -> list[Component]:
    parts = [instead(comparison)] if first is None else _parts(first)
    made: list[Component] = [html.P(parts, className="sentence" if first else "sentence invitation")]
    note = words.path_of(comparison)
    return [*made, html.P(note, className="at-number")] if note and comparison.drawn else made


def _warnings(comparison: Comparison) -> Component | None:
    told = words.warnings(comparison)
    return html.Ul([html.Li(text) for text in told], className="beyond") if told else None


def _figure_title(comparison: Comparison) -> list[Any]:
    reading = comparison.reading
    note = html.Span(f"{measured_in(comparison)} against time", className="unit")
    adult = html.Span("path from adult men", className="unit") if words.path_of(comparison) else None
    notes = [part for part in (note, adult) if part is not None]
    return [*explained(title(reading)), *(piece for part in notes for piece in (" ", part))]


def _figure_note(comparison: Comparison) -> str:
    if not comparison.drawn:
        return ""
    reading = comparison.reading
    channel = CHANNELS[reading.channel]
    reverse = channel.negative_label if reading.sign > 0 else channel.label
    level = level_of(comparison)
    across = f" The level line: {level.words}." if level else ""
    loose = " The varus torque after release is not calibrated." if reading.channel == "varus" else ""
    rings = " Lines with rings are the second thrower’s." if comparison.two else ""
    return (
        f"Thicker and darker is heavier; the dashed line is the reference.{rings} "
        "Each line begins at its own foot contact; "
        f"ticks at the foot mark each throw’s {'release' if comparison.align == 'rotation' else ALIGNED['rotation']}. "
        f"Below zero: {reverse}.{across} {BROAD_TOP}{loose}"
    )
