"""The cautions beside every choice and plan."""

from dataclasses import replace

import pytest

from app.show.cautions import GROWING, UNMEASURED, caution_part, cautioned, cautions, is_growing, path_note
from model.person import Person
from tests.app.pages.claim.conftest import text_of

MAN, BOY = Person("male", 1.88, 90.0, 25.0), Person("male", 1.6, 48.0, 13.0)
ADULT_MARKED, OF_18 = replace(MAN, still_growing=True), Person("male", 1.8, 75.0, 18.0)
WOMAN, GIRL = Person("female", 1.72, 68.0, 22.0), Person("female", 1.5, 40.0, 12.5)


@pytest.mark.parametrize(
    ("person", "said"),
    [
        (None, ""),
        (MAN, ""),
        (BOY, "The path comes from adult men; this thrower is 13 years old."),
        (WOMAN, "The path comes from adult men; this thrower is female."),
        (ADULT_MARKED, "The path comes from adult men; this thrower is still growing."),
        (GIRL, "The path comes from adult men; this thrower is female and 12.5 years old."),
    ],
)
def test_all_but_adult_men_are_told_whose_path_it_is(person, said):
    assert path_note(person) == said


@pytest.mark.parametrize(
    ("person", "growing"),
    [(None, True), (GIRL, True), (BOY, True), (WOMAN, False), (MAN, False), (ADULT_MARKED, True), (OF_18, False)],
)
def test_the_young_the_marked_and_the_unmeasured_count_as_still_growing(person, growing):
    assert is_growing(person) is growing


def test_a_thrower_who_is_still_growing_gets_the_caution_first():
    # Reinold 2018 (values.csv 8-pitch-limits-20): 24 % of the weighted-ball arm, 4 elbow injuries, 2 of them training
    assert "24 % of the group with weighted balls were injured: four elbow injuries, two of them" in cautions(BOY)[0]
    assert "a published editorial calls for an end" in cautions(BOY)[0]  # Anz 2023 (values.csv 8-pitch-limits-23)
    assert cautions(MAN) == cautions(BOY)[1:]
    assert cautions(OF_18) == cautions(MAN)
    assert cautions(ADULT_MARKED) == cautions(BOY)


def test_without_all_measures_it_is_said_why_the_caution_for_the_growing_stands_there():
    assert cautions(None) == [UNMEASURED, *cautions(BOY)]
    assert UNMEASURED not in cautions(BOY)


def test_the_part_holds_every_caution_and_names_the_source_of_the_one_about_growing():
    for person in (BOY, None):
        assert all(caution in text_of(caution_part(person)) for caution in (*cautions(person), *GROWING))
    assert GROWING[1] not in text_of(caution_part(MAN))


def test_of_several_throwers_the_cautions_are_for_one_who_is_still_growing():
    assert cautioned([MAN, ADULT_MARKED]) is ADULT_MARKED
    assert cautioned([BOY, MAN]) is BOY
    assert cautioned([MAN, WOMAN]) is MAN
    assert cautioned([MAN, None]) is None
    assert cautioned([]) is None


def test_how_it_is_known_is_not_made_more_than_it_is():
    # the editorial was seen as a title in a reference list; the trial's 24 % is of one of its two groups
    said = " ".join(GROWING)
    assert "known by its title" in said
    assert "opinion" not in said
