"""The angles against the recommendation: what the page says of each is so, worked out with another library's turns."""

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from app.pages.trust.frames import angle_drawings
from app.pages.trust.words import ANGLES
from app.show.markup import to_html
from model.chain import COORDINATES, Frame, State, frames_of

TURNED = dict(zip(COORDINATES, (20.0, 15.0, -10.0, 25.0, 80.0, 130.0, 70.0, -20.0), strict=True))


def frames():
    angles = np.radians([[TURNED[name] for name in COORDINATES]])
    still = np.zeros((1, 8))
    return frames_of(State(angles, still, still, np.zeros(1), np.zeros(1), np.zeros(1)))


def thorax(frame: Frame) -> Rotation:
    return Rotation.from_matrix(frame.axes[0])


def recommended(frame: Frame) -> Rotation:
    """An arm segment in the recommended axes: x is x, y is minus z (inward), z is y."""
    x, y, z = frame.axes[0].T
    return Rotation.from_matrix(np.stack((x, -z, y), axis=1))


def test_the_shoulders_angles_are_the_recommended_ones_as_the_page_says():
    """Y-X-Y of the humerus to the thorax: plane of elevation, minus elevation, internal rotation positive."""
    found = frames()
    turned = thorax(found.trunk).inv() * recommended(found.upper_arm)
    plane, elevation, axial = turned.as_euler("YXY", degrees=True)
    if elevation > 0.0:  # the same turn, written with the elevation counted negative
        plane, elevation, axial = (plane + 360.0) % 360.0 - 180.0, -elevation, axial + 180.0
    assert (plane, elevation) == pytest.approx((TURNED["horizontal_adduction"], -TURNED["abduction"]), abs=1e-6)
    assert np.cos(np.radians(axial + TURNED["external_rotation"])) == pytest.approx(1.0)
    assert "the same number" in ANGLES["horizontal_adduction"].recommended
    assert "counted negative" in ANGLES["abduction"].recommended
    assert "internal rotation is positive" in ANGLES["external_rotation"].recommended


@pytest.mark.parametrize(("near", "far", "name"), [("upper_arm", "forearm", "elbow"), ("forearm", "hand", "wrist")])
def test_elbow_and_wrist_flexion_are_the_recommended_ones_and_all_else_is_zero(near, far, name):
    found = frames()
    turned = recommended(getattr(found, near)).inv() * recommended(getattr(found, far))
    flexion, *others = turned.as_euler("ZXY", degrees=True)
    assert flexion == pytest.approx(TURNED[f"{name}_flexion"])
    assert others == pytest.approx([0.0, 0.0], abs=1e-9)  # carrying angle and pronation, or deviation and twist
    assert "the same number" in ANGLES[f"{name}_flexion"].recommended


def test_the_thoraxs_signs_are_those_the_page_says():
    """Each alone: Z-X-Y with forward flexion and tilt to the left negative, rotation to the left positive."""
    for name, place, sign in (
        ("trunk_forward_tilt", 0, -1.0),
        ("trunk_lateral_tilt", 1, -1.0),
        ("trunk_rotation", 2, 1.0),
    ):
        angles = np.zeros((1, 8))
        angles[0, COORDINATES.index(name)] = np.radians(20.0)
        still = np.zeros((1, 8))
        trunk = frames_of(State(angles, still, still, np.zeros(1), np.zeros(1), np.zeros(1))).trunk
        assert thorax(trunk).as_euler("ZXY", degrees=True)[place] == pytest.approx(sign * 20.0)


def test_every_angle_is_drawn_with_its_name_and_said_for_those_who_do_not_see_it():
    made = to_html(angle_drawings())
    assert made.count('role="img"') == len(COORDINATES)
    for words in ANGLES.values():
        assert words.name in made
        assert f"Zero: {words.zero}. Positive: {words.positive}." in made
