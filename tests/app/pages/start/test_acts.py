"""What the page's buttons and switches do to the records."""

import pytest

from app.bind.visit import Visit, visit_of
from app.pages.start import acts
from app.pages.start.limits import ABSOLUTE, SHARE, asked_of
from app.pages.start.rounded import chosen
from app.pages.start.table import FIRST
from app.records.acts import Edit, Hand
from app.units.systems import CUSTOMARY, METRIC
from app.web.server import Config, create_app
from tests.app.pages.start.conftest import NONE


@pytest.fixture
def app():
    made = create_app(Config(demo=True))
    with made.server.test_request_context():
        yield made


@pytest.fixture
def at(app):
    """Visit the page anew."""

    def visit(code="W01", system=METRIC) -> Visit:
        made = visit_of("/start", f"?athlete={code}")
        return Visit(made.store, made.path, {}, made.code, "one", made.today, system)

    return visit


@pytest.fixture
def typed(at):
    """Type limits and choose an aim; limits that are emptied too."""

    def type_in(code="W01", aim="", **limits):
        visit = at(code)
        edits = [Edit("limits.amount", text, name) for name, text in limits.items()]
        edits += [Edit("start.aim", aim)] if aim else []
        visit.store.act(visit.owner, edits, Hand("one"), METRIC)

    return type_in


@pytest.fixture
def done(at):
    """Do what a button does, as the browser has it done; what is said and where it leads."""

    def do(doer, row="", value=1, code="W01", system=METRIC):
        visit = at(code, system)
        doing = doer(visit, row, value)
        if doing.acts:
            visit.store.act(visit.owner, list(doing.acts), Hand("one"), system)
        return doing

    return do


def test_the_throw_of_the_headline_goes_to_compare_as_a_cap_once(done, typed, at):
    typed(aim="longest_loaded")
    assert done(acts.add).said.startswith("Added to Compare: 470 g at 23.0 m/s")
    throw = at().data.throws[-1]
    assert (throw.mass_kg, throw.number) == (0.47, 23.0)  # rounded down, as the sentence has it
    again = done(acts.add)
    assert again.acts == ()
    assert "already in Compare" in again.said


def test_that_no_ball_stands_first_is_told(done, typed):
    assert done(acts.add).said == "Nothing added: no ball stands first."
    typed(aim="own", elbow_peak="x")
    assert done(acts.add).said == "Nothing added: no ball stands first."


def test_a_throw_goes_over_to_build_up_as_it_is_shown_with_its_limits(done, typed, at):
    typed("W06", **(NONE | {"elbow_peak": "40", "rise_rate": "30"}))
    doing = done(acts.plan, "275", code="W06")
    assert doing.go == "/build-up?athlete=W06"
    given = at("W06").data.settings
    assert given["plan.given_mass_kg"] == 0.275
    assert given["plan.given_diameter_m"] == 0.073
    assert given["plan.given_on"] == at().today
    answer = acts.start_of(at("W06").data, at().today)
    listed = next(one for one in answer.found.listed if one.choice.range.ball.mass_kg == 0.275)
    assert given["plan.given_speed_m_s"] == pytest.approx(chosen(listed.choice, METRIC).speed_m_s)


def test_limits_of_the_example_that_a_throw_was_found_under_are_kept_with_it(done, at):
    done(acts.plan, "275")
    assert {name: row.amount for name, row in at().data.limits.items()} == {
        "elbow_peak": 0.8,
        "shoulder_peak": 0.8,
        "rise_rate": 0.7,
        "braking": 0.8,
    }
    assert asked_of(at().data).is_example


def test_the_button_of_the_headline_takes_its_throw(done, typed, at):
    typed(aim="longest_loaded")
    done(acts.plan, FIRST)
    assert at().data.settings["plan.given_mass_kg"] == 0.47


@pytest.mark.parametrize("ball", [FIRST, "470", "146", "", "x"])
def test_nothing_goes_over_where_there_is_no_such_throw(done, typed, at, ball):
    typed(most_loaded="140")  # with 1.4 of the reference's time at most 470 g fits at no speed, and there is no aim
    doing = done(acts.plan, ball)
    assert (doing.go, doing.acts) == ("", ())
    assert at().data.settings["plan.given_mass_kg"] is None


def test_a_limit_counted_another_way_is_the_same_limit(done, at):
    done(acts.count, "elbow_peak", ABSOLUTE)
    row = at().data.limits["elbow_peak"]
    assert row.counted == ABSOLUTE
    assert row.amount == pytest.approx(0.8 * 61.5, abs=0.2)  # the reference peaks at 61.5 N·m, see the map's page
    done(acts.count, "elbow_peak", SHARE)
    assert at().data.limits["elbow_peak"].amount == pytest.approx(0.8, abs=0.002)


def test_a_speed_counted_another_way_is_the_same_for_who_reads_miles_per_hour(done, typed, at):
    typed(speed="30")
    done(acts.count, "speed", SHARE, system=CUSTOMARY)
    assert at().data.limits["speed"].amount == pytest.approx(30 / 33, abs=0.002)
    done(acts.count, "speed", ABSOLUTE, system=CUSTOMARY)
    assert at().data.limits["speed"].amount == pytest.approx(30, abs=0.1)


def test_the_wanted_peak_is_counted_another_way_too(done, typed, at):
    typed(aim="nearest_peak")
    done(acts.count, "wanted_peak", ABSOLUTE)
    settings = at().data.settings
    assert settings["start.wanted_peak_counted"] == ABSOLUTE
    assert settings["start.wanted_peak"] == pytest.approx(0.75 * 61.5, abs=0.2)


@pytest.mark.parametrize(("name", "way"), [("elbow_peak", "kg"), ("elbow_peak", None), ("other", ABSOLUTE)])
def test_what_is_no_way_of_counting_changes_nothing(done, name, way):
    assert done(acts.count, name, way).acts == ()


def test_all_limits_are_emptied_and_the_example_comes_back(done, typed, at):
    typed(area="90")
    done(acts.count, "elbow_peak", ABSOLUTE)
    done(acts.clear)
    assert asked_of(at().data).limits == {}
    counted = {name: row.counted for name, row in at().data.limits.items()}
    assert (counted["elbow_peak"], counted["speed"]) == (ABSOLUTE, ABSOLUTE)  # how they are counted stays
    done(acts.example)
    assert asked_of(at().data).is_example
