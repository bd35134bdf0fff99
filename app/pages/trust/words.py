"""The page's words, as data."""

import math
from dataclasses import dataclass
from datetime import date

from app.show.certainty_words import tenths
from app.show.numbers import difference, percent
from app.units.systems import System
from model.band_checks import BandCheck
from model.band_coverage import GridStory
from model.band_table import SOLVED_MASS_KG, SOLVED_Y, Key
from model.comparison import BETWEEN_LABORATORIES, FAR_SD, USUAL_HZ

LEAD = (
    "Values from published studies beside what the model gives for a throw like theirs. Laboratories smooth what they "
    "record, so compare print with “as a laboratory would see it”."
)
WAITING = "Computing the throws and holding them against print …"
WAITING_BAND = "Looking through the solved throws …"
AGREES = (
    f"Agrees: within {FAR_SD:.0f} SD of print; inside the printed range or in the printed direction; or, where no "
    f"spread is printed, within {100 * BETWEEN_LABORATORIES:.0f} % of it, as laboratories differ by that for the same "
    "thing."
)
LABORATORY = (
    "The laboratory’s view: markers of the computed throw at 240 pictures a second, smoothed at the cut-off that "
    "stands at the row, then the torques from those. “Recalled”: from memory, not seen again in the paper. “Usual”: "
    f"the source’s own is not known, so {USUAL_HZ:g} Hz is taken, which is recalled as common."
)

GROUPS = {
    "levels": ("Torques", "How high the torques peak, from college pitchers to adolescents and amateurs."),
    "forces": ("Forces", "Forces at shoulder and elbow, and the torques that go with them, in the reference throw."),
    "speeds and angles": ("Speeds and angles", "How fast the joints turn and how far the arm is laid back."),
    "timing": ("Timing", "What comes when before release."),
    "efforts": ("Efforts", "How much less torque there is when a pitcher throws slower with the own ball."),
    "balls": ("Balls", "Whether the torque rises or falls with another ball."),
}
"""Heading and caption of each group of rows."""

SOLVES = {
    "unseen": "Throws that the band was not made from",
    "man": "of these, the man’s",
    "woman": "of these, the woman’s",
    "boy": "of these, the boy’s",
    "P": "Throws made with as much torque tolerated as the program predicts (P)",
    "k = 1": "Throws made with the same torque tolerated, however heavy the ball or slow the throw (k = 1)",
    "s2": "Throws made with less torque tolerated when slower, but no more with a heavier ball (s²)",
}
HELD_NAMES = {
    ("varus", "peak"): "peak",
    ("varus", "area"): "area",
    ("varus", "rise_rate"): "rise rate",
    ("varus", "half_height_s"): "half-height width",
    ("varus", "loaded_s"): "time loaded",
    ("internal_rotation", "peak"): "internal-rotation torque",
    ("shoulder_proximal", "peak"): "shoulder proximal force",
    ("elbow_proximal", "peak"): "elbow proximal force",
}
ASKED = 85
"""Of 100 solved throws, the fewest that a band of 90 % is asked to hold."""
HELD_CAPTION = "Varus torque unless another is named; a band of 90 % should hold 90 of 100"
ASKED_OF: tuple[Key, ...] = tuple(("varus", readout) for readout in ("peak", "area", "rise_rate", "loaded_s"))


def made_words(story: GridStory) -> str:
    """Tell what was solved, and what the band was made of."""
    day = date.fromisoformat(story.solved_on)
    return (
        "Nobody knows how a person changes the movement with another ball or at another speed. So "
        f"{story.solved} throws were solved anew (the last on {day.day} {day:%B %Y}): other balls, speeds, bodies, and "
        f"assumptions about how much torque is tolerated. {story.sensible} came out as throws people make: one hump, "
        f"no flat top. {story.fitted} of those made the band of the varus peak."
    )


def holds_words(story: GridStory) -> str:
    """Tell what was asked of the band, and what it does."""
    unseen = story.coverage[0]
    least = min(unseen.held[key] for key in ASKED_OF)
    return (
        f"It was asked to hold at least {ASKED} of 100 throws that it was not made from, for peak, area, rise rate and "
        f"time loaded. Of {unseen.count} such throws it holds {100 * least:.0f} or more in 100, and fewer for some "
        "bodies and forces, as the table says. The last three lines are the ends of what people might do; the band was "
        "not made wide enough for all of them."
    )


def outside_words(system: System) -> str:
    """Say what *outside what was solved* means."""
    lightest, heaviest = (system.text(mass, "g", most=0) for mass in SOLVED_MASS_KG)
    return (
        f"Outside what was solved: lighter than {lightest}, heavier than {heaviest}, or slower than "
        f"{percent(math.exp(-SOLVED_Y))} of full speed with the own ball. Nothing was fitted there: the interval goes "
        "on widening, but nobody has checked how wide it should be."
    )


def checked_words(check: BandCheck, system: System) -> str:
    """Name what was compared in print."""
    if check.about == "effort":
        share = check.throw.speed_m_s / check.reference.speed_m_s
        return f"Own ball at {100 * share:.0f} % of full speed"
    heavy, light = (system.number(throw.ball.mass_kg, "g", most=0) for throw in (check.throw, check.reference))
    balls = f"{heavy} against {light} {system.unit('g')}"
    return {
        "trained": f"Trained throwers, {balls}; exponent p = {check.exponent:g} taken",
        "youth": f"A boy of 11, {balls}; exponent p = {check.exponent:g} taken",
        "sign": f"An adult without any radar reading, {balls}",
    }[check.about]


