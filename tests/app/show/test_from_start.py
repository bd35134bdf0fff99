"""What goes over from Start to Build up comes back as it went, and nothing else is taken."""

from dataclasses import replace
from datetime import date

import pytest

from app.show.from_start import FromStart, from_json, to_json
from app.show.throw_form import FormError
from model.ball import Ball
from model.ceilings import Amount, Ceilings, Reference

GIVEN = FromStart(
    "compare",
    "A7",
    Ball(0.145),
    0.508,
    Ceilings(elbow_peak=Amount(0.4), rise_rate=Amount(300.0, absolute=True)),
    0.95,
    Reference("before_injury", 38.0, date(2026, 2, 1)),
    "from before an injury, 2026-02-01",
)


def test_it_comes_back_as_it_went():
    assert from_json(to_json(GIVEN)) == GIVEN
    measured = replace(GIVEN, reference=Reference(), ceilings=Ceilings())
    assert from_json(to_json(measured)) == measured


@pytest.mark.parametrize(
    "changed",
    [
        {"version": 2},
        {"share": 1.2},
        {"share": True},
        {"certainty": 1.0},
        {"ball": {"mass_kg": -1.0, "diameter_m": 0.073}},
        {"limits": {"elbow_peak": {"value": 0.0, "absolute": False}}},
        {"reference": {"kind": "guess", "speed_m_s": None, "measured_on": None, "relative_sd": None}},
        {"dated": "x" * 1000},
        {"who": None},
    ],
)
def test_anything_else_is_refused(changed):
    with pytest.raises(FormError):
        from_json(to_json(GIVEN) | changed)
    with pytest.raises(FormError):
        from_json("text")
