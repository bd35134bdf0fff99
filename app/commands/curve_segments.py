"""The arm of a throw in numbers and words: what other software needs, beside the curves, to compute the torques."""

from typing import Any

from scipy import constants

from app.version import VERSION
from model.ball import beyond_the_hand_m
from model.chain import ROTATIONS, Z
from model.channels import CHANNELS
from model.segments import Segment, arm_of
from model.throw import Throw, curves

FRAME_AFTER = {
    "trunk_lateral_tilt": "trunk",
    "abduction": "shoulder",
    "external_rotation": "upper_arm",
    "elbow_flexion": "forearm",
    "wrist_flexion": "hand",
}

# the joint at which a channel acts, the frame it is resolved in and the direction there, of a right-hander
DIRECTIONS = {
    "varus": ("elbow", "forearm", (1, 0, 0)),
    "elbow_flexion": ("elbow", "forearm", (0, 1, 0)),
    "pronation": ("elbow", "forearm", (0, 0, -1)),
    "wrist_flexion": ("wrist", "hand", (0, 1, 0)),
    "internal_rotation": ("shoulder", "shoulder", (0, 0, -1)),
    "horizontal_adduction": ("shoulder", "shoulder", (0, 1, 0)),
    "abduction": ("shoulder", "shoulder", (-1, 0, 0)),
    "shoulder_proximal": ("shoulder", "shoulder", (0, 0, -1)),
    "shoulder_anterior": ("shoulder", "shoulder", (1, 0, 0)),
    "shoulder_superior": ("shoulder", "shoulder", (0, 1, 0)),
    "elbow_proximal": ("elbow", "forearm", (0, 0, -1)),
    "elbow_anterior": ("elbow", "forearm", (1, 0, 0)),
    "elbow_medial": ("elbow", "forearm", (0, -1, 0)),
    "ball_x": ("ball", "lab", (-1, 0, 0)),
    "ball_y": ("ball", "lab", (0, -1, 0)),
    "ball_z": ("ball", "lab", (0, 0, -1)),
}

CONVENTIONS = {
    "lab_frame": "right-handed; X toward the target, Y up, Z to the right as seen facing the target; the origin is the "
    "point between the hips at foot contact",
    "time": "time_s is 0 at release and negative before; phase is 0 at foot contact, 1 at release, 1.25 at the end",
    "hips": "the trunk turns about the point between the hips, which moves along X only (hips_x_m; its Y and Z are 0)",
    "rotations": "the frames of trunk, shoulder, upper arm, forearm and hand come from the lab frame by these "
    "rotations, in this order, each about an axis of the frame as already turned, by the angle "
    "sense * (coordinate - frames_coincide_at_rad); gives_frame names the frame reached after a rotation",
    "segments": "each segment lies along its frame's z axis, from its near joint in the direction along_z; mass centre "
    "on that line; principal moments of inertia about the mass centre, along the frame's x, y and z",
    "shoulder": "the shoulder centre is fixed in the trunk's frame",
    "ball": "a point mass, centre_beyond_wrist_m from the wrist along the hand; no moment passes from hand to ball",
    "ball_force": "the hand gives the ball ball_weight_factor * mass * (acceleration - gravity); the factor is 1 "
    "before phase 0.98, 1 - (3 u^2 - 2 u^3) with u = (phase - 0.98) / 0.02 until phase 1, and 0 after it",
    "torques_and_forces": "each is what the nearer segment exerts on the farther one at the joint centre (for the "
    "ball: what the hand exerts on the ball at its centre), resolved along 'direction' in the axes of 'frame'",
}


def segments_of(throw: Throw) -> dict[str, Any]:
    """Describe the arm of a throw.

    A left-hander is the mirror image of a right-hander at the plane through the hips: turning about X and Y changes its
    sense, segments lie along -z of their frames, and directions along z (forces) or x and y (moments) are reversed.

    Parameters
    ----------
    throw : Throw

    Returns
    -------
    dict
        Numbers in SI units, ready for JSON.
    """
    person, ball, arm = throw.person, throw.ball, arm_of(throw.person)
    side = -1 if person.handedness == "left" else 1
    loads = curves(throw)
    return {
        "made_by": f"levelpeak {VERSION}",
        "what": "the arm of one modelled throw, in SI units; the curves are in the table that goes with it",
        "conventions": CONVENTIONS,
        "gravity_m_s2": [0.0, -constants.g, 0.0],
        "throw": {
            "sex": person.sex,
            "age_years": person.age_years,
            "stature_m": person.stature_m,
            "body_mass_kg": person.body_mass_kg,
            "handedness": person.handedness,
            "release_speed_m_s": throw.speed_m_s,
            "clock_ratio": loads.clock,
            "foot_contact_s": loads.foot_contact_s,
            "max_external_rotation_s": loads.max_external_rotation_s,
        },
        "rotations": [
            {
                "coordinate": name,
                "axis": "xyz"[axis],
                "sense": sense if axis == Z else side * sense,
                "frames_coincide_at_rad": zero,
                "gives_frame": FRAME_AFTER.get(name),
            }
            for name, axis, sense, zero in ROTATIONS
        ],
        "shoulder_in_trunk_m": [arm.shoulder_x_m, arm.shoulder_y_m, side * arm.shoulder_z_m],
        "segments": {name: _segment(getattr(arm, name), side) for name in ("upper_arm", "forearm", "hand")},
        "ball": {
            "mass_kg": ball.mass_kg,
            "diameter_m": ball.diameter_m,
            "centre_beyond_wrist_m": arm.hand.length_m + beyond_the_hand_m(ball.diameter_m),
        },
        "torques_and_forces": {key: _channel(key, side) for key in CHANNELS},
    }


def _segment(segment: Segment, side: int) -> dict[str, Any]:
    return {
        "length_m": segment.length_m,
        "mass_kg": segment.mass_kg,
        "centre_from_near_joint_m": segment.centre_m,
        "inertia_about_centre_kg_m2": [segment.inertia_x_kg_m2, segment.inertia_y_kg_m2, segment.inertia_z_kg_m2],
        "along_z": side,
    }


def _channel(key: str, side: int) -> dict[str, Any]:
    joint, frame, direction = DIRECTIONS[key]
    channel = CHANNELS[key]
    moment = channel.unit == "N·m"
    if frame != "lab":
        mirror = (side, side, 1) if moment else (1, 1, side)
        direction = (direction[0] * mirror[0], direction[1] * mirror[1], direction[2] * mirror[2])
    return {
        "kind": "moment" if moment else "force",
        "at": joint,
        "frame": frame,
        "direction": list(direction),
        "unit": channel.unit,
        "in_words": f"positive: {channel.direction}; negative: {channel.negative_label}",
    }
