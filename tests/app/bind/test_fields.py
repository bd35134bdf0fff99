"""What `bound` makes of a field where nothing was chosen, and of a choice that is all in sight."""

from app.bind import ids
from app.bind.edit import keep_edit
from app.bind.fields import bound, bound_radios
from app.bind.visit import visit_of
from app.records.acts import Edit, Hand


def again():
    return visit_of("/athlete", "?athlete=W01")


def test_a_choice_that_nobody_made_shows_what_counts_and_one_that_was_made_stands(visit):
    assert bound(visit, "map.of").value is None
    assert bound(visit, "map.of", usual="profile").value == "profile"
    visit.store.act(visit.owner, Edit("map.of", "reference"), Hand("one"))
    assert bound(again(), "map.of", usual="profile").value == "reference"


def test_a_choice_all_in_sight_is_a_field_like_any(visit):
    made = bound_radios(visit, "map.axis", "Mass axis", key="x", heard="Axis of mass")
    assert made.id == ids.field_id(visit.owner, "map.axis", "", "metric")
    assert (made.value, getattr(made, "data-key"), getattr(made, "aria-label")) == ("log", "x", "Axis of mass")
    assert [box.value for box in made.children.children] == ["log", "linear"]
    keep_edit(made.id, "linear", Hand("one"))
    assert bound_radios(again(), "map.axis", "Mass axis", key="x").value == "linear"


def test_a_refused_text_and_one_that_takes_its_place_are_told_to_the_page_though_no_value_changed(visit):
    part = ids.field_id(visit.owner, "map.mass_to_kg", "", "metric")
    assert keep_edit(part, "500", Hand("one")).acted.done
    refused = keep_edit(part, "many", Hand("one")).acted
    assert (refused.done, refused.noted) == (False, True)
    back = keep_edit(part, "500", Hand("one")).acted
    assert (back.done, back.noted) == (False, True)
    assert not keep_edit(part, "500", Hand("one")).acted.noted  # nothing stands otherwise than before


def test_a_limit_that_is_not_there_yet_is_made_by_its_key_a_speed_in_its_own_unit(visit):
    for key, text in (("speed", "30"), ("area", "90")):
        part = ids.field_id(visit.owner, "limits.amount", key, "metric")
        assert keep_edit(part, text, Hand("one")).error is None
    rows = again().data.limits
    assert (rows["speed"].counted, rows["speed"].amount) == ("absolute", 30.0)
    assert (rows["area"].counted, rows["area"].amount) == ("share", 0.9)
    part = ids.field_id(visit.owner, "limits.amount", "area", "metric")
    message = keep_edit(part, "lots", Hand("one")).error
    assert message.startswith("Elbow, area at most: “lots” given; accepted: 1 to 500 %")
