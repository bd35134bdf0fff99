"""What the browser needs to move a curve while a slider is dragged.

While a slider is dragged, the browser sums the identity's four terms itself (`assets/compare_curves.js`): the one place
where a screen does arithmetic on torque. As soon as it is let go the server draws, and stays the truth.
"""

from typing import Any

from app.pages.compare.answers import Answer, Comparison
from app.pages.compare.picture import level_of, scale_of
from app.show.curves_figure import drawn_points
from app.units.conversion import from_si, to_si
from model.channels import INDEX
from model.throw import path_loads

DIGITS = 10  # significant digits of the identity's curves


def identity_of(comparison: Comparison) -> dict[str, Any]:
    """The identity's curves of the chosen quantity, for each thrower and size of ball in the list.

    Parameters
    ----------
    comparison : Comparison

    Returns
    -------
    dict
        ``phase`` of the points that are drawn, ``duration_s`` of the path, ``rotation_phase`` of maximum external
        rotation; ``balls``, by thrower and diameter: ``arm``, ``ball``, ``arm_weight``, ``ball_weight`` with
        the sign that is read as positive, and ``path_speed_m_s``. Empty without a person.
    """
    reading = comparison.reading
    thrown = {
        _hand(answer): (answer.person, answer.throw.ball.diameter_m)
        for answer in comparison.drawn
        if answer.person is not None and answer.throw.ball is not None
    }
    if not thrown:
        return {}
    any_one = path_loads(*next(iter(thrown.values())))  # phase and duration are the path's, whoever throws
    points = drawn_points(any_one.phase.size)
    balls = {}
    for hand, (person, diameter) in thrown.items():
        loads = path_loads(person, diameter)
        mirrored = person.handedness == "left" and reading.channel == "ball_z"
        sign = -reading.sign if mirrored else reading.sign
        channel = {
            name: _written(sign * getattr(loads, name)[points, INDEX[reading.channel]])
            for name in ("arm", "ball", "arm_weight", "ball_weight")
        }
        balls[hand] = channel | {"path_speed_m_s": float(loads.path_speed_m_s)}
    return {
        "phase": any_one.phase[points].tolist(),
        "duration_s": any_one.duration_s,
        "rotation_phase": any_one.max_external_rotation_phase,
        "balls": balls,
    }


def moving_of(comparison: Comparison, drawing_order: list[str]) -> dict[str, Any]:
    """What of the throws the browser needs beside the identity.

    Parameters
    ----------
    comparison : Comparison
    drawing_order : list of str
        Keys of the throws in the order of the figure's traces.

    Returns
    -------
    dict
        ``curves`` in that order: ``key``, ``number`` in the list, ``name``, ``ball`` (a key of the identity's
        balls), ``thrower``, ``factor`` of what is drawn, ``mass_kg``, ``speed_m_s``, ``reference``, and
        ``per_unit_m_s``, the release speed (m/s) that one unit of what the throw is held at comes to, and
        ``speed_is_typed``; ``align``; ``unit`` and ``places`` of what is drawn; ``level`` of "time above" in
        the quantity's own unit ``level_unit``, or None, and ``level_factor`` of what is drawn; ``speed_unit``
        that is shown, and how many m/s it is; ``mass_unit_kg``, that of the balls (kg).
    """
    first = comparison.drawn[0].person if comparison.drawn else None
    (factor, unit), level = scale_of(comparison, first), level_of(comparison)
    by_key = {answer.key: answer for answer in comparison.drawn}
    curves = []
    for key in drawing_order:
        answer = by_key[key]
        ball, speed, typed = answer.throw.ball, answer.throw.speed_m_s, answer.throw.percent
        if speed is not None and answer.throw.hold == "speed":
            typed = comparison.system.value(speed, "m/s")
        if ball is None or speed is None or typed is None:
            continue
        curves.append(
            {
                "key": key,
                "number": answer.number,
                "name": answer.name,
                "ball": _hand(answer),
                "thrower": answer.thrower,
                "factor": scale_of(comparison, answer.person)[0],
                "mass_kg": ball.mass_kg,
                "speed_m_s": speed,
                "per_unit_m_s": speed / typed,
                "speed_is_typed": answer.throw.hold == "speed",
                "reference": answer.reference,
            }
        )
    return {
        "curves": curves,
        "align": comparison.align,
        "unit": unit,
        "places": 0 if unit == "N" else 1,
        "level": None if level is None else level.value,
        "level_factor": factor,
        "level_unit": comparison.reading.unit,
        "speed_unit": comparison.system.unit("m/s"),
        "speed_unit_m_s": to_si(1.0, comparison.system.unit("m/s")),
        "mass_unit_kg": to_si(1.0, comparison.system.unit("g")),
    }


def _written(values: Any) -> list[float]:
    return [float(f"{value:.{DIGITS}g}") for value in values]


def _hand(answer: Answer) -> str:
    """Whose hand with what size of ball: the throws that share one share their identity."""
    ball = answer.throw.ball
    if ball is None:
        return ""
    diameter = f"{from_si(ball.diameter_m, 'mm'):.6g}"
    return f"{answer.thrower}_{diameter}" if answer.thrower else diameter
