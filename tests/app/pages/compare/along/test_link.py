"""Links: what is put in comes out again, what is not meant to go along does not, and whatever comes in does no harm."""

import base64
import json
import random
import zlib
from dataclasses import replace
from string import ascii_letters

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pages.compare.along.link import (
    CHOSEN,
    KNOWN,
    LONGEST,
    MEASURES,
    PLACES,
    LinkError,
    Shared,
    shared_in,
    shared_of,
    text_of,
)
from app.pages.compare.along.opening import offer_of
from app.pages.compare.current import current_of
from app.records.acts import Edit, Hand, Put
from app.show.listed_throw import HOLDS, OTHER

HAND = Hand("one")
TEXTS = [name for name in CHOSEN if name not in PLACES]
COLUMNS = ("mass_kg", "diameter_m", "hold", "number")


def packed(data: object) -> str:
    """The text of a link, made here from its description."""
    deflate = zlib.compressobj(wbits=-15)
    raw = deflate.compress(json.dumps(data).encode()) + deflate.flush()
    return "1." + base64.urlsafe_b64encode(raw).decode().rstrip("=")


def unpacked(text: str) -> str:
    """The JSON in the text of a link, taken out here from its description."""
    body = text.removeprefix("1.")
    return zlib.decompress(base64.urlsafe_b64decode(body + "=" * (-len(body) % 4)), -15).decode()


typed = st.text(max_size=12)
throws = st.lists(
    st.fixed_dictionaries(
        {"mass_kg": typed, "diameter_m": typed, "hold": st.sampled_from(list(HOLDS)), "number": typed}
        | {"thrower": st.sampled_from(["", OTHER])}
    ),
    max_size=8,
).map(tuple)
people = st.lists(st.fixed_dictionaries(dict.fromkeys(MEASURES, typed)), max_size=2).map(tuple)


@st.composite
def comparisons(draw):
    lines = draw(throws)
    asked = {name: draw(st.sampled_from(list(KNOWN[name])) if name in KNOWN else typed) for name in TEXTS}
    places = {name: draw(st.integers(-1, len(lines) - 1)) for name in PLACES}
    return Shared(asked, lines, **places, people=draw(people))


@given(comparisons())
def test_a_link_brings_back_what_was_put_in(shared):
    assert shared_in(text_of(shared)) == shared


def test_what_goes_along_are_the_throws_and_choices_as_they_were_typed(current, open_page):
    visit, second = current.visit, current.rows[1].uid
    visit.store.act(visit.owner, [Edit("throw.mass_kg", "10 oz", second), Edit("throw.number", "28,50", second)], HAND)
    visit.store.act(visit.owner, Edit("comparison.kind", "before_injury", current.row.uid), HAND)
    shared = shared_of(current_of(open_page()), with_measures=False)
    assert [tuple(one[name] for name in COLUMNS) for one in shared.throws[:2]] == [
        ("145", "73", "speed", "33"),
        ("10 oz", "73", "speed", "28,50"),
    ]
    assert (shared.reference, shared.headline, shared.people) == (0, -1, ())
    assert shared.asked == {
        "kind": "before", "day": "2026-01-13", "quantity": "varus", "above": "", "align": "release", "scale": "plain",
    }  # fmt: skip


def test_no_measure_code_or_age_goes_along_unless_that_is_asked_for(current):
    bare, whole = (json.loads(unpacked(text_of(shared_of(current, asked)))) for asked in (False, True))
    assert len(bare) == 2
    (measures,) = whole[2:]
    assert whole == [*bare, measures]
    assert [measures[0], measures[1], measures[2], measures[4], measures[5]] == ["W01", "male", "right", "183", "84"]
    cells = [*bare[0], *(cell for line in bare[1] for cell in line)]
    assert not set(measures[:6]) & set(cells)


def test_the_measures_of_a_second_thrower_go_along_too_and_a_mark_with_them(current, open_page):
    visit = current.visit
    other = visit.store.find("W05")
    visit.store.act(visit.owner, Edit("throw.thrower", other.uid, current.rows[1].uid), HAND)
    visit.store.act(other.uid, Edit("athlete.still_growing", "yes"), HAND)
    first, second = shared_of(current_of(open_page()), with_measures=True).people
    assert (first["athlete.code"], first["athlete.still_growing"]) == ("W01", "")
    assert (second["athlete.code"], second["athlete.still_growing"]) == ("W05", "yes")


def test_what_is_known_of_somebody_whose_measures_are_not_whole_goes_along(current, open_page):
    row = current.data.measures[-1].uid
    current.visit.store.act(current.visit.owner, Edit("measures.stature_m", "", row), HAND)
    (person,) = shared_of(current_of(open_page()), with_measures=True).people
    assert (person["measures.stature_m"], person["measures.body_mass_kg"]) == ("", "84")


def test_eight_throws_with_all_measures_make_a_short_link_of_letters_that_need_no_escape():
    asked = {"kind": "measured", "day": "2026-01-13", "quantity": "varus", "above": "41.5"}
    asked |= {"align": "release", "scale": "plain"}
    lines = tuple(
        {"mass_kg": f"{100 + 37.5 * i}", "diameter_m": "73.5", "hold": "speed", "number": f"{33.25 - 1.37 * i}"}
        | {"thrower": ""}
        for i in range(1, 9)
    )
    text = text_of(Shared(asked, lines, 0, people=(dict.fromkeys(MEASURES, "123.45"),)))
    assert len(text) < 2000  # what the oldest readers of addresses take
    assert set(text) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.")


CHOICES = [1, "measured", "", "varus", 0, "", "release", "plain"]
THROW = ["145", "73", "speed", "33"]
GOOD = [CHOICES, [THROW]]


