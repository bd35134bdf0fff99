"""The drawings of the joint angles: zero and sense as the definitions have them, worked out by hand in each view."""

import numpy as np
import pytest

from model.angle_figure import LINE, angle_figures
from model.chain import COORDINATES
from model.person import Person

FIGURES = {figure.coordinate: figure for figure in angle_figures(Person("male", 1.88, 90.0, 25.0))}


def direction(places: np.ndarray, at: int) -> np.ndarray:
    """Of the line that leaves a point, a unit vector to the right and up."""
    along = places[at + 1] - places[at]
    return along / np.linalg.norm(along)


def test_every_angle_is_drawn_in_order():
    assert tuple(FIGURES) == COORDINATES


@pytest.mark.parametrize(
    ("name", "at", "zero_deg", "turned_deg"),  # of the part that turns, from the right of the drawing anticlockwise
    [
        ("trunk_forward_tilt", 0, 90.0, 60.0),  # the target is on the right: upright, then 30 degrees toward it
        ("trunk_lateral_tilt", 0, 90.0, 120.0),  # from behind, a right-hander's glove side is on the left
        ("horizontal_adduction", LINE.index("shoulder"), 0.0, 40.0),  # from above, the target is at the top
        ("abduction", LINE.index("shoulder"), -90.0, -30.0),
        ("external_rotation", LINE.index("elbow"), 0.0, 60.0),  # forward, then up and back
        ("elbow_flexion", LINE.index("elbow"), 0.0, 60.0),
        ("wrist_flexion", 1, 0.0, 50.0),
    ],
)
def test_zero_and_sense_are_drawn_as_the_angle_counts(name, at, zero_deg, turned_deg):
    figure = FIGURES[name]
    for places, degrees in ((figure.zero, zero_deg), (figure.turned, turned_deg)):
        turn = np.radians(degrees)
        assert direction(places, at) == pytest.approx([np.cos(turn), np.sin(turn)], abs=1e-9)


def test_trunk_rotation_brings_the_throwing_shoulder_forward():
    """From above, target at the top: the arm, at the thrower's right, turns by 40 degrees toward the top."""
    figure = FIGURES["trunk_rotation"]
    at = LINE.index("shoulder")
    assert direction(figure.zero, at) == pytest.approx([1.0, 0.0], abs=1e-9)
    assert direction(figure.turned, at) == pytest.approx([np.cos(np.radians(40.0)), np.sin(np.radians(40.0))], abs=1e-9)


@pytest.mark.parametrize("name", COORDINATES)
def test_the_way_runs_from_zero_to_turned_about_the_joint(name):
    figure = FIGURES[name]
    steps = np.diff(figure.way, axis=0)
    lengths = np.linalg.norm(steps, axis=1)
    assert np.ptp(lengths) < 1e-9  # a circle's arc, evenly
    assert lengths.sum() > 0.01
    assert len(figure.heads) == (0 if name == "wrist_flexion" else 2)