def printed_of(check: BandCheck) -> str:
    """Say what is in print."""
    if check.about == "effort":
        return f"{difference(100 * check.printed, 0)} %"
    return {-1: "lower", 1: "higher", 0: "not known, within ±10 %"}[check.direction]


def found_of(check: BandCheck) -> str:
    """Say what the band gives: best estimate, 90 % interval, and how sure the direction is."""
    found = check.found
    low, high = (difference(100 * end, 0) for end in (found.low, found.high))
    said = f"{difference(100 * found.best, 0)} % ({low} to {high})"
    if check.about == "effort":
        return said
    if check.about == "sign":
        return f"{said}; cannot tell"
    more = found.probability_more >= 0.5
    sure = found.probability_more if more else found.probability_less
    return f"{said}; {'higher' if more else 'lower'} with {tenths(sure)}"


@dataclass(frozen=True)
class AngleWords:
    """An angle: what it is called, where it is zero, which way it counts, and what is recommended."""

    name: str
    zero: str
    positive: str
    recommended: str


SEEN_FROM = {
    "above": "seen from above, target at the top",
    "right": "seen from the throwing side, target on the right",
    "behind": "seen from behind",
}

ANGLES = {
    "trunk_rotation": AngleWords(
        "Trunk rotation",
        "chest to the target",
        "throwing shoulder forward",
        "thorax rotation, same sense; there the last of three turns, here the first (recalled)",
    ),
    "trunk_forward_tilt": AngleWords(
        "Forward tilt",
        "upright",
        "toward the target",
        "thorax flexion, there counted negative (recalled)",
    ),
    "trunk_lateral_tilt": AngleWords(
        "Lateral tilt",
        "upright",
        "toward the glove side",
        "thorax lateral flexion, there positive to the other side (recalled)",
    ),
    "horizontal_adduction": AngleWords(
        "Horizontal adduction",
        "arm out to the side",
        "forward",
        "plane of elevation of the humerus to the thorax: the same number",
    ),
    "abduction": AngleWords(
        "Abduction",
        "arm hanging",
        "raised; 90° is level with the shoulder",
        "elevation of the humerus to the thorax: the same size, there counted negative",
    ),
    "external_rotation": AngleWords(
        "External rotation",
        "bent forearm pointing forward",
        "laid back; 90° is straight up",
        "axial rotation of the humerus to the thorax: the same size, there internal rotation is positive",
    ),
    "elbow_flexion": AngleWords(
        "Elbow flexion",
        "arm straight",
        "bent",
        "elbow flexion: the same number",
    ),
    "wrist_flexion": AngleWords(
        "Wrist flexion",
        "hand in line with the forearm",
        "toward the palm",
        "wrist flexion: the same number",
    ),
}

RECOMMENDATION = (
    "International Society of Biomechanics (ISB): Wu G et al. J Biomech 2005;38(5):981–992. Of the arm’s angles order, "
    "sense and zero were seen as tabled in J Biomech Eng 2020;142(7):074502; those of the thorax are recalled."
)
FRAME_WORDS = (
    "In the trunk x points forward, y up and z to the right, as recommended. Along the arm z points outward from joint "
    "to joint; the recommendation has y there, pointing inward: its x is x here, its y is −z, its z is y.",
    "The turns are made in the order of the drawings, each about an axis that the ones before have already moved. For "
    "the shoulder that is the recommended order (Y–X–Y); for the trunk it is Y–Z–X where Z–X–Y is recommended, so that "
    "the three numbers of a tilted and turned trunk differ.",
    "Held at the recommendation’s zero throughout: carrying angle, forearm pronation (so the wrist bends about an axis "
    "parallel to the elbow’s) and wrist deviation. Shoulder blade and collarbone have no angles: what is said of the "
    "shoulder is of the upper arm against the trunk.",
    "A left-hander is computed as the mirror image.",
)

EQUATIONS = (
    (
        "Force at a joint",
        "f = m (a − g) + f′",
        "It moves the segment, holds it against gravity, and passes on the force f′ that the next segment needs.",
    ),
    (
        "Torque at a joint",
        "M = dL/dt + M′ + (c − r) × f + (r′ − c) × f′",
        "It turns the segment, passes on the torque M′, and makes up for forces that do not pass through the centre of "
        "mass c; r and r′ are the joints nearer to and farther from the trunk.",
    ),
    (
        "Turning a segment",
        "dL/dt = Σ Iₖ [(α · eₖ) eₖ + (ω · eₖ) ω × eₖ]",
        "Over its three principal axes eₖ, with moment of inertia Iₖ, angular velocity ω and angular acceleration α.",
    ),
    (
        "The ball",
        "f = k mᵇ (aᵇ − g)",
        "The hand gives the ball all its force (k = 1) until the fingers begin to open; then k falls to 0 at release.",
    ),
    (
        "The path",
        "q(t) = q₀(s),  ds/dt = clock / duration of the path",
        "Every throw takes the same joint angles q₀; a faster one runs through them faster, so torques grow with the "
        "square of the speed, gravity’s part apart.",
    ),
)
CHAIN_WORDS = (
    "From the ball inward: hand, forearm, upper arm. Each joint’s torque is what the inner part gives the outer."
)

AXES = "Torques and forces are told along these axes:"
TORQUE_AXES = (
    ("Elbow", "forearm", "varus torque about x, flexion torque about y, pronation torque about −z"),
    ("Shoulder", "upper arm before external rotation",
     "horizontal-adduction torque about y, abduction torque about −x, internal-rotation torque about −z"),
    ("Shoulder forces", "upper arm before external rotation", "anterior along x, superior along y, proximal along −z"),
    ("Elbow forces", "forearm", "anterior along x, medial along −y, proximal along −z"),
)  # fmt: skip
