"""The four sizes on a throw's card: numbers, per cents, bars around zero, and the plain sentence."""

import math
from dataclasses import replace

import pytest

from app.pages.compare.sizes import plain_sentence, sizes
from app.show.markup import to_html


def card(make_answer, make_comparison, quantity="varus", **changed) -> str:
    reference = make_answer(1, reference=True)
    throw = make_answer(2, 0.275, 28.5, **changed)
    return to_html(sizes(throw, make_comparison(reference, throw, quantity=quantity)))


def test_each_size_has_its_number_its_unit_and_its_per_cent_with_the_kind_of_the_reference(
    make_answer, make_comparison
):
    html = card(make_answer, make_comparison, peak=72.0, loaded_s=0.115, area=5.2, rise_rate=790.0)
    for words in ("72.0 N·m", "115 ms", "790 N·m/s", "5.20 N·m·s"):
        assert f">{words}<" in html
    for words in ("\u221210 % of measured", "+15 % of measured", "\u221221 % of measured", "+4 % of measured"):
        assert f">{words}<" in html


def test_a_bar_goes_from_zero_to_the_side_of_its_sign_and_fifty_per_cent_fill_it(make_answer, make_comparison):
    html = card(make_answer, make_comparison, peak=100.0, loaded_s=0.075, area=5.0, rise_rate=3000.0)
    assert '<span class="plus" style="width:25.0%;left:50%">' in html  # +25 %: half of the half
    assert '<span class="minus" style="width:25.0%;right:50%">' in html
    assert '<span class="plus beyond" style="width:50.0%;left:50%">' in html  # +200 % is cut off and marked


def test_the_reference_has_its_numbers_and_nothing_to_differ_from(make_answer, make_comparison):
    reference = make_answer(1, reference=True)
    html = to_html(sizes(reference, make_comparison(reference, make_answer(2))))
    assert ">80.0 N·m<" in html
    assert "%" not in html
    assert "bar" not in html


def test_what_is_not_defined_says_so_and_has_no_bar(make_answer, make_comparison):
    html = card(make_answer, make_comparison, rise_rate=math.nan)
    assert ">not defined<" in html
    assert ">no per cent<" in html
    assert html.count('class="bar"') == 3


def test_a_force_is_called_a_force_and_has_its_units(make_answer, make_comparison):
    html = card(make_answer, make_comparison, quantity="elbow_proximal", peak=90.0)
    assert ">90 N<" in html
    assert "its highest force is 13 % higher" in html  # 90 of 80


def test_the_plain_sentence_says_all_four(round_readouts):
    other = replace(round_readouts, peak=72.8, loaded_s=0.115, rise_rate=790.0, area=5.2)
    assert plain_sentence(other, round_readouts, "N·m") == (
        "Beside the reference, its highest torque is 9 % lower, it acts 15 % longer, it builds up 21 % more gently, "
        "and there is 4 % more of it in all."
    )


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({}, "As large as the reference in all four."),
        (
            {"peak": 160.0},
            "Beside the reference, its highest torque is 100 % higher; the same time loaded and rise rate and area.",
        ),
        ({"peak": math.nan, "loaded_s": math.nan, "rise_rate": math.nan, "area": math.nan}, ""),
    ],
)
def test_what_stays_the_same_or_is_not_defined_is_said_shortly(round_readouts, changed, said):
    assert plain_sentence(replace(round_readouts, **changed), round_readouts, "N·m") == said


def test_no_verdict_stands_on_the_card(make_answer, make_comparison):
    html = card(make_answer, make_comparison, peak=160.0).lower()
    assert not any(word in html for word in ("safe", "danger", "good", "bad", "risk"))


def test_a_throw_without_a_curve_has_no_sizes(make_answer, make_comparison):
    assert sizes(replace(make_answer(2), curves=None), make_comparison(make_answer(1, reference=True))) is None
