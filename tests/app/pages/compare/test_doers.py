"""What the buttons and choices do: what stands in the records after them, and where the focus goes."""

import json

import pytest

from app.bind.edit import Doing
from app.pages.compare import ids
from app.pages.compare.current import ASKED, current_of
from app.pages.compare.doers import DOERS, FULL
from app.records.acts import Edit, Hand

HAND = Hand("one")


@pytest.fixture
def do(open_page):
    """Do what a button does to W01's comparison; gives what was said of it, and the comparison then."""

    def done(name: str, row: str = "", value: object = 1):
        visit = open_page()
        doing: Doing = DOERS[name](visit, row, value)
        if doing.acts:
            acted = visit.store.act(visit.owner, list(doing.acts), HAND, visit.system)
            assert acted.done
        return doing, current_of(open_page())

    return done


def masses(current) -> list[float | None]:
    return [None if throw.mass_kg is None else round(1000 * throw.mass_kg) for throw in current.rows]


def test_adding_goes_to_the_mass_of_the_new_ball(do):
    doing, current = do(ids.ADD)
    assert masses(current) == [145, 275, 95, 470, None]
    focus = json.loads(doing.focus)
    assert (focus["path"], focus["row"], focus["units"]) == ("throw.mass_kg", current.rows[4].uid, "metric")


def test_a_ball_of_the_records_is_added_and_only_its_speed_is_left_to_type(do, current):
    ball = next(one for one in current.visit.data.balls.values() if one.mass_kg == pytest.approx(0.210))
    doing, made = do(ids.BALL, value=ball.uid)
    assert masses(made)[-1] == 210
    assert json.loads(doing.focus)["path"] == "throw.number"


@pytest.mark.parametrize("value", ["", "gone", 3, None])
def test_a_ball_that_is_not_there_changes_nothing(do, value):
    assert do(ids.BALL, value=value)[0] == Doing()


def test_a_full_list_says_so(do, current):
    for _ in range(4):
        do(ids.ADD)
    for name, row in ((ids.ADD, ""), (ids.MOVES["copy"], current.rows[0].uid)):
        doing, made = do(name, row)
        assert doing == Doing(said=FULL)
        assert len(made.rows) == 8


def test_a_copy_stands_right_behind_and_its_speed_gets_the_focus(do, current):
    doing, made = do(ids.MOVES["copy"], current.rows[1].uid)
    assert masses(made) == [145, 275, 275, 95, 470]
    assert made.rows[2].number == 28.5
    assert json.loads(doing.focus)["row"] == made.rows[2].uid


def test_removing_says_so_and_goes_to_the_next_throw(do, current):
    doing, made = do(ids.MOVES["remove"], current.rows[1].uid)
    assert doing.said == "Throw 2 removed."
    assert masses(made) == [145, 95, 470]
    assert json.loads(doing.focus)["row"] == current.rows[2].uid


def test_where_the_reference_is_removed_the_first_of_those_left_is_it(do, current):
    _, made = do(ids.MOVES["remove"], current.rows[0].uid)
    assert made.row.reference == current.rows[1].uid


def test_the_last_throw_can_go_and_the_next_one_is_the_reference(do, current):
    for throw in current.rows:
        doing, made = do(ids.MOVES["remove"], throw.uid)
    assert (made.rows, doing.focus) == ((), "")
    _, made = do(ids.ADD)
    assert made.row.reference == made.rows[0].uid


def test_moving_keeps_the_hand_on_a_button_that_still_works(do, current):
    uid = current.rows[2].uid
    doing, made = do(ids.MOVES["up"], uid)
    assert masses(made) == [145, 95, 275, 470]
    assert json.loads(doing.focus)["do"] == "compare/up"
    doing, made = do(ids.MOVES["up"], uid)
    assert masses(made) == [95, 145, 275, 470]
    assert json.loads(doing.focus)["do"] == "compare/down"
    assert do(ids.MOVES["up"], uid)[0] == Doing()


