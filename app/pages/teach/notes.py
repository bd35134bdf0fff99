"""What the presenter reads and the room does not see: notes to each step, and the questions of a sceptical athlete.

Numbers that are not the model's own name their rows in `model/published/values.csv`; a test finds each of them there.
"""

from dataclasses import dataclass

from dash import html
from dash.development.base_component import Component

from app.pages.teach.studies import STUDIES
from model.published import values

COMMON = "common practice, no source"


@dataclass(frozen=True)
class Note:
    """What is said to one step or question.

    Attributes
    ----------
    text : tuple of str
        Sentences, a paragraph each.
    sources : tuple of str
        Ids of `values.csv`.
    question : str
        What is asked; empty for a step.
    """

    text: tuple[str, ...]
    sources: tuple[str, ...] = ()
    question: str = ""


NOTES = {
    "throw": Note(
        (
            "Play it once at 1/50, then drag the cursor by hand: the arm follows. Stop where the arm is laid back.",
            "The turned arrow at the elbow is the varus torque. Muscles and ligaments make it together; the model "
            "does not say who makes how much. The same size the other way round is called valgus torque.",
            "The path is one throw of an adult man at full effort, solved for once. Everyone here takes that path. "
            "The head is drawn for the eye; the model has none, and no legs.",
        ),
        ("2-kinematics-timing-01", "2-kinematics-timing-05"),
    ),
    "hand": Note(
        (
            "Stands for anything heavier at the far end. Only the hand’s mass grows: size, path and joint speeds stay.",
            "By the mechanics the torque is exactly linear in this mass. The duration of the throw cannot change here.",
        ),
    ),
    "forearm": Note(
        (
            "The mass of the forearm stays, its length grows, and the joints turn as before: the ball then leaves "
            "faster.",
            "At a fixed release speed it would be otherwise: a longer arm then turns more slowly. Say which is held.",
        ),
    ),
    "clock": Note(
        (
            "The same path in less time. Apart from the arm’s weight, torque goes with the square of the speed.",
            "Measured: asked for 75 % and 50 % effort, high-school pitchers threw at 90 % and 85 % of full speed, and "
            "their torque fell by 19 % and 25 %. The square would say 19 % and 28 %. Effort asked for is not speed.",
        ),
        ("4-effort-distance-09", "4-effort-distance-10", "4-effort-distance-11", "4-effort-distance-12"),
    ),
    "ball": Note(
        (
            "Nobody throws a heavier ball just as fast. This is what mass does by itself.",
            "The ball’s share of what turns about the elbow is about a sixth to a fifth in an adult, more in a child.",
        ),
        ("3-ball-mass-34",),
    ),
    "speed": Note(
        (
            "One stop of the slider is this athlete’s full speed with this ball, by the readings or, without any, by "
            "published groups. Its interval stands on the Athlete page.",
            "To first order the peak stays level if the speed falls with the square root of the mass that is turned. "
            "Slower than that, the peak falls while the time loaded grows.",
        ),
        ("3-ball-mass-36", "3-ball-mass-17"),
    ),
    "three": Note(
        (
            "Ask which of the three is “the most” and wait. Someone will ask back: the most of what?",
            "The dashed line is the reference, the own ball at full effort. A number without a reference says little.",
        ),
    ),
    "vote": Note(
        (
            "Ask for a show of hands for each number, type the counts, then show the numbers. Nothing is stored.",
            "The numbers are best estimates. How sure they are for this athlete, the Claim page says.",
        ),
    ),
    "athlete": Note(
        (
            "To the left an athlete slows little and all four numbers grow; to the right an athlete slows much, and "
            "the peak falls while time loaded and area grow.",
            "Some throws on the radar with two or more balls settle most of it. Without readings, do not guess.",
        ),
        ("3-ball-mass-36",),
    ),
    "build": Note(
        (
            "An example of the thinking, not a plan. Plans are made with their limits, and with whoever is "
            "responsible.",
            f"Heavy and slow first, then heavy and faster, then lighter at that share of full speed: {COMMON}.",
        ),
        ("8-pitch-limits-20", "8-pitch-limits-23"),
    ),
    "limits": Note(
        (
            "The dots are group means of one quantity, of similar throws. Filters, joint centres and people differ.",
            "The model’s level was tuned with such values in view: it is calibrated, not evidence.",
            "It knows nothing of tissue, tiredness, or how often one throws.",
        ),
        ("1-kinetics-65", *(study.source.id for study in STUDIES)),
    ),
}
"""By the keys of `session.STEPS`."""