def test_the_link_of_the_description_is_read():
    (throw,) = shared_in(packed(GOOD)).throws
    assert throw == dict(zip(COLUMNS, THROW, strict=True)) | {"thrower": ""}


def test_a_link_of_before_the_last_choices_brings_those_it_has():
    shared = shared_in(packed([[1, "estimated", "", "abduction"], [THROW]]))
    assert shared.asked == {"kind": "estimated", "day": "", "quantity": "abduction"}
    assert (shared.reference, shared.headline) == (0, -1)


MEASURES_OF_BEFORE = ["X1", "male", "right", "20", "183", "84", "", "", ""]


def test_a_link_of_before_the_mark_brings_its_measures_and_nobody_marked():
    for count in (1, 2):
        shared = shared_in(packed([CHOICES, [THROW], MEASURES_OF_BEFORE * count]))
        assert [list(person.values()) for person in shared.people] == [[*MEASURES_OF_BEFORE, ""]] * count


BROKEN = {
    "nothing": "",
    "no text": 7,
    "a list": ["1.x"],
    "only a version": "1.",
    "another version": packed(GOOD).replace("1.", "2.", 1),
    "other letters": "1.äöü!",
    "no deflate": "1.AAAA",
    "cut off": packed(GOOD)[:-9],
    "more behind it": packed(GOOD) + "AAAA",
    "too long": "1." + "A" * LONGEST,
    "a bomb": packed("0" * 10_000_000),
    "empty": packed([]),
    "deep": "1." + base64.urlsafe_b64encode(zlib.compress(b"[" * 60_000, wbits=-15)).decode().rstrip("="),
    "no JSON": "1." + base64.urlsafe_b64encode(zlib.compress(b"{", wbits=-15)).decode().rstrip("="),
    "a record": packed({"throws": []}),
    "no throws": packed([CHOICES]),
    "nine throws": packed([CHOICES, [THROW] * 9]),
    "half a throw": packed([CHOICES, [["145", "73"]]]),
    "numbers for texts": packed([CHOICES, [[145, 73, "speed", 33]]]),
    "a text longer than any field": packed([CHOICES, [["1" * 201, "73", "speed", "33"]]]),
    "another hold": packed([CHOICES, [["145", "73", "hand", "33"]]]),
    "a list for a hold": packed([CHOICES, [["145", "73", ["speed"], "33"]]]),
    "another quantity": packed([[*CHOICES[:3], "joy"], [THROW]]),
    "a list for a quantity": packed([[*CHOICES[:3], []], [THROW]]),
    "another kind": packed([[1, "guessed"], [THROW]]),
    "a reference that is not there": packed([[2], [THROW]]),
    "a reference before the first": packed([[-1], [THROW]]),
    "a reference of half": packed([[0.5], [THROW]]),
    "a reference of true": packed([[True], [THROW]]),
    "another scale": packed([[*CHOICES[:7], "stars"], [THROW]]),
    "more choices than there are": packed([[*CHOICES, ""], [THROW]]),
    "a date that is a number": packed([[1, "measured", 2026], [THROW]]),
    "half an athlete": packed([CHOICES, [THROW], ["W01"]]),
    "an athlete of numbers": packed([CHOICES, [THROW], [1] * len(MEASURES)]),
    "more than there is": packed([CHOICES, [THROW], [""] * len(MEASURES), 1]),
}


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_a_broken_link_is_refused_with_a_reason(text):
    with pytest.raises(LinkError):
        shared_in(text)
    offer = offer_of(text, "W01")
    assert offer.said.startswith("The link could not be opened: it ")
    assert offer.said.endswith(". Nothing was changed.")
    assert not offer.button


@given(st.one_of(st.text(), st.binary().map(lambda raw: "1." + base64.urlsafe_b64encode(raw).decode().rstrip("="))))
def test_whatever_stands_in_the_address_something_is_said(text):
    assert offer_of(text, "W01").said


def of_length(letters, people=1):
    """A comparison of which every text is 200 characters long."""
    asked = {name: letters() for name in TEXTS}
    lines = tuple({name: letters() for name in COLUMNS} | {"hold": "speed", "thrower": ""} for _ in range(8))
    return Shared(asked, lines, 0, people=({path: letters() for path in MEASURES},) * people)


def test_a_link_that_would_be_too_long_is_not_made():
    chance = random.Random(1)
    with pytest.raises(LinkError, match="accepted: up to 4000"):  # 24 times 200 letters of 5.7 bits are 3420 bytes
        text_of(of_length(lambda: "".join(chance.choices(ascii_letters, k=200))))


def test_the_longest_compressible_comparison_goes_through_a_link():
    long = of_length(lambda: "\x01" * 200, people=2)
    whole = replace(long, asked=long.asked | {name: next(iter(words)) for name, words in KNOWN.items()})
    assert shared_in(text_of(whole)) == whole


def test_a_throw_on_the_speed_profile_goes_along_at_its_release_speed_and_one_at_its_clock_as_it_is(current, open_page):
    first, second = (row.uid for row in current.rows[:2])
    held = [Edit("throw.hold", "profile", first), Put("throw", "number", 0.9, first)]
    held += [Edit("throw.hold", "clock", second), Put("throw", "number", 0.855, second)]
    current.visit.store.act(current.visit.owner, held, HAND)
    made = current_of(open_page())
    sent = shared_of(made, with_measures=False).throws
    assert sent[0]["hold"] == "speed"
    assert float(sent[0]["number"]) == pytest.approx(made.throws[0].speed_m_s, abs=0.005)
    assert (sent[1]["hold"], sent[1]["number"]) == ("clock", "85.5")