def test_a_throw_held_otherwise_keeps_its_speed_and_comes_back_to_it(do, current):
    uid = current.rows[1].uid
    doing, made = do(ids.HOLD, uid, "clock")
    assert made.rows[1].hold == "clock"
    assert made.compared().answers[1].throw.speed_m_s == pytest.approx(28.5, abs=0.003)  # written to 0.01 %
    assert json.loads(doing.focus) == {"type": "pick", "of": made.visit.owner, "do": "compare/hold", "row": uid}
    _, back = do(ids.HOLD, uid, "speed")
    assert back.rows[1].number == pytest.approx(28.5, abs=0.0085)
    _, profile = do(ids.HOLD, uid, "profile")
    assert profile.compared().answers[1].throw.speed_m_s == pytest.approx(28.5, abs=0.003)


def test_it_keeps_its_speed_where_the_reader_has_other_units(open_page, current):
    from dataclasses import replace

    from app.units.systems import CUSTOMARY

    visit = replace(open_page(), system=CUSTOMARY)
    for hold in ("clock", "speed"):
        visit.store.act(visit.owner, list(DOERS[ids.HOLD](visit, current.rows[1].uid, hold).acts), HAND, CUSTOMARY)
    assert current_of(open_page()).rows[1].number == pytest.approx(28.5, abs=0.0085)


@pytest.mark.parametrize("value", ["speed", "hand", None])
def test_a_hold_that_is_there_already_or_is_none_changes_nothing(do, current, value):
    assert do(ids.HOLD, current.rows[1].uid, value)[0] == Doing()


def test_another_athlete_throws_and_gives_the_throw_back(do, current):
    uid = current.rows[1].uid
    _, made = do(ids.THROWER, uid, "W05")
    assert made.other.athlete.code == "W05"
    assert made.compared().answers[1].name.startswith("W05 with 275 g")
    _, back = do(ids.THROWER, uid, "W01")
    assert back.other is None
    assert do(ids.THROWER, uid, "nobody")[0] == Doing()


def test_the_second_goes_with_their_throws_and_the_reference_passes_on(do, current):
    do(ids.THROWER, current.rows[0].uid, "W05")
    doing, made = do(ids.ALONE)
    assert masses(made) == [275, 95, 470]
    assert made.row.reference == current.rows[1].uid
    assert doing.said == "The throws of W05 were removed."


def test_a_ready_comparison_takes_the_place_of_the_list_and_one_step_brings_it_back(do, current, open_page):
    doing, made = do(ids.READY, value="neighbours")
    assert len(made.rows) == 3
    assert made.row.reference == current.rows[0].uid == made.rows[0].uid
    assert doing.said.startswith("One ball heavier, one lighter, each at full speed by the profile.")
    made.visit.store.step(made.visit.owner, HAND)
    assert [throw.uid for throw in current_of(open_page()).rows] == [throw.uid for throw in current.rows]


def test_a_ready_comparison_that_cannot_be_made_says_why(do):
    doing, made = do(ids.READY, value="throwers")
    assert not doing.acts
    assert doing.said == "Say first of one throw that another athlete throws it."
    assert len(made.rows) == 4


def test_a_new_comparison_is_gone_to_and_a_copy_is_called_so(do, current):
    doing, made = do(ids.NEW)
    assert doing.go.endswith(f"{ASKED}={made.row.uid}")
    assert masses(made) == [145, None]
    do(ids.REMOVE_ALL)
    doing, made = do(ids.COPY_ALL)
    assert made.row.name == "Copy of Last day of the block"
    assert masses(made) == masses(current)
    assert made.row.reference == made.rows[0].uid != current.rows[0].uid
    assert do(ids.OPEN, value=current.row.uid)[0].go.endswith(f"{ASKED}={current.row.uid}")


def test_the_only_comparison_is_removed_and_one_step_brings_it_back(do, current, open_page):
    _, made = do(ids.REMOVE_ALL)
    assert masses(made) == [145, None]
    made.visit.store.step(made.visit.owner, HAND)
    assert [one.uid for one in open_page().data.comparisons] == [current.row.uid]


def test_an_edit_of_a_row_that_is_gone_does_nothing(do, current):
    uid = current.rows[1].uid
    do(ids.MOVES["remove"], uid)
    for name in (*ids.MOVES.values(), ids.HOLD):
        assert do(name, uid, "clock")[0] == Doing()
    outcome = current.visit.store.act(current.visit.owner, Edit("throw.number", "30", uid), HAND)
    assert not outcome.done
