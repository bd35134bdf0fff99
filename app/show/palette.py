"""The one palette: greys, one accent, the ramp of ball mass, type and spacing, and the figure templates made of them.

Trace colours cannot be CSS variables (Plotly ignores them), so the numbers live here and
`assets/01_tokens.css` mirrors them; `css()` writes that mirror and a test holds the two together.

The mass of a ball is shown twice over, by the width and by the depth of its line on a ramp of a single hue: heavier is
thicker and stands out more from the page (darker on paper, brighter on a dark screen). Colour-blind readers, grey
printers and the back row all read it.
"""

import math
from dataclasses import dataclass
from typing import Any

FONT = '-apple-system, BlinkMacSystemFont, "Segoe UI", Roboto, "Helvetica Neue", Arial, "Liberation Sans", sans-serif'

TYPE_REM = {"xs": 0.8, "s": 0.9, "m": 1.0, "l": 1.25, "xl": 1.6, "xxl": 2.1}
"""The type scale, in rem (about 1.28 from step to step above the body size)."""

SPACE_REM = {"1": 0.25, "2": 0.5, "3": 0.75, "4": 1.0, "5": 1.5, "6": 2.25, "7": 3.5}

LIGHTEST_BALL_KG = 0.060
HEAVIEST_BALL_KG = 0.600
"""The ramp runs over the logarithm of mass between these; a ball beyond keeps the end's line."""


@dataclass(frozen=True)
class Theme:
    """One look of the page.

    Attributes
    ----------
    name : str
        As `data-theme` on the root element says it.
    paper, wash, rule, edge, quiet, ink : str
        Background; a tint for what is set apart; hairlines; edges of controls (3:1 on paper); small print and labels
        (4.5:1); text.
    accent : str
        The one accent: links, focus, what is chosen.
    ramp : tuple of str
        Line colours from the lightest to the heaviest ball, each at least 3:1 on paper.
    root_px : float
        Size of 1 rem.
    line_scale : float
        Lines are this much thicker than in the light theme.
    """

    name: str
    paper: str
    wash: str
    rule: str
    edge: str
    quiet: str
    ink: str
    accent: str
    ramp: tuple[str, ...]
    root_px: float = 16.0
    line_scale: float = 1.0


THEMES = {
    theme.name: theme
    for theme in (
        Theme(
            name="light",
            paper="#fdfcf9",
            wash="#f3f1ea",
            rule="#d8d6cf",
            edge="#86888c",
            quiet="#5d6168",
            ink="#1b1e23",
            accent="#075f85",
            ramp=("#6198b8", "#377da2", "#075f85", "#004363", "#00253a"),
        ),
        Theme(
            name="dark",
            paper="#15181c",
            wash="#1e2227",
            rule="#3a3f45",
            edge="#7d8288",
            quiet="#a9adb1",
            ink="#eceae4",
            accent="#81b9da",
            ramp=("#517a93", "#639aba", "#81b9da", "#abd8f3", "#dcf2ff"),
        ),
        Theme(
            name="projector",
            paper="#ffffff",
            wash="#f1f1ee",
            rule="#bdbdb8",
            edge="#5f6266",
            quiet="#3d4147",
            ink="#000000",
            accent="#0a5475",
            ramp=("#5b8dab", "#307093", "#0a5475", "#003851", "#001927"),
            root_px=21.0,
            line_scale=1.6,
        ),
        Theme(
            name="print",
            paper="#ffffff",
            wash="#f2f2f2",
            rule="#bbbbbb",
            edge="#777777",
            quiet="#444444",
            ink="#000000",
            accent="#0a5475",
            ramp=("#5b8dab", "#307093", "#0a5475", "#003851", "#001927"),
            root_px=12.5,
        ),
    )
}

SCREEN_THEMES = ("light", "dark", "projector")
"""What the reader can switch between; `print` is put on by the printer."""


def theme_named(name: object) -> Theme:
    """Find a theme by what the browser says; anything unknown is the light one.

    Parameters
    ----------
    name : object
        A name, as sent by the browser.

    Returns
    -------
    Theme
    """
    return THEMES[name] if isinstance(name, str) and name in SCREEN_THEMES else THEMES["light"]


def depth_of(mass_kg: float) -> float:
    """Place a ball on the ramp: 0 for the lightest, 1 for the heaviest, straight in the logarithm of mass.

    Parameters
    ----------
    mass_kg : float
        Ball mass (kg), above 0.

    Returns
    -------
    float
        From 0 to 1, both ends held.
    """
    share = math.log(mass_kg / LIGHTEST_BALL_KG) / math.log(HEAVIEST_BALL_KG / LIGHTEST_BALL_KG)
    return min(1.0, max(0.0, share))


