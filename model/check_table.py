"""Every comparison of the model with print, as data: printed, the model's, and what a laboratory would see of that.

Laboratories filter before they compute, so like is compared with like: `seen` is the model's throw through the filter
of the source (`laboratory`), or through the usual one where the source's own is not known. A row is *calibrated* where
the value, or one beside it, was in view or a target when the reference motion was made: it says that the fit did its
work. All others are predictions. Sizes and speeds that a source does not tell are taken as ordinary, and the row says
so. Of a row in `balls` the first throw is held against the second.
"""

from collections.abc import Iterator

import numpy as np

from model.ball import DEFAULT_DIAMETER_M, Ball
from model.comparison import (
    Comparison,
    Thrower,
    change_held_against,
    fastest_at_percent,
    fastest_deg_s,
    held_against,
    peak_of,
    turn_before_release_ms,
)
from model.equivalent_mass import equivalent_mass
from model.laboratory import View
from model.person import Person
from model.published import values
from model.speed import speed_ratio
from model.throw import path_loads

MAN = Person("male", 1.88, 90.0, 25.0)  # of the reference motion
STUDENT = Person("male", 1.80, 78.0, 16.5)
ADOLESCENT = Person("male", 1.65, 55.0, 13.5)
BOY = Person("male", 1.48, 41.0, 11.1)
SMALL_BOY = Person("male", 1.30, 28.0, 8.3)
AMATEUR = Person("male", 1.70, 71.6, 26.0)
BASEBALL = Ball(0.142)
MPH = 0.44704  # m/s, exact
REFERENCE: Thrower = (MAN, Ball(0.145), 37.0)
THE_REFERENCE = "the reference throw"
TAKEN = "size and speed taken"


def check_table() -> tuple[Comparison, ...]:
    """Compute every comparison.

    Returns
    -------
    tuple of Comparison
        Group after group.
    """
    return tuple(row for rows in (_levels, _forces, _movement, _timing, _efforts, _balls) for row in rows())


def _levels() -> Iterator[Comparison]:
    varus, rotation, group = peak_of("varus"), peak_of("internal_rotation"), "levels"
    for value, name, rows in (
        (varus, "varus torque", ("1-kinetics-53", "1-kinetics-01", "1-kinetics-42")),
        (rotation, "internal-rotation torque", ("1-kinetics-52", "1-kinetics-02", "1-kinetics-40")),
    ):
        spreads = (rows[0], {"1-kinetics-01": "1-kinetics-07", "1-kinetics-02": "1-kinetics-08"}[rows[1]], rows[2])
        for row, spread in zip(rows, spreads, strict=True):
            yield held_against(group, name, "N·m", value, REFERENCE, THE_REFERENCE, row, spread, calibrated=True)
    yield held_against(
        group,
        "varus torque",
        "N·m",
        varus,
        (Person("male", 1.80, 89.7, 24.0), BASEBALL, 37.0),
        "speed taken",
        "1-kinetics-43",
    )
    size = STUDENT.body_mass_kg * STUDENT.stature_m
    low, high = (float(x) for x in values()["1-kinetics-63"].sd_or_range.split("-"))
    yield held_against(
        group,
        "varus torque over size",
        "N·m/(m·kg)",
        lambda view: varus(view) / size,
        (STUDENT, BASEBALL, 71.0 * MPH),
        "size taken",
        "1-kinetics-63",
        between=(low, high),
    )
    young = (ADOLESCENT, BASEBALL, 26.0)
    yield held_against(group, "varus torque", "N·m", varus, young, TAKEN, "1-kinetics-48", "1-kinetics-48")
    yield held_against(
        group, "internal-rotation torque", "N·m", rotation, young, TAKEN, "1-kinetics-50", "1-kinetics-50"
    )
    yield held_against(
        group,
        "varus torque",
        "N·m",
        varus,
        (Person("male", 1.65, 54.8, 12.9), BASEBALL, 26.0),
        "speed taken",
        "1-kinetics-64",
        "1-kinetics-64",
    )
    yield held_against(
        group,
        "varus torque",
        "N·m",
        varus,
        (Person("male", 1.55, 46.0, 12.5), BASEBALL, 24.5),
        TAKEN,
        "1-kinetics-59",
        "1-kinetics-59",
    )
    amateurs = (AMATEUR, Ball(0.145), 28.0), TAKEN
    yield held_against(group, "varus torque", "N·m", varus, *amateurs, "1-kinetics-60")
    yield held_against(group, "internal-rotation torque", "N·m", rotation, *amateurs, "1-kinetics-61")
    yield held_against(
        group,
        "varus torque of the longest throw, no faster than the usual one",
        "N·m",
        varus,
        REFERENCE,
        THE_REFERENCE,
        "4-effort-distance-18",
        "4-effort-distance-18",
    )

    def ratio(view: View) -> float:
        return rotation(view) / varus(view)

    other = "another body than in print"
    for throw, note, calibrated in (
        (REFERENCE, THE_REFERENCE, True),
        ((Person("female", 1.70, 65.0, 22.0), BASEBALL, 27.0), other, False),
        ((BOY, BASEBALL, 22.0), other, False),
    ):
        yield held_against(
            group,
            "internal rotation over varus",
            "",
            ratio,
            throw,
            note,
            "1-kinetics-52",
            calibrated=calibrated,
            between=(0.96, 1.15),
            printed=80.8 / 79.2,
        )


