"""Many throws at once are read as one by one."""

from dataclasses import fields, replace

import numpy as np
import pytest

from model import batch
from model.ball import Ball
from model.batch import read_throws
from model.channels import READINGS
from model.checks import InputError
from model.person import Person
from model.readouts import Readouts, read_curves
from model.throw import Throw, curves

MAN = Person("male", 1.88, 90.0, 25.0)
THROWS = [
    Throw(MAN, Ball(0.145), 37.0),
    Throw(Person("female", 1.70, 65.0, 22.0), Ball(0.188, 0.097), 26.0),
    Throw(MAN, Ball(0.470), 24.0),
    Throw(Person("male", 1.88, 90.0, 25.0, handedness="left"), Ball(0.145), 37.0),
    Throw(Person("male", 1.45, 38.0, 11.0), Ball(0.145), 18.0),
    Throw(MAN, Ball(0.145, 0.090), 37.0),
    Throw(Person("male", 1.88, 90.0, 25.0, forearm_length_m=0.30), Ball(0.145), 37.0),
]


@pytest.fixture(params=[256, 2, 1], ids=["all together", "two by two", "one by one"])
def parts(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(batch, "ROWS_AT_ONCE", request.param)


@pytest.mark.usefixtures("parts")
def test_every_readout_of_many_throws_is_that_of_each_throw_alone() -> None:
    together = read_throws(THROWS, list(READINGS), share=0.2, above_nm=25.0)
    for i, throw in enumerate(THROWS):
        alone = curves(throw)
        for key, reading in READINGS.items():
            expected = read_curves(alone, key, share=0.2, above=25.0 if reading.unit == "N·m" else None)
            for field in fields(Readouts):
                found = getattr(together[key], field.name)[i]
                # rounding: the identity's four terms are summed in another order
                assert found == pytest.approx(getattr(expected, field.name), rel=1e-10, abs=1e-10, nan_ok=True), (
                    i,
                    key,
                    field.name,
                )


def test_a_left_hander_reads_as_a_right_hander() -> None:
    readouts = read_throws(THROWS, ["varus"])["varus"]
    assert readouts.peak[0] == readouts.peak[3]


def test_one_who_is_marked_as_still_growing_reads_as_without_the_mark() -> None:
    throws = [replace(THROWS[0], person=replace(THROWS[0].person, still_growing=mark)) for mark in (False, True)]
    peaks = read_throws(throws, ["varus"])["varus"].peak
    assert peaks[0] == peaks[1]


def test_progress_is_told_up_to_the_last_throw() -> None:
    told: list[int] = []
    read_throws(THROWS, ["varus"], progress=told.append)
    assert told == sorted(told)
    assert told[-1] == len(THROWS)


def test_no_throws_give_no_numbers() -> None:
    assert read_throws([], ["varus"])["varus"].peak.shape == (0,)


def test_without_a_level_time_above_is_no_number() -> None:
    assert np.isnan(read_throws(THROWS, ["varus"])["varus"].above_s).all()


def test_an_unknown_quantity_is_refused() -> None:
    with pytest.raises(InputError, match="key: 'valgus' given"):
        read_throws(THROWS, ["valgus"])


def test_a_share_that_is_none_is_refused() -> None:
    with pytest.raises(InputError, match="share"):
        read_throws(THROWS, ["varus"], share=1.5)
