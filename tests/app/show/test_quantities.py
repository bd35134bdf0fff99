"""The choice of quantities."""

import pytest

from app.show.quantities import choices, reading_named, title
from model.channels import CHANNELS, READINGS
from model.readouts import QUANTITIES


def test_every_channel_of_the_model_can_be_chosen():
    assert {reading.channel for reading in QUANTITIES.values()} == set(CHANNELS)
    assert set(READINGS) <= set(QUANTITIES)


def test_torques_come_first_and_the_braking_ones_are_marked():
    groups = choices()
    assert [group["group"] for group in groups] == [
        "Torques",
        "Torques, braking after release",
        "Forces",
        "Forces, braking after release",
    ]
    listed = [item["value"] for group in groups for item in group["items"]]
    assert sorted(listed) == sorted(QUANTITIES)
    assert groups[0]["items"][0] == {"value": "varus", "label": "Varus torque at the elbow"}
    for group in groups:
        assert {QUANTITIES[item["value"]].braking for item in group["items"]} == {"braking" in group["group"]}


def test_a_label_names_the_joint_once():
    assert title(QUANTITIES["elbow_extension"]) == "Elbow extension torque"
    assert title(QUANTITIES["internal_rotation"]) == "Internal-rotation torque at the shoulder"
    assert title(QUANTITIES["shoulder_proximal"]) == "Shoulder proximal force"


@pytest.mark.parametrize("key", [None, 3, "", "__class__", [], {}])
def test_an_unknown_quantity_is_the_varus_torque(key):
    assert reading_named(key).key == "varus"
