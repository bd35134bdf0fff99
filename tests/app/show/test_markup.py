"""Components as text: what stands in them cannot become markup."""

import pytest
from dash import dcc, html

from app.show.markup import Field, to_html


def test_text_and_values_are_escaped():
    made = to_html(html.P('<b>&"', title='"><script>', **{"aria-label": "<"}))
    assert made == '<p title="&quot;&gt;&lt;script&gt;" aria-label="&lt;">&lt;b&gt;&amp;&quot;</p>'


def test_names_styles_and_switches_become_those_of_html():
    part = html.Td([html.Br(), 3, None], className="a", style={"clipPath": "none", "--zones": "1fr"}, hidden=True)
    assert to_html(part) == '<td class="a" hidden style="clip-path:none;--zones:1fr"><br>3</td>'
    assert to_html(html.Details("x", open=False)) == "<details>x</details>"


def test_lists_are_written_one_after_the_other():
    assert to_html(["a", html.B("b"), None]) == "a<b>b</b>"


@pytest.mark.parametrize("part", [dcc.Store(id="x"), html.P(dcc.Link("x", href="/")), html.P(title=["x"]), object()])
def test_anything_that_needs_the_browser_side_of_dash_is_refused(part):
    with pytest.raises(TypeError):
        to_html(part)


def test_a_field_is_written_with_its_value_escaped():
    assert to_html(html.P(Field({"class": "a", "value": '"><b>', "maxlength": 4}))) == (
        '<p><input class="a" value="&quot;&gt;&lt;b&gt;" maxlength="4"></p>'
    )
