"""The claim of an athlete's settings: two balls, a joint, how both are thrown, more or less."""

from dataclasses import dataclass

from app.records.reads import AthleteData
from app.show.kept import refused_settings, setting_of
from app.show.subject import Case, is_same, shown_ball
from model.ball import Ball

JOINTS = {
    "varus": "the elbow",
    "internal_rotation": "the shoulder",
    "horizontal_abduction": "the shoulder, in braking,",
}
"""What is loaded, as a claim calls it, by the reading it is read from."""

THROWN = {
    "profile": "each at full speed",
    "same": "both at the same speed",
    "typed": "each at a typed speed",
}
"""How the two throws are held: key, and the words of the page."""

BALLS = ("first", "second")
SAME_SPEED = "claim.same_speed_m_s"


def ball_paths(which: str) -> tuple[str, str]:
    """The settings of a ball: mass and diameter."""
    return f"claim.{which}_mass_kg", f"claim.{which}_diameter_m"


def speed_path(which: str) -> str:
    """The setting of a ball's typed speed."""
    return f"claim.{which}_speed_m_s"


@dataclass(frozen=True)
class Claim:
    """A claim, as far as it is known.

    Attributes
    ----------
    reading : str
        A key of `JOINTS`.
    more : bool
        Whether more is claimed of the first ball.
    thrown : str
        A key of `THROWN`.
    first, second : Ball or None
        Of the first more or less is claimed than of the second.
    speeds_m_s : (float, float) or None
        The speeds that were typed, where they are asked for.
    to_mend : tuple of str
        Labels of the fields that are asked for and empty or refused.
    """

    reading: str = "varus"
    more: bool = True
    thrown: str = "profile"
    first: Ball | None = None
    second: Ball | None = None
    speeds_m_s: tuple[float, float] | None = None
    to_mend: tuple[str, ...] = ()


def claim_of(data: AthleteData, case: Case) -> Claim:
    """Read the claim from an athlete's settings; a ball's field that was left empty has its usual value."""
    reading, thrown = setting_of(data, "claim.reading"), setting_of(data, "claim.thrown")
    more = setting_of(data, "claim.way") != "less"
    first, second = (_ball(data, case, which) for which in BALLS)
    asked = [path for which in BALLS for path in ball_paths(which)]
    speeds: list[float | None] = []
    empty: list[str] = []
    if thrown == "typed":
        asked += map(speed_path, BALLS)
        speeds = [setting_of(data, speed_path(which)) for which in BALLS]
        labels = [f"Speed of the {which} ball" for which in BALLS]
        empty = [label for label, speed in zip(labels, speeds, strict=True) if speed is None]
    elif thrown == "same":
        asked.append(SAME_SPEED)
        speeds = [setting_of(data, SAME_SPEED)] * 2
    to_mend = tuple(dict.fromkeys([*refused_settings(data, asked), *empty]))
    known = [speed for speed in speeds if speed is not None]
    return Claim(
        reading if reading in JOINTS else "varus",
        more,
        thrown if thrown in THROWN else "profile",
        first,
        second,
        (known[0], known[1]) if len(known) == len(BALLS) else None,
        to_mend,
    )


def usual_values(data: AthleteData, case: Case) -> dict[str, float]:
    """What counts where a ball's field is empty.

    Returns
    -------
    dict of str to float
        By setting, in SI: the rack's nearest to twice the own ball's mass, and the own ball. A mass that was typed has
        the diameter of the rack's ball of that mass, else the own ball's.
    """
    made: dict[str, float] = {}
    for which, usual in zip(BALLS, (shown_ball(case), case.own_ball), strict=True):
        mass, diameter = ball_paths(which)
        typed = setting_of(data, mass)
        if typed is not None:
            usual = next(
                (ball for ball in case.rack if is_same(ball, Ball(typed))), Ball(typed, case.own_ball.diameter_m)
            )
        made |= {mass: usual.mass_kg, diameter: usual.diameter_m}
    return made


def _ball(data: AthleteData, case: Case, which: str) -> Ball | None:
    paths = ball_paths(which)
    if refused_settings(data, paths):
        return None
    usual = usual_values(data, case)
    values = [setting_of(data, path) for path in paths]
    return Ball(*(usual[path] if value is None else value for path, value in zip(paths, values, strict=True)))
