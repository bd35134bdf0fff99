"""The cautions beside every choice and plan."""

import pytest

from app.cautions import GROWING, caution_part, cautions, is_growing, path_note
from model.person import Person
from tests.app.claim.conftest import text_of

MAN, BOY = Person("male", 1.88, 90.0, 25.0), Person("male", 1.6, 48.0, 13.0)
WOMAN, GIRL = Person("female", 1.72, 68.0, 22.0), Person("female", 1.5, 40.0, 12.5)


@pytest.mark.parametrize(
    ("person", "said"),
    [
        (None, ""),
        (MAN, ""),
        (BOY, "The path comes from adult men; this thrower is 13 years old."),
        (WOMAN, "The path comes from adult men; this thrower is female."),
        (GIRL, "The path comes from adult men; this thrower is female and 12.5 years old."),
    ],
)
def test_all_but_adult_men_are_told_whose_path_it_is(person, said):
    assert path_note(person) == said


def test_a_thrower_who_is_still_growing_gets_the_caution_first():
    assert "24 % of throwers injured" in cautions(BOY)[0]  # Reinold 2018 (values.csv 8-pitch-limits-20)
    assert cautions(MAN) == cautions(BOY)[1:]
    assert cautions(Person("male", 1.8, 75.0, 18.0)) == cautions(MAN)


def test_the_part_holds_every_caution_and_names_the_source_of_the_one_about_growing():
    assert all(caution in text_of(caution_part(BOY)) for caution in (*cautions(BOY), *GROWING))
    assert GROWING[1] not in text_of(caution_part(MAN))
    assert (is_growing(None), is_growing(GIRL), is_growing(WOMAN)) == (False, True, False)
