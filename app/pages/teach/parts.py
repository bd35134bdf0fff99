"""The parts of the page: the stage, the set-up, notes and questions. Functions that make components only."""

from dash import html
from dash.development.base_component import Component

from app.bind.fields import act_button, bound
from app.bind.ids import PICK, act_id
from app.bind.steps import steps
from app.bind.visit import Visit
from app.pages.teach import ids
from app.pages.teach.answers import ball_choices, balls_of
from app.pages.teach.lessons import BALLS, name_of, step_row
from app.pages.teach.notes import question_parts
from app.pages.teach.session import Session, text_of
from app.pages.teach.view import View
from app.pages.teach.words import TITLES
from app.records.acts import TEAM
from app.records.tables import Lesson
from app.show.cautions import CAUTIONS
from app.show.controls import choice
from app.show.invented import INVENTED
from app.show.page_parts import file_field
from app.show.subject import Case

LARGEST_FILE_BYTES = 500_000


def _button(words: str, part: str, key: str = "", **props: str) -> Component:
    keyed = {"data-key": key} if key else {}
    return html.Button(words, id=part, type="button", n_clicks=0, **keyed, **props)


def header(visit: Visit, invented: bool) -> Component:
    """Make the heading of the page, which says so while an invented athlete is shown."""
    buttons = [
        _button("Present", ids.TEACH_PRESENT, "f"),
        _button("Notes in a second window", ids.TEACH_WINDOW, "w"),
        _button("Print the handout", ids.TEACH_PRINT, "h"),
    ]
    tools = html.Div(buttons, className="whole teach-tools")
    shown = invented and not visit.store.invented  # of the demo the shell says so
    said = [html.P(INVENTED, className="quiet")] if shown else []
    head = [html.H1("Ten minutes in front of a room"), *said, tools, steps(visit, TEAM)]
    return html.Div(head, className="page-head")


def stage(view: View) -> Component:
    """Make the stage; the browser fills it but for who throws, and the cautions."""
    head = [html.H2(id=ids.TEACH_TITLE), html.Span(view.who, className="stage-who")]
    said = [
        html.Div(id=ids.TEACH_WORDS, className="stage-words", role="status", **{"aria-live": "polite"}),
        html.Div(view.growing, id=ids.TEACH_GROWING, className="stage-growing"),
    ]
    nav = [
        _button("Back", ids.TEACH_BACK, "ArrowLeft", **{"aria-label": "Step back"}),
        _button("Next", ids.TEACH_ON, "ArrowRight", **{"aria-label": "Next step"}),
        html.Span(id=ids.TEACH_COUNT, className="stage-count"),
        _button("Play", ids.TEACH_PLAY, "p", **{"aria-label": "Play or pause"}),
        html.Span(id=ids.TEACH_WHEN, className="stage-when"),
        _button("Leave", ids.TEACH_LEAVE, className="stage-leave", **{"aria-label": "Leave the presentation"}),
    ]
    parts = [
        html.Div(head, className="stage-head"),
        html.Div(said, className="stage-told"),
        html.Div(id=ids.TEACH_PICTURE, className="stage-picture"),
        html.Div(id=ids.TEACH_CONTROLS, className="stage-controls"),
        html.Div([html.Span(f"{line} ") for line in CAUTIONS], className="stage-caution"),
        html.Div(nav, className="stage-nav"),
    ]
    named = {"aria-labelledby": ids.TEACH_TITLE}
    return html.Section(parts, id=ids.TEACH_STAGE, className="stage", tabIndex=-1, **named)


def setup(visit: Visit, row: Lesson | None, session: Session, case: Case) -> Component:
    """Make the set-up: the session, its balls, what is shown, the steps, the file; `row` is None until it is kept."""
    uid = row.uid if row is not None else ""
    offered, shown = ball_choices(session, case), balls_of(session, case)
    balls = [
        choice(label, offered, text_of(ball), id=_pick(f"teach/{which}", uid), searchable=False)
        for which, label, ball in zip(BALLS, ("Ball beside the own one", "Third ball"), shown, strict=True)
    ]
    seen = [{"value": "no", "label": "nothing"}, {"value": "yes", "label": "code, age and body mass"}]
    shows, part = "yes" if session.named else "no", _pick("teach/named", uid)
    named = choice("What the room sees of the athlete", seen, shows, id=part, searchable=False)
    chosen = [
        *_sessions(visit, row),
        *balls,
        html.P("The balls are the team’s and the athlete’s own.", className="quiet"),
        named,
        html.P(_button("Save this session as a file", ids.TEACH_SAVE)),
        file_field("Open a session:", ids.TEACH_OPEN, ".json", LARGEST_FILE_BYTES),
        html.P("The file holds name, steps and balls, and nothing of the athlete.", className="quiet"),
    ]
    listed = html.Ol(step_rows(visit, uid, session), id=ids.TEACH_STEPS, className="teach-steps")
    parts = html.Div([html.Div(chosen, className="teach-chosen"), listed], className="teach-setup")
    return html.Details([html.Summary("Set up: session, balls, steps"), parts], id=ids.TEACH_SETUP, className="fold")


def _pick(do: str, row: str) -> dict[str, str]:
    return act_id(TEAM, do, row, kind=PICK)


def _sessions(visit: Visit, row: Lesson | None) -> list[Component]:
    """Make what chooses, names, adds and removes sessions."""
    new = act_button(visit, "New session", "teach/new", of=TEAM)
    if row is None:
        said = "Nothing is set up yet: this is the usual story. From the first change on it is kept as a session."
        return [html.P(said, className="quiet"), html.P(new)]
    listed = [{"value": one.uid, "label": name_of(one)} for one in visit.team.lessons]
    made = [
        new,
        act_button(visit, "Copy it", "teach/copy", row.uid, of=TEAM),
        act_button(visit, "Remove it", "teach/remove", row.uid, of=TEAM),
    ]
    return [
        choice("Session", listed, row.uid, id=_pick("teach/choose", row.uid), searchable=False),
        bound(visit, "lesson.name", row, of=TEAM),
        html.Div(made, className="teach-tools"),
    ]


def below() -> Component:
    """Make what the presenter reads below the stage: notes to the step, and the questions."""
    notes = [html.H2("Notes to this step"), html.Div(id=ids.TEACH_NOTES, className="teach-notes")]
    questions = [html.H2("Questions a sceptical athlete asks"), *question_parts()]
    parts = [html.Section(notes), html.Section(questions, className="teach-questions")]
    return html.Div(parts, className="teach-below")


def step_rows(visit: Visit, uid: str, session: Session) -> list[Component]:
    """Make the list of steps of a session, with what moves and drops each."""
    order = session.order
    last_shown = len(session.shown) == 1
    rows = []
    for place, (key, shown) in enumerate(order):
        moves = (
            ("Up", "up", "Move up", place == 0),
            ("Down", "down", "Move down", place == len(order) - 1),
            ("Drop", "switch", "Drop", last_shown) if shown else ("Take in", "switch", "Take in", False),
        )
        row = step_row(uid, key)
        buttons = []
        for words, move, said, off in moves:
            heard = {"aria-label": f"{said}: {TITLES[key]}"}
            buttons.append(act_button(visit, words, f"teach/{move}", row, of=TEAM, disabled=off, **heard))
        name = html.Span(TITLES[key], className="step-name" if shown else "step-name dropped")
        rows.append(html.Li([name, html.Span(buttons, className="step-moves")]))
    return rows