GROWING_BUILD = Note(
    (
        "An example of the thinking, not a plan. Plans are made with their limits, and with whoever is responsible.",
        f"Many begin with a heavy ball and throw it slowly: {COMMON}. For throwers who are still growing the own ball "
        "comes first here, from slow to fast.",
    ),
    ("8-pitch-limits-20", "8-pitch-limits-23"),
)
"""The note to the build-up of a thrower who is still growing."""

QUESTIONS = (
    Note(
        (
            "It depends on what “loads” means, and on how much you slow down. At the same speed all but the time "
            "grow. At your own full speed with each ball the peak can be lower while the arm is loaded for longer.",
        ),
        ("3-ball-mass-02", "3-ball-mass-03"),
        "Does a heavy ball load my elbow more?",
    ),
    Note(
        (
            "They asked different people. High-school and college pitchers slowed down with heavier balls, and their "
            "torque fell; pitchers of eleven had less torque with a lighter ball, though they threw it faster.",
            "They also measured in different ways. Cameras and sensors on the arm do not give the same number, joint "
            "centres are set differently, and filters cut a peak by different amounts. That the difference in people "
            "comes from how much each slows down is our reading, a guess that fits, not a finding.",
        ),
        ("3-ball-mass-03", "3-ball-mass-10", "1-kinetics-01", "1-kinetics-42", "4-effort-distance-15"),
        "Why do published studies differ?",
    ),
    Note(
        (
            "No. It gives the torque at a joint. How much tissue can take, how well rested it is and how often you "
            "throw are not in it. In a six-week programme for 13- to 18-year-olds, speed rose while 24 % of the group "
            "with weighted balls were injured: four elbow injuries, two of them while training.",
        ),
        ("8-pitch-limits-20", "8-pitch-limits-21"),
        "So does it tell me whether I will get hurt?",
    ),
    Note(
        (
            "Perhaps. Of nine studies of such training, four found 2 to 5 mph more, three no difference, two more than "
            "that; the review rates the evidence as very poor. One season’s trial in college found no effect.",
        ),
        ("3-ball-mass-32", "3-ball-mass-33"),
        "Will heavy balls make me throw faster?",
    ),
    Note(
        ("Not in speed. Asked for half effort, pitchers still threw at about 85 % of full speed. Go by the radar.",),
        ("4-effort-distance-11", "4-effort-distance-12"),
        "If I throw at half effort, do I load half?",
    ),
    Note(
        (
            "It does not. The path comes from adult men at full effort, scaled to your size and speed. What differs "
            "between two of your own throws is better known than the level of either.",
        ),
        ("1-kinetics-01", "1-kinetics-53"),
        "How can it know my throw?",
    ),
    Note(
        (
            "Yes. At full speed a light ball leaves the hand faster than a heavy one. Braking the arm after release "
            "then asks for more: the hand is empty, so only the speed counts.",
            "Before release it depends on how much an athlete slows down with a heavy ball: with one who slows much, "
            "the light ball has the steeper rise, and with one who slows more still, the higher peak as well. Time "
            "loaded is shorter with the light ball. “Which of the four numbers grew?” says it for this athlete, seen "
            "from the own ball.",
        ),
        (),
        "Is there anything in which a light ball asks for more?",
    ),
)
"""What sceptical athletes ask, with short answers."""


def source_line(key: str) -> str:
    """Write a source: authors, journal, and how the value was seen.

    Parameters
    ----------
    key : str
        An id of `values.csv`.

    Returns
    -------
    str
    """
    row = values()[key]
    if row.citation.startswith("computed here"):
        return f"Worked out from others: {row.quantity}"
    seen = {"found": "", "memory": ", from memory", "derived": ", worked out from others"}[row.status]
    return f"{row.citation}{seen}"


def note_of(step: str, growing: bool) -> Note:
    """The note to a step, for a thrower who is still growing or one who is not."""
    return GROWING_BUILD if growing and step == "build" else NOTES[step]


def note_parts(note: Note) -> list[Component]:
    """Make the paragraphs and sources of a note."""
    parts: list[Component] = [html.P(text) for text in note.text]
    lines = dict.fromkeys(source_line(key) for key in note.sources)
    if lines:
        parts.append(html.Ul([html.Li(line) for line in lines], className="teach-sources"))
    return parts


def question_parts() -> list[Component]:
    """Make the questions, each folded over its answer."""
    return [
        html.Details([html.Summary(note.question), *note_parts(note)], className="fold teach-question")
        for note in QUESTIONS
    ]