def _forces() -> Iterator[Comparison]:
    group = "forces"
    in_fit, beyond = "a ceiling in the fit", "hangs on what lies beyond the record"
    adduction, abduction = "horizontal-adduction torque", "horizontal-abduction torque after release"
    for name, unit, key, row, spread, marks in (
        ("shoulder proximal force", "N", "shoulder_proximal", "1-kinetics-03", "1-kinetics-13", in_fit),
        ("elbow proximal force", "N", "elbow_proximal", "1-kinetics-11", "1-kinetics-11", in_fit),
        ("shoulder anterior force", "N", "shoulder_anterior", "1-kinetics-04", None, ""),
        ("posterior force after release", "N", "shoulder_posterior_braking", "1-kinetics-05", None, beyond),
        (adduction, "N·m", "horizontal_adduction", "1-kinetics-09", "1-kinetics-09", in_fit),
        (abduction, "N·m", "horizontal_abduction", "1-kinetics-06", "1-kinetics-14", in_fit + beyond),
        ("elbow flexion torque", "N·m", "elbow_flexion", "1-kinetics-10", "1-kinetics-10", in_fit),
    ):
        calibrated, testable = in_fit in marks, beyond not in marks
        yield held_against(
            group,
            name,
            unit,
            peak_of(key),
            REFERENCE,
            THE_REFERENCE,
            row,
            spread,
            calibrated=calibrated,
            testable=testable,
        )
    yield held_against(
        group,
        "shoulder over elbow proximal force",
        "",
        lambda view: view.read("shoulder_proximal").peak / view.read("elbow_proximal").peak,
        REFERENCE,
        THE_REFERENCE,
        "1-kinetics-03",
        between=(1.0, np.inf),
        printed=1090.0 / 900.0,
    )


def _movement() -> Iterator[Comparison]:
    group = "speeds and angles"
    turn, extend = fastest_deg_s("internal_rotation"), fastest_deg_s("elbow_flexion", -1)
    for name, unit, value, row, spread in (
        ("internal-rotation speed", "deg/s", turn, "2-kinematics-timing-28", "2-kinematics-timing-28"),
        ("internal-rotation speed", "deg/s", turn, "2-kinematics-timing-03", None),
        ("elbow extension speed", "deg/s", extend, "2-kinematics-timing-27", "2-kinematics-timing-27"),
        ("elbow extension speed", "deg/s", extend, "2-kinematics-timing-07", "2-kinematics-timing-07"),
        (
            "maximum external rotation",
            "deg",
            lambda view: float(np.degrees(view.external_rotation.max())),
            "2-kinematics-timing-26",
            "2-kinematics-timing-26",
        ),
    ):
        yield held_against(group, name, unit, value, REFERENCE, THE_REFERENCE, row, spread, calibrated=True)


