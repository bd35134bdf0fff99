"""From the fields on the page to the form, whatever they send."""

from hypothesis import given
from hypothesis import strategies as st

from app.show.read_form import read_form
from app.show.throw_form import ATHLETE_NAMES, CHOSEN_NAMES, OTHER, from_json, measure_name, to_json


def fields_of(form) -> tuple[list, list, dict]:
    """The fields as the page sends them."""
    measures = [({"type": "m", "name": name}, text) for name, text in form.athlete.items()]
    throws = [
        ({"type": "t", "throw": throw.key, "name": name}, getattr(throw, name))
        for throw in form.throws
        for name in ("ball_mass_g", "ball_diameter_mm", "hold", "speed_m_s")
    ]
    return (
        measures,
        throws,
        {name: getattr(form, name) for name in CHOSEN_NAMES},
    )


def test_the_fields_on_the_page_are_the_form(demo_page):
    assert read_form(*fields_of(demo_page)) == demo_page


def test_a_choice_that_is_none_is_empty(demo_page):
    measures, throws, chosen = fields_of(demo_page)
    assert read_form(measures, throws, chosen | {"headline": None}).headline == ""


def test_by_age_is_kept_as_nothing_and_the_mark_as_yes(demo_page):
    measures, throws, chosen = fields_of(demo_page)
    for shown, kept in (("age", ""), ("yes", "yes"), (None, "")):
        other = [({"type": "m", "name": "other_still_growing"}, shown)]
        fields = [(part, shown if part["name"] == "still_growing" else text) for part, text in measures]
        form = read_form(fields + other, throws, chosen)
        assert (form.athlete["still_growing"], form.other["still_growing"]) == (kept, kept)


values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=300),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.sampled_from(["name", "throw", "type", "x"]), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(values, values, st.dictionaries(st.sampled_from(["reference", "kind", "above", "?"]), values))
def test_whatever_is_sent_becomes_a_form_that_can_be_kept(measures, throws, chosen):
    form = read_form(measures, throws, chosen)
    assert from_json(to_json(form)) == form


def test_more_than_eight_throws_and_foreign_names_are_left_out():
    throws = [({"throw": f"t{i}", "name": "speed_m_s"}, "30") for i in range(1, 20)]
    throws += [({"throw": "t1", "name": "__class__"}, "x"), ({"throw": "<b>", "name": "speed_m_s"}, "x")]
    form = read_form([({"name": "password"}, "x")], throws, {})
    assert [throw.key for throw in form.throws] == [f"t{i}" for i in range(1, 9)]
    assert set(form.athlete) == set(ATHLETE_NAMES)


def test_the_second_thrower_has_fields_of_the_same_names_and_their_own_ids():
    form = read_form([({"name": measure_name(OTHER, "stature_cm")}, "186"), ({"name": "stature_cm"}, "183")], [], {})
    assert (form.athlete["stature_cm"], form.other["stature_cm"]) == ("183", "186")


def test_who_throws_is_the_second_thrower_or_the_first():
    said = [OTHER, "first", None, "x"]
    throws = [({"throw": f"t{i}", "name": "by"}, by) for i, by in enumerate(said, start=1)]
    assert [throw.by for throw in read_form([], throws, {}).throws] == [OTHER, "", "", ""]