def line_color(mass_kg: float, theme: Theme) -> str:
    """Give the colour of a ball's line, mixed between the two nearest steps of the ramp.

    Parameters
    ----------
    mass_kg : float
        Ball mass (kg), above 0.
    theme : Theme

    Returns
    -------
    str
        ``#rrggbb``.
    """
    place = depth_of(mass_kg) * (len(theme.ramp) - 1)
    low = min(int(place), len(theme.ramp) - 2)
    share = place - low
    pairs = zip(_channels(theme.ramp[low]), _channels(theme.ramp[low + 1]), strict=True)
    return "#" + "".join(f"{round(a + share * (b - a)):02x}" for a, b in pairs)


def line_width(mass_kg: float, theme: Theme) -> float:
    """Give the width of a ball's line.

    Parameters
    ----------
    mass_kg : float
        Ball mass (kg), above 0.
    theme : Theme

    Returns
    -------
    float
        Pixels.
    """
    return round((1.25 + 4.25 * depth_of(mass_kg)) * theme.line_scale, 2)


def _channels(color: str) -> tuple[int, int, int]:
    return int(color[1:3], 16), int(color[3:5], 16), int(color[5:7], 16)


def template(theme: Theme) -> dict[str, Any]:
    """Make the figure template of a theme: a plain dict, as Plotly takes it.

    Parameters
    ----------
    theme : Theme

    Returns
    -------
    dict
        ``layout`` defaults: paper, type, hairline grid, no legend, hover in the page's own type.
    """
    axis = {
        "gridcolor": theme.rule,
        "gridwidth": 1,
        "linecolor": theme.edge,
        "tickcolor": theme.edge,
        "zeroline": False,
        "automargin": False,
        "tickfont": {"color": theme.quiet, "size": figure_px(theme, "xs")},
        "title": {"font": {"color": theme.quiet, "size": figure_px(theme, "xs")}},
    }
    return {
        "layout": {
            "paper_bgcolor": theme.paper,
            "plot_bgcolor": theme.paper,
            "font": {"family": FONT, "size": figure_px(theme, "s"), "color": theme.ink},
            "colorway": list(reversed(theme.ramp)),
            "showlegend": False,
            "hovermode": "x unified",
            "hoverlabel": {"bgcolor": theme.paper, "bordercolor": theme.edge, "font": {"color": theme.ink}},
            "xaxis": axis,
            "yaxis": axis,
            "annotationdefaults": {
                "showarrow": False,
                "font": {"color": theme.ink},
                "arrowcolor": theme.edge,
                "bgcolor": theme.paper + "b3",  # lines behind a label fade, none is hidden
            },
            "shapedefaults": {"line": {"color": theme.edge, "width": 1}, "fillcolor": theme.wash},
        }
    }


def figure_px(theme: Theme, step: str) -> float:
    """Give a step of the type scale in pixels, as figures need it.

    Parameters
    ----------
    theme : Theme
    step : str
        A key of `TYPE_REM`.

    Returns
    -------
    float
        Pixels.
    """
    return round(TYPE_REM[step] * theme.root_px, 1)


def css() -> str:
    """Write the mirror of this palette as CSS custom properties.

    Returns
    -------
    str
        The whole text of ``assets/01_tokens.css``.
    """
    scale = {f"text-{step}": f"{rem:g}rem" for step, rem in TYPE_REM.items()}
    space = {f"space-{step}": f"{rem:g}rem" for step, rem in SPACE_REM.items()}
    blocks = [_block(":root", {"font": FONT} | scale | space | _tokens(THEMES["light"]))]
    blocks += [_block(f'[data-theme="{name}"]', _tokens(THEMES[name])) for name in SCREEN_THEMES[1:]]
    on_paper = _block(":root[data-theme], :root", _tokens(THEMES["print"])).replace("\n", "\n  ").rstrip(" ")
    blocks.append("@media print {\n  " + on_paper + "}\n")
    return (
        "/* The mirror of app/show/palette.py, written by `python -m app.show.palette`; change it there. */\n"
        + "\n".join(blocks)
    )


def _tokens(theme: Theme) -> dict[str, str]:
    names = ("paper", "wash", "rule", "edge", "quiet", "ink", "accent")
    ramp = {f"mass-{step}": color for step, color in enumerate(theme.ramp, start=1)}
    return {name: getattr(theme, name) for name in names} | ramp | {"root-size": f"{theme.root_px:g}px"}


def _block(selector: str, tokens: dict[str, str]) -> str:
    return selector + " {\n" + "".join(f"  --{name}: {value};\n" for name, value in tokens.items()) + "}\n"


if __name__ == "__main__":
    print(css(), end="")
