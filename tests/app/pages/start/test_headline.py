"""The answer in a sentence: no ball before an aim, which stands first and why, and what closes a ball, in numbers."""

import re

import pytest

from app.pages.start.headline import allowed_words, closed_words, sentence, shape_of
from app.pages.start.limits import AIMS
from app.units.systems import CUSTOMARY
from tests.app.pages.start.conftest import NONE

A_BALL = re.compile(r"[0-9] (g|oz)\b")


@pytest.mark.parametrize("code", ["W01", "W04", "W06"])
@pytest.mark.parametrize("changes", [{}, NONE, NONE | {"area": "20"}, NONE | {"speed": "1.2"}])
def test_no_ball_is_named_before_it_is_said_what_matters_most(start, code, changes):
    said = " ".join(sentence(start(code, **changes)))
    assert said.strip()
    assert not A_BALL.search(said)


def test_without_an_aim_it_says_how_many_balls_fit_and_how_sure_and_what_to_choose(start):
    assert sentence(start()) == (
        "8 of 8 balls keep every limit",
        ", each limit with 90 % certainty. Choose what matters most, and the balls are put in that order.",
    )
    assert sentence(start(**NONE))[0] == "No limit is set"
    assert sentence(start(**NONE, speed="1.2"))[0] == "1 of 8 balls keeps every limit"
    alone = start(left_out="95 125 145 160 210 275 360 470")
    assert sentence(alone)[0] == "The one ball ticked keeps every limit"
    assert sentence(start(elbow_peak="x")) == ("", "")


def test_with_an_aim_the_first_ball_is_named_with_share_and_speed_as_caps(start):
    first, rest = sentence(start(aim="longest_loaded"))
    assert first == "470 g at up to 96.7 % of full speed with it, 23.0 m/s"
    assert rest.startswith(": first for “longest time loaded under the limits”. 8 of 8 balls keep every limit")
    assert " at up to " not in sentence(start(aim="nearest_peak"))[0]


def test_it_is_in_the_readers_units(start):
    first, _ = sentence(start(system=CUSTOMARY, aim="longest_loaded"))
    # 23.0 m/s to 23.1 m/s is 51.4 to 51.7 mph (1 mph = 0.44704 m/s); 470 g is 16.58 oz (1 oz = 28.3495 g)
    assert first.startswith("16.58 oz at up to 96.7 % of full speed with it, 51.")
    assert first.endswith(" mph")


@pytest.mark.parametrize("aim", AIMS)
@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ({"code": "W04"}, "because this thrower is still growing."),
        (
            {"code": "W06"},
            "because the reference is from before an injury and no speed with another ball was ever measured.",
        ),
        ({"read": False}, "because no speed with another ball was ever measured."),
    ],
)
def test_where_care_is_due_the_own_ball_is_named_and_why_and_that_the_order_follows(start, asked, why, aim):
    first, rest = sentence(start(**asked, aim=aim))
    assert first.startswith("145 g, the own ball, at ")
    assert why in rest
    assert f"The order for “{AIMS[aim]}” follows below." in rest
    assert not A_BALL.search(rest)


def test_where_the_own_ball_should_stand_first_and_fits_at_no_speed_that_is_said_first_by_limit_and_number(start):
    first, rest = sentence(start("W04", aim="longest_loaded", **NONE, speed="1.2"))
    assert first == "145 g, the own ball, fits at no speed"
    # 1.2 m/s of 24.6 m/s and a little more: 4.8 %
    assert rest.startswith(": release speed at most 1.2 m/s allows up to 4.8 % of full speed, 1.1 m/s; nothing is")
    assert "nothing is computed below 5 %, which is this program’s own floor and no limit of yours" in rest
    assert "3 of 8 balls keep every limit" in rest


def test_nothing_fits_names_the_limit_and_what_it_allows_by_itself_and_proposes_no_looser_one(start):
    answer = start(**NONE, area="20")
    assert sentence(answer)[0] == "Nothing fits"
    (said,) = closed_words(answer)
    assert said == "All 8 balls fit at no speed: area at most 20 % allows no speed from 1.0 m/s up."
    both = " ".join(closed_words(start(**(NONE | {"elbow_peak": "2"}), area="20")))
    assert "elbow peak at most 2 % allows no speed" in both
    assert "area at most 20 % allows no speed" in both
    told = " ".join([*sentence(answer), said, both])
    assert not re.search(r"instead|would|relax|loosen|raise", told)


def test_the_programs_own_floor_is_named_as_the_cause(start):
    (said,) = closed_words(start(**NONE, speed="1.2", left_out="95 125 160 210 275 360 470"))
    # 1.2 m/s over W01's full speed of 33.0 m/s, a little more at 90 % certainty: 3.6 % at most
    assert said == (
        "145 g fits at no speed: release speed at most 1.2 m/s allows up to 3.6 % of full speed, 1.1 m/s; nothing is "
        "computed below 5 %, which is this program’s own floor and no limit of yours."
    )


def test_limits_that_close_a_ball_only_together_are_named_with_what_each_allows(start):
    limits = NONE | {"elbow_peak": "60", "most_loaded": "110"}
    said = closed_words(start(**limits, left_out="95 125 160 210 360 470"))
    by_ball = {line.split(" ")[0]: line for line in said}
    assert by_ball["145"].startswith(
        "145 g fits at no speed: no speed keeps these together: elbow peak at most 60 % (up"
    )
    assert "time loaded at most 110 % (only from " in by_ball["145"]
    # the heavy ball is loaded too long even at full speed: there the other limit is not blamed
    assert "elbow" not in by_ball["275"]
    assert re.search(
        r"time loaded at most 110 % allows only from 1[0-9.]+ % of full speed on, [0-9.]+ m/s", by_ball["275"]
    )


def test_balls_that_one_limit_closes_alike_are_named_together_from_the_least_to_the_most_it_allows(start):
    (said,) = closed_words(start(**NONE, speed="1.2"))
    assert said.startswith("95 g, 125 g, 145 g, 160 g, 210 g, 275 g and 360 g fit at no speed:")
    assert re.search(r"allows up to 3\.[0-9] to 4\.[0-9] % of full speed, 1\.1 m/s", said)


def test_what_a_limit_allows_is_told_with_both_ends_where_it_has_two(start):
    answer = start(**NONE, area="90")
    own = answer.own_range
    assert shape_of(own, "area") == "both"
    share, speed = allowed_words(answer, [own], "area")
    low, high = own.alone["area"]
    # the lower end is rounded up and the upper one down, so that both are inside
    numbers = [float(number) for number in re.findall(r"[0-9.]+", share)]
    assert 100 * low <= numbers[0] < 100 * low + 0.1
    assert 100 * high - 0.1 < numbers[1] <= 100 * high
    assert speed.endswith(" m/s")
    free = start(**NONE, speed="50")
    assert allowed_words(free, [free.own_range], "speed") == ("every speed up to full speed", "")
