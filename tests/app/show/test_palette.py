"""The palette: its mirror in CSS, its contrasts, and the ramp of ball mass."""

import itertools

import plotly.graph_objects as go
import pytest

from app import places
from app.show.palette import (
    HEAVIEST_BALL_KG,
    LIGHTEST_BALL_KG,
    SCREEN_THEMES,
    THEMES,
    css,
    depth_of,
    line_color,
    line_width,
    template,
    theme_named,
)

RACK_KG = [0.095, 0.125, 0.145, 0.160, 0.210, 0.275, 0.360, 0.470]


def luminance(color: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_of_black_on_white_is_21():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)  # WCAG 2.2, definition of contrast ratio


def test_the_css_mirrors_the_palette():
    written = (places.assets() / "01_tokens.css").read_text(encoding="utf-8")
    assert written == css(), "run: python -m app.show.palette > assets/01_tokens.css"


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
def test_text_and_controls_stand_out_from_the_paper(theme):
    for ground in (theme.paper, theme.wash):
        for ink in (theme.ink, theme.quiet, theme.accent):
            assert contrast(ink, ground) >= 4.5  # WCAG 2.2, 1.4.3
    assert contrast(theme.edge, theme.paper) >= 3.0  # WCAG 2.2, 1.4.11


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
def test_every_line_stands_out_and_a_heavier_ball_more(theme):
    ratios = [contrast(color, theme.paper) for color in theme.ramp]
    assert min(ratios) >= 3.0  # WCAG 2.2, 1.4.11
    assert ratios == sorted(ratios)


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
def test_a_heavier_ball_of_the_rack_has_the_thicker_and_the_deeper_line(theme):
    widths = [line_width(mass, theme) for mass in RACK_KG]
    ratios = [contrast(line_color(mass, theme), theme.paper) for mass in RACK_KG]
    assert all(a < b for a, b in itertools.pairwise(widths))
    assert all(a < b for a, b in itertools.pairwise(ratios))


def test_the_ramp_is_straight_in_the_logarithm_of_mass_and_held_at_its_ends():
    assert depth_of(LIGHTEST_BALL_KG) == 0.0
    assert depth_of(HEAVIEST_BALL_KG) == pytest.approx(1.0)
    assert depth_of((LIGHTEST_BALL_KG * HEAVIEST_BALL_KG) ** 0.5) == pytest.approx(0.5)  # the geometric mean
    assert depth_of(0.005) == 0.0
    assert depth_of(2.0) == 1.0
    assert line_color(0.005, THEMES["light"]) == THEMES["light"].ramp[0]
    assert line_color(2.0, THEMES["light"]) == THEMES["light"].ramp[-1]


@pytest.mark.parametrize("name", [None, 3, "", "print", "neon", {"light": 1}])
def test_an_unknown_theme_is_the_light_one(name):
    assert theme_named(name) is THEMES["light"]


def test_a_known_theme_is_itself():
    assert [theme_named(name).name for name in SCREEN_THEMES] == list(SCREEN_THEMES)


@pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)
def test_plotly_takes_the_template(theme):
    made = go.Figure(layout={"template": template(theme)})
    assert made.layout.template.layout.paper_bgcolor == theme.paper
