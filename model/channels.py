"""Every quantity the dynamics give over time: its name, unit, direction and window. One place, one order.

Torques and forces are those that the nearer segment exerts on the farther one (internal torques). Internal varus
torque and external valgus torque are the same size; *varus torque* is the word used everywhere.
"""

from dataclasses import dataclass

RELEASE_PHASE = 1.0
END_PHASE = 1.25


@dataclass(frozen=True)
class Channel:
    """One quantity over time.

    Attributes
    ----------
    key, label, unit, joint : str
        Name in the code, plain name, 'N·m' or 'N', and where it acts.
    direction : str
        What a positive value does, in words; and what a negative one is called.
    negative_label : str
        Plain name of the reversed quantity.
    turns : str or None
        The rotation whose speed it shares (a key of `chain.TURNS`), if the joint really turns that way: then it does
        work.
    """

    key: str
    label: str
    unit: str
    joint: str
    direction: str
    negative_label: str
    turns: str | None = None


_TORQUES = (
    Channel(
        "varus", "varus torque", "N·m", "elbow", "turns the forearm inward against being bent outward", "valgus torque"
    ),
    Channel(
        "elbow_flexion",
        "elbow flexion torque",
        "N·m",
        "elbow",
        "bends the elbow",
        "elbow extension torque",
        "elbow_flexion",
    ),
    Channel(
        "pronation", "pronation torque", "N·m", "elbow", "turns the palm down about the forearm", "supination torque"
    ),
    Channel(
        "wrist_flexion",
        "wrist flexion torque",
        "N·m",
        "wrist",
        "bends the wrist toward the palm",
        "wrist extension torque",
        "wrist_flexion",
    ),
    Channel(
        "internal_rotation",
        "internal-rotation torque",
        "N·m",
        "shoulder",
        "turns the upper arm about its length, forearm forward",
        "external-rotation torque",
        "internal_rotation",
    ),
    Channel(
        "horizontal_adduction",
        "horizontal-adduction torque",
        "N·m",
        "shoulder",
        "draws the upper arm forward",
        "horizontal-abduction torque",
        "horizontal_adduction",
    ),
    Channel(
        "abduction", "abduction torque", "N·m", "shoulder", "raises the upper arm", "adduction torque", "abduction"
    ),
)

_FORCES = (
    Channel(
        "shoulder_proximal",
        "shoulder proximal force",
        "N",
        "shoulder",
        "holds the upper arm to the shoulder against being pulled out",
        "shoulder distal force",
    ),
    Channel(
        "shoulder_anterior",
        "shoulder anterior force",
        "N",
        "shoulder",
        "pushes the upper arm forward, across its length",
        "shoulder posterior force",
    ),
    Channel(
        "shoulder_superior",
        "shoulder superior force",
        "N",
        "shoulder",
        "pushes the upper arm upward, across its length",
        "shoulder inferior force",
    ),
    Channel(
        "elbow_proximal",
        "elbow proximal force",
        "N",
        "elbow",
        "holds the forearm to the elbow against being pulled out",
        "elbow distal force",
    ),
    Channel(
        "elbow_anterior",
        "elbow anterior force",
        "N",
        "elbow",
        "pushes the forearm toward the side of flexion, across its length",
        "elbow posterior force",
    ),
    Channel(
        "elbow_medial",
        "elbow medial force",
        "N",
        "elbow",
        "pushes the forearm inward along the flexion axis",
        "elbow lateral force",
    ),
    Channel(
        "ball_x",
        "ball's force on the hand, toward the target",
        "N",
        "hand",
        "toward the target",
        "away from the target",
    ),
    Channel("ball_y", "ball's force on the hand, upward", "N", "hand", "upward", "downward"),
    Channel(
        "ball_z",
        "ball's force on the hand, to the right",
        "N",
        "hand",
        "to the right of the line to the target",
        "to the left",
    ),
)

CHANNELS = {channel.key: channel for channel in _TORQUES + _FORCES}
INDEX = {key: i for i, key in enumerate(CHANNELS)}


@dataclass(frozen=True)
class Reading:
    """A quantity that people read off a curve: a channel, a direction of it, and the window it is read in.

    Attributes
    ----------
    key, label, unit : str
        Name in the code, plain name, unit.
    channel : str
        The channel it is read from.
    sign : int
        +1, or -1 for the reversed quantity.
    end_phase : float
        Read from foot contact (phase 0) to here: release (1) or the end of the follow-through (1.25).
    braking : bool
        Whether it belongs to the braking group, which peaks after release, where the hand is empty.
    """

    key: str
    label: str
    unit: str
    channel: str
    sign: int
    end_phase: float
    braking: bool = False


def _reading(key: str, channel: str, sign: int = 1, end: float = RELEASE_PHASE, braking: bool = False) -> Reading:
    source = CHANNELS[channel]
    return Reading(key, source.label if sign > 0 else source.negative_label, source.unit, channel, sign, end, braking)


READINGS = {
    reading.key: reading
    for reading in (
        _reading("varus", "varus"),
        _reading("internal_rotation", "internal_rotation"),
        _reading("horizontal_adduction", "horizontal_adduction"),
        _reading("abduction", "abduction"),
        _reading("adduction", "abduction", -1),
        _reading("elbow_flexion", "elbow_flexion"),
        _reading("elbow_extension", "elbow_flexion", -1),
        _reading("pronation", "pronation"),
        _reading("wrist_flexion", "wrist_flexion"),
        _reading("wrist_extension", "wrist_flexion", -1),
        _reading("horizontal_abduction", "horizontal_adduction", -1, END_PHASE, braking=True),
        _reading("shoulder_proximal", "shoulder_proximal", 1, END_PHASE, braking=True),
        _reading("elbow_proximal", "elbow_proximal", 1, END_PHASE, braking=True),
        _reading("shoulder_posterior", "shoulder_anterior", -1, END_PHASE, braking=True),
        _reading("shoulder_anterior", "shoulder_anterior", 1, END_PHASE),
        _reading("elbow_medial", "elbow_medial", 1, END_PHASE),
        _reading("elbow_anterior", "elbow_anterior", 1, END_PHASE),
    )
}
