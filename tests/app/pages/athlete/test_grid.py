"""The grid as the browser gets it: a field for every reading, holding what was typed as it was typed."""

import re

from app.pages.athlete.grid import details, rows, values
from app.show.markup import to_html
from app.show.profile_form import MOST_READINGS, BallRow, Cell, ProfileForm

FORM = ProfileForm((BallRow("b1", "145", "73", (Cell('33"<b>', "2026-01-13", "75"), Cell(), Cell("32,9"))),))


def test_every_cell_says_its_place_and_holds_its_text_harmlessly():
    made = to_html(rows(FORM))
    assert made.count("/speed") == MOST_READINGS
    assert 'data-at="b1/0/speed" aria-label="" placeholder=" " value="33&quot;&lt;b&gt;"' in made
    assert 'data-at="b1/2/speed" aria-label="" placeholder=" " value="32,9"' in made
    assert "<b>" not in made


def test_day_and_effort_belong_to_readings_only():
    made = to_html(details(FORM))
    assert re.findall(r'data-at="(b1/\d/(?:date|effort))"', made) == [
        "b1/0/date",
        "b1/0/effort",
        "b1/2/date",
        "b1/2/effort",
    ]
    assert 'data-at="b1/diameter_mm"' in made
    assert details(ProfileForm()) == []


def test_the_values_are_those_of_the_readings():
    assert values(FORM) == {
        "b1/mass_g": "145",
        "b1/diameter_mm": "73",
        "b1/0/speed": '33"<b>',
        "b1/0/date": "2026-01-13",
        "b1/0/effort": "75",
        "b1/2/speed": "32,9",
        "b1/2/date": "",
        "b1/2/effort": "",
    }
