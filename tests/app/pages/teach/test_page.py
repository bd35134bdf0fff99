"""The page as it is made from the records."""

from app.bind.visit import visit_of
from app.pages.teach import ids
from app.pages.teach.lessons import added
from app.pages.teach.page import UNREAD, layout
from app.records.acts import TEAM, Add, Hand
from app.web.server import Config, create_app
from tests.app.pages.teach.conftest import session


def part(page, part_id):
    return next(one for one in page._traverse() if getattr(one, "id", None) == part_id)


def test_it_shows_the_athlete_of_the_address_and_the_steps_of_the_session(visit):
    visit.store.act(TEAM, added(session("vote,throw"), "Tuesday"), Hand("one"))
    page = layout(visit_of("/teach", "?athlete=W02"))
    story = part(page, ids.TEACH_STORY).data
    assert [step["key"] for step in story["steps"]] == ["vote", "throw"]
    assert story["figure"]["side"] == -1  # W02 throws with the left hand
    assert part(page, ids.TEACH_EMPTY).hidden


def test_a_ball_of_the_team_is_offered(visit):
    visit.store.act(TEAM, Add("ball", {"mass_kg": "333", "diameter_m": "80"}), Hand("one"))
    assert "333 g, 80 mm" in str(layout(visit_of("/teach", "?athlete=W01")))


def test_a_session_that_cannot_be_read_is_told(visit):
    visit.store.act(TEAM, Add("lesson", {"name": "Tuesday"}, {"body": {"steps": 7}}), Hand("one"))
    page = layout(visit_of("/teach", "?athlete=W01"))
    assert part(page, ids.TEACH_SAID).children == UNREAD
    assert len(part(page, ids.TEACH_STORY).data["steps"]) == 11


def test_without_an_athlete_or_measures_it_says_what_to_do_and_shows_no_stage():
    app = create_app(Config(demo=False))
    with app.server.test_request_context():
        visit = visit_of("/teach", "")
        nobody = layout(visit)
        assert part(nobody, ids.TEACH_BODY).hidden
        assert "No athlete is chosen" in str(nobody)
        visit.store.new_athlete("A1", Hand("one"))
        bare = layout(visit_of("/teach", "?athlete=A1"))
    assert part(bare, ids.TEACH_STORY).data == {}
    assert "Missing or to be mended: sex" in str(bare)
    assert "Invented" not in str(bare)
