"""What is kept, as values: refused texts count as none, and are named."""

from app.bind.visit import visit_of
from app.records.acts import Edit, Hand
from app.show.kept import refused_settings, setting_of, to_mend, value_of
from tests.app.bind.conftest import app as app
from tests.app.bind.conftest import visit as visit

CERTAINTY = "start.certainty"


def after(visit, path, text, row=""):
    visit.store.act(visit.owner, Edit(path, text, row), Hand("one"))
    return visit_of("/start", "?athlete=W01").data


def test_a_setting_that_was_never_set_has_its_default_and_a_typed_one_its_value(visit):
    assert setting_of(visit.data, CERTAINTY) == 0.9
    assert setting_of(after(visit, CERTAINTY, "80"), CERTAINTY) == 0.8


def test_a_refused_text_stands_for_no_value_and_is_named(visit):
    data = after(visit, CERTAINTY, "a lot")
    assert setting_of(data, CERTAINTY) is None
    assert to_mend(refused_settings(data, [CERTAINTY, "start.aim"])) == "Missing or to be mended above: certainty."
    assert to_mend([]) == ""


def test_a_column_gives_its_value_unless_its_text_was_refused(visit):
    ball = visit.data.own_ball
    assert value_of(ball, "mass_kg") == 0.145
    assert value_of(None, "mass_kg") is None
    assert value_of(after(visit, "ball.mass_kg", "huge", ball.uid).own_ball, "mass_kg") is None
