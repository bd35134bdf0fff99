"""What goes over to Build up: the throw that was pressed, as it was shown, with all it was found under."""

from datetime import date

import pytest

from app.pages.start.rounded import chosen
from app.pages.start.table import FIRST
from app.pages.start.to_plan import from_start
from app.show.from_start import from_json, to_json
from app.units.systems import METRIC
from model.ceilings import Amount, Ceilings, Reference
from tests.app.pages.start.conftest import NONE


def test_the_share_goes_over_as_it_is_shown_with_limits_certainty_and_reference(start):
    answer = start("W06", certainty_percent="95", **(NONE | {"elbow_peak": "40", "rise_rate": "30"}))
    over = from_start(answer, "275")
    listed = next(one for one in answer.found.listed if one.choice.range.ball.mass_kg == 0.275)
    assert over.share == pytest.approx(chosen(listed.choice, METRIC).percent / 100)
    assert over.share <= listed.choice.share
    assert (over.ball.mass_kg, over.code, over.certainty) == (0.275, "W06", 0.95)
    assert over.ceilings == Ceilings(elbow_peak=Amount(0.4), rise_rate=Amount(0.3))
    assert over.reference == Reference("before_injury", 35.1, date(2025, 9, 2))  # demo_data/athletes.csv
    assert over.dated == "from before an injury, 2025-09-02"
    assert from_json(to_json(over)) == over


def test_the_button_of_the_headline_takes_its_throw(start):
    assert from_start(start("W04", aim="longest_loaded"), FIRST).ball.mass_kg == 0.145
    assert from_start(start(aim="longest_loaded"), FIRST).ball.mass_kg == 0.470
    wanted = start(aim="nearest_peak", wanted_peak="50")
    assert from_start(wanted, FIRST).share < wanted.first.choice.range.most


@pytest.mark.parametrize("ball", [FIRST, "470", "146", None, 3, {"ball": "95"}])
def test_nothing_goes_over_where_there_is_no_such_throw(start, ball):
    # no aim, and with 1.4 of the reference's time at most 470 g fits at no speed
    assert from_start(start(most_loaded="140"), ball) is None
    assert from_start(start(elbow_peak="x"), ball) is None


@pytest.mark.parametrize("limits", [{"speed": "1.2"}, {"speed": "1.7"}])
def test_a_share_at_the_very_floor_is_one_that_build_up_takes(start, limits):
    answer = start("W04", **NONE, **limits)
    for one in answer.found.listed:
        over = from_start(answer, f"{1000 * one.choice.range.ball.mass_kg:g}")
        assert from_json(to_json(over)) == over
