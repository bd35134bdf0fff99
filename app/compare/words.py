"""What the page says beside its numbers: the tested range, and what it rests on."""

from app.compare.answers import Answer, Comparison, plain
from app.units import range_in
from model.checks import Limit

TESTED_BALL_KG = (
    0.057,
    0.907,
)  # balls of the published weighted-ball trial: Reinold 2018 (values.csv 8-pitch-limits-20)
TESTED_SPEED_M_S = (5.0, 50.0)  # where the mass-speed identity is tested against the full recursion

INVENTED = "Invented demo data: nobody here exists and nothing was measured."

BASIS = (
    (
        "Path",
        "Joint angles of one throw, solved for once, for an adult man; every throw takes this path, faster or slower. "
        "An assumption.",
    ),
    (
        "Body measures",
        "Arm lengths, masses and inertias are scaled from the measures; a measured length replaces a scaled one.",
    ),
    ("Time of the peak", "The top of the curve is broad: the time of its peak is known to about ±7 ms at full speed."),
    (
        "Level",
        "Calibrated, not evidence: level, shape and timing were in view when the path was solved. "
        "Laboratories differ by ±25 % and more.",
    ),
    (
        "After release",
        "The hand is empty: only the speed matters, not the ball. The varus torque there is not calibrated.",
    ),
    ("Speed", "Release speed, the ball still in the hand; a radar reads a moment later."),
)


def warnings(comparison: Comparison) -> list[str]:
    """Name each throw that leaves the range the model was tested in.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    list of str
    """
    return [text for answer in comparison.drawn if (text := _beyond(answer))]


def _beyond(answer: Answer) -> str:
    ball, speed = answer.checked.ball, answer.checked.speed_m_s
    if ball is None or speed is None:
        return ""
    system = answer.system
    balls = range_in(Limit(*TESTED_BALL_KG, "kg"), system.unit("g"))
    speeds = range_in(Limit(*TESTED_SPEED_M_S, "m/s"), system.unit("m/s"))
    beyond = []
    if not TESTED_BALL_KG[0] <= ball.mass_kg <= TESTED_BALL_KG[1]:
        beyond.append(f"balls from {balls}")
    if not TESTED_SPEED_M_S[0] <= speed <= TESTED_SPEED_M_S[1]:
        beyond.append(f"speeds from {speeds}")
    if not beyond:
        return ""
    return f"{answer.name} is beyond what the model was tested in: {' and '.join(beyond)}."


def held(answer: Answer) -> str:
    """Say what release speed follows from how a throw is held; nothing where it is held at that speed itself.

    Parameters
    ----------
    answer : Answer

    Returns
    -------
    str
    """
    line = answer.checked
    if line.form.held == "speed" or line.speed_m_s is None:
        return ""
    system = answer.system
    speed = f"Released at {system.text(line.speed_m_s, 'm/s', least=1, most=1)}"
    if line.full_speed_m_s is None:
        return f"{speed}."
    share = line.speed_m_s / line.full_speed_m_s.estimate
    ends = (share * end for end in (line.full_speed_m_s.low, line.full_speed_m_s.high))
    low, high = (system.number(end, "m/s", least=1, most=1) for end in ends)
    return f"{speed}; by the readings {low} to {high} (90 %)."


def summary(comparison: Comparison) -> str:
    """Say in a line who throws, and against which throw; it stands on the printed page.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    str
    """
    person = comparison.person
    parts = [comparison.athlete.code] if comparison.athlete.code else []
    if person is not None:
        parts += [
            person.sex,
            f"{plain(person.age_years, most=1)} years",
            comparison.system.height(person.stature_m),
            comparison.system.text(person.body_mass_kg, "kg", most=1),
            f"{person.handedness}-handed",
        ]
    if comparison.reference is not None:
        parts.append(f"reference {comparison.reference.name}, {comparison.known}")
    return " · ".join(parts)
