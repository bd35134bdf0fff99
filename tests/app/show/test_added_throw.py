"""A throw found on another page goes to the end of the athlete's newest comparison."""

import pytest

from app.bind.visit import visit_of
from app.records.acts import Edit, Hand, Remove
from app.show.added_throw import thrown, to_compare
from app.show.from_records import case_of
from app.show.window import Spot
from app.units.systems import METRIC
from app.web.server import Config, create_app

SPOT = Spot(0.210, 30.5)


class Asked:
    """W01's records, read anew at each question."""

    @property
    def data(self):
        return visit_of("/map", "?athlete=W01").data

    @property
    def case(self):
        visit = visit_of("/map", "?athlete=W01")
        return case_of(visit.data, visit.today)

    def add(self, spot=SPOT, diameter_m=None):
        """What would be added."""
        return to_compare(self.data, spot, self.case, diameter_m)

    def act(self, *acts):
        visit = visit_of("/map", "?athlete=W01")
        return visit.store.act(visit.owner, list(acts), Hand("one"), METRIC)

    def throws(self):
        """Ball (kg, m) and number of the throws in the newest comparison."""
        data = self.data
        return [(one.mass_kg, one.diameter_m, one.number) for one in data.throws_of(data.comparisons[-1])]


@pytest.fixture
def asked():
    app = create_app(Config(demo=True))
    with app.server.test_request_context():
        yield Asked()


def test_it_goes_to_the_end_of_the_list_and_the_notice_says_which_it_is(asked):
    before = asked.throws()
    added = asked.add()
    asked.act(*added.acts)
    assert asked.throws() == [*before, (0.210, 0.073, 30.5)]  # the own ball's diameter
    assert added.notice == "Added to Compare: 210 g at 30.5 m/s, throw 5 of at most 8."


def test_it_takes_a_blank_line_but_never_the_references(asked):
    data = asked.data
    first, second, *_ = data.throws_of(data.comparisons[-1])
    assert data.comparisons[-1].reference == first.uid
    for row in (first, second):
        asked.act(*(Edit(f"throw.{name}", "", row.uid) for name in ("mass_kg", "number")))
    added = asked.add()
    assert added.notice.endswith("throw 2 of at most 8.")
    asked.act(*added.acts)
    assert asked.throws()[1] == (0.210, 0.073, 30.5)
    assert len(asked.throws()) == 4


def test_without_a_comparison_one_is_made_that_begins_with_the_reference_throw(asked):
    asked.act(Remove("comparison", asked.data.comparisons[-1].uid))
    added = asked.add()
    assert asked.act(*added.acts).done
    assert asked.throws() == [(0.145, 0.073, 33.0), (0.210, 0.073, 30.5)]  # demo_data/athletes.csv
    data = asked.data
    assert data.comparisons[-1].reference == data.throws[0].uid
    assert added.notice.endswith("throw 2 of at most 8.")


def test_without_a_reference_speed_the_throw_that_is_added_is_the_reference(asked):
    asked.act(Remove("comparison", asked.data.comparisons[-1].uid), Remove("reference", asked.data.references[-1].uid))
    added = asked.add()
    asked.act(*added.acts)
    data = asked.data
    assert asked.throws() == [(0.210, 0.073, 30.5)]
    assert data.comparisons[-1].reference == data.throws[0].uid
    assert added.notice.endswith("throw 1 of at most 8.")


def test_a_full_list_says_so_and_stays(asked):
    for number in range(4):
        asked.act(*asked.add(Spot(0.2 + number / 100, 25.0)).acts)
    assert asked.add().acts == ()
    assert asked.add().notice == "Not added: Compare is full, 8 throws. Remove one there to add another."


def test_a_throw_that_is_there_already_is_named_and_not_added_twice(asked):
    mass, diameter, speed = asked.throws()[1]
    there = asked.add(Spot(mass, speed))
    assert there.acts == ()
    assert there.notice == "275 g at 28.5 m/s is already in Compare: throw 2."
    assert asked.add(Spot(mass, speed), diameter + 0.01).acts


@pytest.mark.parametrize(("hold", "number"), [("clock", "90"), ("profile", "85")])
def test_a_throw_that_is_held_at_its_clock_or_on_the_profile_is_there_already_too(asked, hold, number):
    row = asked.data.throws_of(asked.data.comparisons[-1])[1]
    asked.act(Edit("throw.hold", hold, row.uid), Edit("throw.number", number, row.uid))
    (speed,) = (speed for place, _, speed in thrown(asked.data, asked.case) if place == 2)
    assert asked.add(Spot(row.mass_kg, speed)).notice.endswith("is already in Compare: throw 2.")


def test_another_athletes_throws_are_not_the_athletes_own(asked):
    uid = visit_of("/map", "?athlete=W02").owner
    row = asked.data.throws_of(asked.data.comparisons[-1])[1]
    asked.act(Edit("throw.thrower", uid, row.uid))
    assert [number for number, *_ in thrown(asked.data, asked.case)] == [1, 3, 4]


def test_what_was_typed_with_its_unit_stays_as_it_was_typed(asked):
    added = asked.add(Spot(0.19845, 31.2928, "7 oz", "70 mph"))
    asked.act(*added.acts)
    row = asked.data.throws[-1]
    assert row.typed == {"mass_kg": "7 oz", "number": "70 mph"}
    assert row.mass_kg == pytest.approx(7 * 0.028349523125)


@pytest.mark.parametrize("spot", [Spot(), Spot(0.2, None), Spot(None, 30.0)])
def test_half_a_throw_is_not_added(asked, spot):
    assert asked.add(spot).acts == ()
