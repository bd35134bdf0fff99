"""The first look at Compare makes a comparison; whoever undoes then takes back what was typed, not that."""

from app.bind.visit import visit_of
from app.pages.compare.page import layout
from app.records.acts import Edit, Hand
from app.web.server import Config, create_app


def test_the_comparison_that_is_made_by_looking_is_no_step_of_undo():
    app = create_app(Config(demo=False))
    with app.server.test_request_context():
        store = app.server.config["LEVELPEAK"].store
        uid = store.new_athlete("K4", Hand("one"))
        store.act(uid, Edit("athlete.sex", "female"), Hand("one"))
        layout(visit_of("/compare", "?athlete=K4"))
        found = visit_of("/compare", "?athlete=K4").data
        assert len(found.comparisons) == 1
        store.step(uid, Hand("one"))
        after = visit_of("/compare", "?athlete=K4").data
        assert after.athlete.sex is None
        assert len(after.comparisons) == 1
