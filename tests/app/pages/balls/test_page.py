"""The team's balls: order, archive and removal."""

import pytest

from app.bind import ids
from app.bind.visit import visit_of
from app.pages.balls import page
from app.records.acts import TEAM, Hand
from app.records.reads import team_data
from app.web.server import Config, create_app

HAND = Hand("one")


@pytest.fixture
def visit():
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield visit_of("/balls", "")


def do(visit, doer, row: str = ""):
    """Press a button; what came of it."""
    doing = doer(visit, row, 1)
    return visit.store.act(TEAM, list(doing.acts), HAND) if doing.acts else None


def names(visit, archived: bool = False) -> list[str]:
    return [ball.name for ball in team_data(visit.store, archived=archived).balls]


def uid_of(visit, name: str) -> str:
    return next(ball.uid for ball in page.all_balls(visit) if ball.name == name)


def test_a_ball_is_added_at_the_end_and_its_name_gets_the_focus(visit):
    count = len(names(visit))
    doing = page.add(visit, "", 1)
    acted = visit.store.act(TEAM, list(doing.acts), HAND)
    assert len(names(visit)) == count + 1
    assert acted.outcomes[0].row in doing.focus(acted)
    assert names(visit)[-1] == ""


def test_a_ball_goes_up_and_down_and_not_beyond_the_ends(visit):
    first, second = names(visit)[:2]
    do(visit, page.move_up, uid_of(visit, second))
    assert names(visit)[:2] == [second, first]
    do(visit, page.move_down, uid_of(visit, second))
    assert names(visit)[:2] == [first, second]
    assert do(visit, page.move_up, uid_of(visit, first)) is None


def test_an_archived_ball_is_offered_no_longer_and_comes_back(visit):
    (name, *_) = names(visit)
    do(visit, page.archive, uid_of(visit, name))
    assert name not in names(visit)
    assert name in names(visit, archived=True)
    do(visit, page.back, uid_of(visit, name))
    assert name in names(visit)


def test_a_ball_that_readings_use_is_not_removed_and_the_message_says_why(visit):
    used = {one.ball_id for one in visit.of_athlete("W01").readings}
    ball = next(one for one in page.all_balls(visit) if one.id in used)
    acted = do(visit, page.remove, ball.uid)
    assert not acted.done
    assert acted.outcomes[0].message
    assert ball.name in names(visit)


def test_a_ball_without_readings_is_removed_and_undo_brings_it_back(visit):
    acted = do(visit, page.add)
    uid = acted.outcomes[0].row
    do(visit, page.remove, uid)
    assert uid not in [ball.uid for ball in page.all_balls(visit)]
    visit.store.step(TEAM, HAND, back=True)
    assert uid in [ball.uid for ball in page.all_balls(visit)]


def test_the_page_shows_every_ball_with_the_steps_of_the_team(visit):
    made = page.layout(visit)
    buttons = [one for one in made._traverse() if getattr(one, "id", None) == ids.UNDO]
    assert [one.value for one in buttons] == [TEAM]
