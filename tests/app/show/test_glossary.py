"""The words that can be asked for: where labels find them, and where they lead."""

import pytest
from dash import html

from app.pages import PAGES
from app.show.glossary import PATH, TERMS, explained, field_words, glossary, meanings
from app.show.markup import to_html


def linked(parts):
    return [part.children for part in parts if not isinstance(part, str)]


def said(parts):
    return "".join(part if isinstance(part, str) else part.children for part in parts)


@pytest.mark.parametrize(
    ("label", "words"),
    [
        ("Varus torque at the elbow", ["Varus torque"]),
        ("Horizontal-abduction torque at the shoulder, after release", ["Horizontal-abduction", "torque"]),
        ("Release speed, m/s", ["Release speed"]),
        ("Asked effort, %", ["Asked effort"]),
        ("Work given out", ["Work given out"]),
        ("Area under the curve", ["Area under the curve"]),
        ("Peak, peak and peak", ["Peak"]),
        ("Body mass, kg", []),
        ("Speaker in a workshop", []),
        ("", []),
    ],
)
def test_a_label_keeps_its_text_and_links_each_term_once(label, words):
    parts = explained(label)
    assert said(parts) == label
    assert linked(parts) == words


def test_a_link_leads_to_its_own_line_of_the_words_page():
    (link,) = [part for part in explained("rise rate") if not isinstance(part, str)]
    assert link.href == f"{PATH}#rise-rate"
    lines = [part.id for part in glossary().children if isinstance(part, html.Dt)]
    assert lines == [term.key for term in TERMS]
    assert PATH in {page.path for page in PAGES}


@pytest.mark.parametrize(
    ("word", "key", "meant"),
    [
        ("Time loaded", "time-loaded", "above a tenth of its own peak"),
        ("Time above", "time-above", "above one torque that is the same for all throws"),
        ("Half-height width", "half-height-width", "above half of its own peak"),
    ],
)
def test_each_of_the_three_times_has_a_meaning_of_its_own(word, key, meant):
    # DESIGN, section 3: above 10 % of the throw's own peak; above a torque fixed for all throws; above 50 % of own peak
    (link,) = explained(word)
    assert (link.href, link.children) == (f"{PATH}#{key}", word)
    (term,) = [term for term in TERMS if term.key == key]
    assert meant in term.text


def test_a_label_that_stands_again_and_again_is_passed_over_by_the_tab_key():
    assert 'tabindex="-1"' in to_html(explained("speed", repeated=True))
    assert "tabindex" not in to_html(explained("speed"))


def test_a_field_without_such_a_word_keeps_a_plain_text():
    assert field_words("Code") == "Code"
    assert field_words("Speed, m/s").children[1] == ", m/s"


def test_the_terms_of_the_trade_and_of_mechanics_are_all_there():
    # as the task of this page names them
    names = " ".join(term.name.lower() for term in TERMS)
    for wanted in ("torque", "varus and valgus", "impulse", "work", "external rotation", "effort asked for", "speed"):
        assert wanted in names
    assert len({term.key for term in TERMS}) == len(TERMS)
    assert {part.to_plotly_json()["props"]["data-term"] for part in meanings().children} == {t.key for t in TERMS}


def test_no_way_of_saying_leads_to_two_terms():
    every = [word.lower() for term in TERMS for word in term.said]
    assert len(set(every)) == len(every)
