"""The handout of a session: two pages of paper, A4 or Letter. The browser draws its pictures."""

from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.teach.answers import READING, Lesson, Thrown
from app.pages.teach.notes import source_line
from app.pages.teach.pictures import Picture, line_of, picture_of, ranges
from app.pages.teach.studies import STUDIES
from app.pages.teach.words import ASKED, Told, four_words, ms_before, vote_row, who_words
from app.show.ball_words import throw_words, value_words
from app.show.cautions import GROWING, cautions, is_growing, path_note
from app.show.glossary import TERMS
from app.show.numbers import READOUT_ORDER, percent
from app.version import VERSION
from model.quantity import READOUTS, Quantity

ON_PAPER = ("torque", "varus-valgus", "impulse", "work", "external-rotation", "effort", "speed")
"""The words that the sheet explains."""

SOURCES = ("4-effort-distance-09", "3-ball-mass-03", "3-ball-mass-10")  # and those of the published means
SHARED = {"hand": 1.2, "forearm": 1.1, "clock": 1.1}
"""How much of each the sheet changes."""

POSES = ((0.0, "foot contact"), (None, "maximum external rotation"), (1.0, "release"))


def sheet_pictures(lesson: Lesson, told: dict[str, Told]) -> Picture:
    """The pictures of the sheet, for the browser.

    Parameters
    ----------
    lesson : Lesson
    told : dict of str to Told

    Returns
    -------
    dict
        By name: ``throw`` (with ``instants`` at which the thrower is drawn), ``change``, ``three`` and ``limits``.
    """
    own = line_of(lesson.own, lesson, dashed=True)
    second = line_of(lesson.at_profile["second"], lesson)
    rotation = 1.0 - lesson.own.curves.max_external_rotation_s / lesson.own.curves.foot_contact_s
    instants = [[rotation if phase is None else phase, words] for phase, words in POSES]
    return {
        "throw": {"kind": "curves", "still": [own], "instants": instants} | ranges([own]),
        "change": {"kind": "curves", "still": [own, second]} | ranges([own, second]),
        "three": picture_of("three", lesson, told["three"]),
        "limits": picture_of("limits", lesson, told["limits"]),
    }


def _picture(name: str, said: str, height: int) -> Component:
    data = {"data-picture": name, "data-said": said, "data-height": str(height)}
    return html.Div(className="sheet-picture", **data)


def handout(lesson: Lesson, told: dict[str, Told], named: bool, invented: bool, today: str) -> list[Component]:
    """Make the two pages.

    Parameters
    ----------
    lesson : Lesson
    told : dict of str to Told
    named : bool
        Whether code, age and body mass are printed.
    invented : bool
        Whether the athlete is one of the demo data.
    today : str
        Date of printing.

    Returns
    -------
    list of Component
        One for each page.
    """
    own, second = lesson.own, lesson.at_profile["second"]
    system = lesson.case.system
    names = [throw_words(thrown.throw, system) for thrown in (own, second)]
    who = f"{who_words(lesson)} · " if named else ""
    known = " · path from adult men" if path_note(own.throw.person) else ""
    known += " · invented demo data" if invented else ""
    first: list[Any] = [
        html.H2("A throw, and what another ball does to it"),
        html.P(f"{who}Levelpeak {VERSION} · {today}{known}", className="sheet-line"),
        html.H3(told["throw"].title),
        html.P(" ".join((*told["throw"].sentences, f"That is {ms_before(own)}, give or take 7 ms."))),
        _picture("throw", "Varus torque of one throw over time", 200),
        html.H3("What sets it, at the same joint speeds"),
        html.Ul([html.Li(_set_words(step, share, lesson)) for step, share in SHARED.items()]),
        html.H3("Another ball: four numbers, each asked for by itself"),
        _picture("change", "Varus torque of two throws over time", 210),
        _four_table(lesson, names),
    ]
    rows = [html.Div([html.Dt(term.name), html.Dd(term.text)]) for term in TERMS if term.key in ON_PAPER]
    growing = is_growing(lesson.own.throw.person)
    sources = [
        html.Li(line) for line in dict.fromkeys(map(source_line, (*SOURCES, *(study.source.id for study in STUDIES))))
    ]
    last: list[Any] = [
        html.H3(told["three"].title),
        html.P(" ".join(told["three"].sentences)),
        _picture("three", "Varus torque of three throws over time", 150),
        html.H3(told["athlete"].title),
        html.P([" ".join(told["athlete"].sentences[:1]), " ", _slowing(lesson)]),
        html.H3(told["limits"].title),
        html.P(" ".join(told["limits"].sentences)),
        _picture("limits", "Published means of the peak", 125),
        html.H3("Words"),
        html.Dl(rows, className="sheet-words"),
        html.H3("Cautions"),
        html.Ul([html.Li(text) for text in cautions(lesson.own.throw.person)]),
        html.P(GROWING[1], className="sheet-line") if growing else None,
        html.H3("Sources"),
        html.Ul(sources, className="sheet-sources"),
    ]
    return [html.Section(first, className="sheet"), html.Section([p for p in last if p is not None], className="sheet")]


def _set_words(step: str, share: float, lesson: Lesson) -> str:
    thrown: Thrown = min(lesson.series[step], key=lambda one: abs(one.amount - share))
    change = percent(thrown.amount - 1.0)
    what = {
        "hand": f"A hand {change} heavier",
        "forearm": f"A forearm {change} longer",
        "clock": f"All joints {change} faster",
    }[step]
    return f"{what}: {four_words(thrown, lesson.own)}."


def _four_table(lesson: Lesson, names: list[str]) -> Component:
    head = html.Tr([html.Th(text, scope="col") for text in ("", *names, "change")])
    rows = []
    for name in READOUT_ORDER:
        row = vote_row(name, lesson)
        unit = Quantity(READING, name).unit
        values = [
            value_words(float(getattr(thrown.read, name)), unit) for thrown in (lesson.own, lesson.at_profile["second"])
        ]
        label = html.Th(f"{READOUTS[name].label}: {ASKED[name]}", scope="row")
        rows.append(html.Tr([label, *(html.Td(value) for value in values), html.Td(row["change"])]))
    return html.Table([html.Thead(head), html.Tbody(rows)], className="sheet-table")


def _slowing(lesson: Lesson) -> str:
    profile, system = lesson.case.profile, lesson.case.system
    low, at, high = (
        system.number(v, "m/s", least=1, most=1)
        for v in (lesson.slowed.low, lesson.slowed.estimate, lesson.slowed.high)
    )
    ball = f"the ball of {system.text(lesson.second.mass_kg, 'g')}"
    if profile is None or lesson.on_prior:
        known = "No radar readings yet: by published groups"
        return f"{known}, full speed with {ball} is {low} to {high} {system.unit('m/s')}."
    level = percent(lesson.slowed.level)
    return f"By the readings, full speed with {ball} is {at} {system.unit('m/s')} ({level}: {low} to {high})."
