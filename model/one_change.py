"""One thing changed at a time, at the same joint speeds: a heavier hand, a longer forearm, a faster clock.

Torque is linear in the hand's mass, quadratic in the forearm's length and, gravity aside, quadratic in the clock; each
curve here is worked out anew and rests on none of these laws.
"""

from dataclasses import replace

from model.ball import beyond_the_hand_m
from model.checks import Limit, check_number
from model.hold import held, same_clock
from model.identity import loads_on
from model.path_basis import reference_basis
from model.segments import Segment, arm_of
from model.throw import Curves, Throw, curves, curves_of

SHARE_LIMIT = Limit(0.2, 5.0, "times")


def with_hand(throw: Throw, share: float) -> Curves:
    """A throw with a hand of another mass: as long, shaped alike, at the same release speed and so the same clock.

    Parameters
    ----------
    share : float
        The hand's mass over the person's own; its inertia goes with it.

    Raises
    ------
    InputError
        If the share is outside `SHARE_LIMIT`.
    """
    share = check_number("share", share, SHARE_LIMIT)
    arm = arm_of(throw.person)
    hand = arm.hand
    inertia = (share * one for one in (hand.inertia_x_kg_m2, hand.inertia_y_kg_m2, hand.inertia_z_kg_m2))
    other = replace(arm, hand=Segment(hand.length_m, share * hand.mass_kg, hand.centre_m, *inertia))
    return curves_of(throw, loads_on(reference_basis(), other, beyond_the_hand_m(throw.ball.diameter_m)))


def with_forearm(throw: Throw, share: float) -> Curves:
    """A throw with a forearm of another length and the same mass, at the same clock: a longer one throws faster.

    Parameters
    ----------
    share : float
        The forearm's length over the person's own.

    Raises
    ------
    InputError
        If the length is not accepted of a person, or the speed that follows not of a throw.
    """
    length_m = share * arm_of(throw.person).forearm.length_m
    person = replace(throw.person, forearm_length_m=length_m)
    return curves(held(person, throw.ball, same_clock(throw)).throw)


def with_clock(throw: Throw, share: float) -> Curves:
    """A throw with every joint turning faster or slower: the same path in less or more time.

    Parameters
    ----------
    share : float
        The clock over the throw's own, and so the release speed over its.

    Raises
    ------
    InputError
        If the speed is not accepted of a throw.
    """
    return curves(replace(throw, speed_m_s=share * throw.speed_m_s))
