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

from app.demo import load_demo
from app.pages.compare.along.link import LONGEST, LinkError, form_of, sendable, text_of
from app.pages.compare.along.opening import offer_of
from app.show.form_fields import HOLDS
from app.show.quantities import QUANTITIES
from app.show.throw_form import ALIGNED, ATHLETE_NAMES, KINDS, SCALES, Form, ThrowForm, measures_of
from tests.app.typed_forms import demo_form

DEMO = load_demo()
W01 = demo_form(DEMO, DEMO.athletes[0])
MEASURES = {name: value for name, value in W01.athlete.items() if value}


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
    st.builds(
        lambda mass, diameter, hold, text: ThrowForm("t1", mass, diameter).holding(hold, text),
        typed, typed, st.sampled_from(list(HOLDS)), typed,
    ), max_size=8,
).map(lambda lines: tuple(replace(line, key=f"t{i}") for i, line in enumerate(lines, start=1)))  # fmt: skip


@st.composite
def forms(draw):
    lines = draw(throws)
    keys = st.sampled_from(["", *(line.key for line in lines)])
    athlete = draw(st.fixed_dictionaries(dict.fromkeys(ATHLETE_NAMES, typed)))
    words = {"kind": KINDS, "quantity": QUANTITIES, "align": ALIGNED, "scale": SCALES}
    chosen = {name: draw(st.sampled_from(list(known))) for name, known in words.items()}
    places = {name: draw(keys) for name in ("reference", "headline")}
    return Form(athlete, lines, date=draw(typed), above=draw(typed), **chosen, **places)


@given(forms())
def test_a_link_brings_back_what_was_typed(form):
    assert form_of(text_of(form, with_measures=True)) == form


@given(forms())
def test_without_measures_it_brings_nobody(form):
    assert form_of(text_of(form, with_measures=False)) == replace(form, athlete=Form().athlete)


def test_no_measure_code_or_age_goes_along_unless_that_is_asked_for():
    bare, whole = (json.loads(unpacked(text_of(W01, with_measures))) for with_measures in (False, True))
    assert len(bare) == 2
    assert whole == [*bare, [W01.athlete[name] for name in ATHLETE_NAMES]]
    cells = [*bare[0], *(cell for line in bare[1] for cell in line)]
    assert not {MEASURES[name] for name in ("code", "sex", "stature_cm", "body_mass_kg", "age_years")} & set(cells)


def test_eight_throws_with_all_measures_make_a_short_link_of_letters_that_need_no_escape():
    lines = [
        ThrowForm(f"t{i}", f"{100 + 37.5 * i}", "73.5").holding("speed", f"{33.25 - 1.37 * i}") for i in range(1, 9)
    ]
    form = replace(W01, throws=tuple(lines), athlete=dict.fromkeys(ATHLETE_NAMES, "123.45"), above="41.5")
    text = text_of(form, with_measures=True)
    assert len(text) < 2000  # what the oldest readers of addresses take
    assert set(text) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.")


CHOICES = [1, "measured", "", "varus", 0, "", "release", "plain"]
THROW = ["145", "73", "speed", "33"]
GOOD = [CHOICES, [THROW]]


def test_the_link_of_the_description_is_read():
    (throw,) = form_of(packed(GOOD)).throws
    assert (throw.ball_mass_g, throw.ball_diameter_mm, throw.hold, throw.speed_m_s) == ("145", "73", "speed", "33")


def test_a_link_of_before_the_last_choices_brings_those_it_has():
    form = form_of(packed([[1, "estimated", "", "abduction"], [THROW]]))
    assert (form.kind, form.quantity, form.place(form.reference)) == ("estimated", "abduction", 0)
    assert (form.headline, form.above, form.align, form.scale) == ("", "", "release", "plain")


MEASURES_OF_BEFORE = ["X1", "male", "right", "20", "183", "84", "", "", ""]


def test_a_link_of_before_the_mark_brings_its_measures_and_nobody_marked():
    form = form_of(packed([CHOICES, [THROW], MEASURES_OF_BEFORE]))
    assert list(form.athlete.values()) == [*MEASURES_OF_BEFORE, ""]
    assert not form.two
    both = form_of(packed([CHOICES, [THROW], MEASURES_OF_BEFORE * 2]))
    assert [list(both.measures(by).values()) for by in ("", "other")] == [[*MEASURES_OF_BEFORE, ""]] * 2


def test_the_mark_of_either_thrower_goes_along_with_the_measures():
    marked = replace(W01, athlete=W01.athlete | {"still_growing": "yes"}, other=measures_of(DEMO.athletes[1]))
    for form in (marked, replace(marked, athlete=marked.other, other=marked.athlete)):
        made = form_of(text_of(form, with_measures=True))
        assert (made.athlete, made.other) == (form.athlete, form.other)


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
    "an athlete of numbers": packed([CHOICES, [THROW], [1] * len(ATHLETE_NAMES)]),
    "more than there is": packed([CHOICES, [THROW], [""] * len(ATHLETE_NAMES), 1]),
}


@pytest.mark.parametrize("text", BROKEN.values(), ids=BROKEN)
def test_a_broken_link_is_refused_with_a_reason(text):
    with pytest.raises(LinkError):
        form_of(text)
    offer = offer_of(text, "W01")
    assert offer.said.startswith("The link could not be opened: it ")
    assert offer.said.endswith(". Nothing was changed.")
    assert not offer.button


@given(st.one_of(st.text(), st.binary().map(lambda raw: "1." + base64.urlsafe_b64encode(raw).decode().rstrip("="))))
def test_whatever_stands_in_the_address_something_is_said(text):
    assert offer_of(text, "W01").said


def test_a_link_that_would_be_too_long_is_not_made():
    chance = random.Random(1)
    athlete = {name: "".join(chance.choices("0123456789abcdef", k=200)) for name in ATHLETE_NAMES}
    throws = tuple(
        ThrowForm(f"t{i}", *("".join(chance.choices(ascii_letters, k=200)) for _ in "123")) for i in range(1, 9)
    )
    with pytest.raises(LinkError, match="accepted: up to 4000"):  # 24 times 200 letters of 5.7 bits are 3420 bytes
        text_of(Form(athlete, throws, "t1"), with_measures=True)


def test_the_longest_compressible_form_goes_through_a_link():
    throws = tuple(ThrowForm(f"t{i}", "\x01" * 200, "\x01" * 200, "\x01" * 200) for i in range(1, 9))
    form = Form(dict.fromkeys(ATHLETE_NAMES, "\x01" * 200), throws, "t1", date="\x01" * 200, above="\x01" * 200)
    assert form_of(text_of(form, with_measures=True)).throws[7].speed_m_s == "\x01" * 200


def test_a_throw_on_the_speed_profile_goes_along_at_its_release_speed_and_one_at_its_clock_as_it_is(
    make_answer, make_comparison
):
    profile = ThrowForm("t1", "145").holding("profile", "90")
    clock = ThrowForm("t2", "275").holding("clock", "85.5")
    first, second = make_answer(1, speed_m_s=29.7), make_answer(2, 0.275, 28.5)
    answers = [
        replace(answer, checked=replace(answer.checked, form=throw))
        for answer, throw in ((first, profile), (second, clock))
    ]
    sent = sendable(Form(throws=(profile, clock)), make_comparison(*answers))
    assert sent.throws == (ThrowForm("t1", "145", speed_m_s="29.7"), clock)
    unknown = [replace(answer, checked=replace(answer.checked, speed_m_s=None)) for answer in answers]
    assert sendable(Form(throws=(profile,)), make_comparison(*unknown)).throws == (profile,)
