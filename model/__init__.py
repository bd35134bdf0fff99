"""Levelpeak's model: from a person, a ball and a release speed to joint torque over time.

It computes and knows no screen: SI units, plain arrays, frozen dataclasses, no Dash, no pandas. Read it in the order of
a throw: person, ball, segments, motion, chain, dynamics, identity, throw, readouts.
"""
