"""Every quantity the dynamics give over time: its name, unit, direction and window. One place, one order.

Torques and forces are those that the nearer segment exerts on the farther one (internal torques). Internal varus
torque and external valgus torque are the same size; *varus torque* is the word used everywhere.
"""

from dataclasses import dataclass, replace

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
        The rotation whose speed it shares (a key of `chain.angular_velocities`), if the joint really turns that way:
        then it does work.
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
    start_phase, end_phase : float
        The window: foot contact (0) to release (1) for torques, to the end of the follow-through (1.25) for forces.
    braking : bool
        Whether it belongs to the braking group: read from release on, where the hand is empty, so that the ball's mass
        does not matter and only the clock counts.
    """

    key: str
    label: str
    unit: str
    channel: str
    sign: int
    start_phase: float
    end_phase: float
    braking: bool = False


def _torque(key: str, channel: str, sign: int = 1) -> Reading:
    source = CHANNELS[channel]
    label = source.label if sign > 0 else source.negative_label
    return Reading(key, label, source.unit, channel, sign, 0.0, RELEASE_PHASE)


def _force(key: str, channel: str, sign: int = 1) -> Reading:
    return replace(_torque(key, channel, sign), end_phase=END_PHASE)


def _braking(key: str, channel: str, sign: int = 1) -> Reading:
    whole = _force(key, channel, sign)
    return replace(whole, label=f"{whole.label} after release", start_phase=RELEASE_PHASE, braking=True)


READINGS = {
    reading.key: reading
    for reading in (
        _torque("varus", "varus"),
        _torque("internal_rotation", "internal_rotation"),
        _torque("horizontal_adduction", "horizontal_adduction"),
        _torque("abduction", "abduction"),
        _torque("adduction", "abduction", -1),
        _torque("elbow_flexion", "elbow_flexion"),
        _torque("elbow_extension", "elbow_flexion", -1),
        _torque("pronation", "pronation"),
        _torque("wrist_flexion", "wrist_flexion"),
        _torque("wrist_extension", "wrist_flexion", -1),
        _force("shoulder_proximal", "shoulder_proximal"),
        _force("shoulder_anterior", "shoulder_anterior"),
        _force("shoulder_posterior", "shoulder_anterior", -1),
        _force("elbow_proximal", "elbow_proximal"),
        _force("elbow_anterior", "elbow_anterior"),
        _force("elbow_medial", "elbow_medial"),
        _braking("horizontal_abduction", "horizontal_adduction", -1),
        _braking("shoulder_proximal_braking", "shoulder_proximal"),
        _braking("shoulder_posterior_braking", "shoulder_anterior", -1),
        _braking("elbow_proximal_braking", "elbow_proximal"),
    )
}