def _timing() -> Iterator[Comparison]:
    group = "timing"
    yield held_against(
        group,
        "maximum external rotation before release",
        "ms",
        turn_before_release_ms,
        REFERENCE,
        THE_REFERENCE,
        "2-kinematics-timing-01",
        calibrated=True,
        between=(25.0, 33.0),
    )
    for name, value, row, low, high in (
        ("elbow extends fastest", fastest_at_percent("elbow_flexion", -1), "2-kinematics-timing-45", 89.0, 97.0),
        (
            "internal rotation is fastest",
            fastest_at_percent("internal_rotation"),
            "2-kinematics-timing-46",
            100.0,
            107.0,
        ),
    ):
        yield held_against(
            group,
            name,
            "% of the time to release",
            value,
            REFERENCE,
            THE_REFERENCE,
            row,
            calibrated=True,
            between=(low, high),
            printed=0.5 * (low + high),
        )
    yield held_against(
        group,
        "varus peak before maximum external rotation",
        "ms",
        lambda view: 1e3 * view.read("varus").peak_before_release_s - turn_before_release_ms(view),
        REFERENCE,
        "the reference throw; in print: shortly before",
        "2-kinematics-timing-47",
        calibrated=True,
        between=(-5.0, 12.0),
        printed=np.nan,
    )


def _efforts() -> Iterator[Comparison]:
    full = (STUDENT, BASEBALL, 34.0)
    for speed_row, torque_row in (
        ("4-effort-distance-10", "4-effort-distance-09"),
        ("4-effort-distance-12", "4-effort-distance-11"),
    ):
        change = values()[speed_row].number
        slower = (STUDENT, BASEBALL, 34.0 * (1.0 + change / 100.0))
        printed = values()[torque_row].number
        yield change_held_against(
            "efforts",
            f"varus torque at {100.0 + change:g} % of full speed",
            "%",
            peak_of("varus"),
            (slower, full),
            TAKEN,
            torque_row,
            in_band=True,
            printed=printed,
            between=(printed - 4.0, printed + 4.0),  # 2 of rounded speeds, 3 of ten throwers' mean
        )


def _slowed(person: Person, from_kg: float, speed_m_s: float, to_kg: float, p: float) -> float:
    """Speed with another ball by the law of the speed profile."""
    mu_kg = equivalent_mass(path_loads(person, DEFAULT_DIAMETER_M), from_kg).mass_kg
    return speed_m_s * float(speed_ratio(to_kg, from_kg, mu_kg, p))


def _balls() -> Iterator[Comparison]:
    varus = peak_of("varus")
    rises, falls = (0.0, np.inf), (-np.inf, 0.0)
    for source, person, light, heavy, speed, p, direction in (
        ("3-ball-mass-10", BOY, 0.113, 0.142, 24.0, 0.25, rises),
        ("3-ball-mass-13", SMALL_BOY, 0.085, 0.142, 18.0, 0.25, rises),
        ("3-ball-mass-03", MAN, 0.113, 0.198, 37.0, 0.76, falls),
    ):
        throws = (person, Ball(heavy), _slowed(person, light, speed, heavy, p)), (person, Ball(light), speed)
        note = f"size, speed and exponent p = {p:g} taken"
        yield change_held_against("balls", "varus torque", "%", varus, throws, note, source, between=direction)
    drop = values()["3-ball-mass-05"].number
    amateurs = (AMATEUR, Ball(0.145), 29.0 + drop), (AMATEUR, Ball(0.110), 29.0)
    note = "speed with the lighter ball taken, the drop as printed"
    yield change_held_against(
        "balls", "varus torque", "%", varus, amateurs, note, "3-ball-mass-09", between=(-np.inf, 3.0)
    )
    yield change_held_against(
        "balls",
        "internal-rotation speed",
        "deg/s",
        fastest_deg_s("internal_rotation"),
        amateurs,
        note,
        "3-ball-mass-07",
        printed=values()["3-ball-mass-07"].number,
    )
