"""What an athlete's limits and settings say; untouched limits are those of the example."""

import pytest

from app.bind.visit import visit_of
from app.pages.start.form import ABSOLUTE, AIMS, COUNTED, EXAMPLE, LIMITS, StartForm, form_of, is_example, limit_row
from app.records.acts import Edit, Hand
from app.web.server import Config, create_app
from model.ceilings import BOUNDS
from model.start_list import AIMS as MODEL_AIMS


@pytest.fixture
def typed():
    """Type into W01's page, and read the form anew."""
    app = create_app(Config(demo=True))

    def type_in(*edits):
        visit = visit_of("/start", "?athlete=W01")
        visit.store.act(visit.owner, list(edits), Hand("one"), visit.system)
        return form_of(visit_of("/start", "?athlete=W01").data)

    with app.server.test_request_context():
        yield type_in


def test_the_page_begins_with_the_example(typed):
    assert typed() == EXAMPLE == StartForm()
    assert is_example(EXAMPLE)


def test_a_limit_that_is_typed_is_the_athletes_and_the_others_stay(typed):
    form = typed(Edit("limits.amount", "65", "elbow_peak"), Edit("limits.amount", "30", "speed"))
    assert (form.elbow_peak, form.elbow_peak_in, form.rise_rate) == ("65", "share", EXAMPLE.rise_rate)
    assert (form.speed, form.speed_in) == ("30", ABSOLUTE)  # a speed is in its own unit unless somebody says otherwise
    assert not is_example(form)


def test_an_emptied_limit_is_none_and_a_refused_text_stands(typed):
    form = typed(Edit("limits.amount", "", "braking"), Edit("limits.amount", "a lot", "area"))
    assert (form.braking, form.area) == ("", "a lot")


def test_everything_else_is_read_too(typed):
    form = typed(
        Edit("start.base", "reference"),
        Edit("start.certainty", "95"),
        Edit("start.aim", "own"),
        Edit("start.wanted_peak", "60"),
        Edit("start.left_out", "95 470"),
        Edit("start.axis", "speed"),
    )
    assert (form.base, form.certainty_percent, form.aim, form.wanted_peak) == ("reference", "95", "own", "60")
    assert (form.left_out, form.axis) == ("95 470", "speed")


def test_the_wanted_peak_of_the_example_is_a_share_and_means_nothing_in_newton_metres(typed):
    assert typed().wanted_peak == EXAMPLE.wanted_peak
    assert typed(Edit("start.wanted_peak_counted", ABSOLUTE)).wanted_peak == ""


def test_the_doubt_is_that_of_the_reference(typed):
    known = visit_of("/start", "?athlete=W01").data.reference
    assert typed(Edit("reference.relative_sd", "4", known.uid)).doubt_percent == "4"


def test_a_limit_nobody_touched_has_a_row_that_stands_for_it():
    with create_app(Config(demo=True)).server.test_request_context():
        data = visit_of("/start", "?athlete=W01").data
    assert (limit_row(data, "elbow_peak").uid, limit_row(data, "elbow_peak").amount) == ("elbow_peak", 0.8)
    assert limit_row(data, "speed").amount is None


def test_the_limits_are_those_of_the_model_in_its_order():
    assert tuple(BOUNDS) == LIMITS
    assert (*BOUNDS, "wanted_peak") == COUNTED


def test_no_aim_is_chosen_to_begin_with_and_each_of_the_model_has_its_words():
    assert EXAMPLE.aim == ""
    assert tuple(AIMS) == MODEL_AIMS
    assert (EXAMPLE.area, LIMITS.index("area")) == ("", LIMITS.index("rise_rate") + 1)
