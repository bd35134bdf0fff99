"""The page's callbacks: thin; they read the records, call a pure function, and set the parts.

Every edit that was kept raises the page's version. `draw` answers it with the curves; as soon as these are on the
screen, `tell` puts the same into words: the curve never waits for them.
"""

from typing import Any

from dash import no_update, set_props
from dash.exceptions import PreventUpdate

from app.bind import ids as bound
from app.bind.visit import visit_again
from app.pages.compare import ids
from app.pages.compare.current import Current, current_of
from app.pages.compare.moving import identity_of, moving_of
from app.pages.compare.multiples import multiples
from app.pages.compare.parts import names
from app.pages.compare.picture import figure_of, paper_of, samples_of
from app.pages.compare.rows import sizes_id
from app.pages.compare.sure import sure_of
from app.pages.compare.view import View, view_of
from app.show.axes import width_px
from app.show.markup import to_html
from app.show.page_parts import changed_only, dom_id
from app.show.palette import theme_named

NARROW_PX = 560.0  # a figure below this is narrow: lower, with smaller type and two small panels side by side

VIEWED = ("summary", "sentence", "others", "warnings", "figure_title", "figure_note", "table", "day_missing")
"""The parts that `View` fills one to one."""


def current_again(here: Any) -> Current:
    """The comparison of the page that asks."""
    current = current_of(visit_again(here))
    if current is None:
        raise PreventUpdate  # the athlete was erased, or the last comparison removed: the page is made anew
    return current


def draw(version: Any, theme: Any, width: Any, samples: list[list[Any]], here: Any, identity: Any) -> dict[str, Any]:
    """Draw what the records say now. The version goes along with the figure, to be told once that is on the screen."""
    comparison = current_again(here).compared()
    worn = theme_named(theme)
    wide = width_px(width)
    figure = figure_of(comparison, worn, wide < NARROW_PX, wide)
    keys = [trace["meta"] for trace in figure["data"] if "meta" in trace]
    figure["layout"]["meta"] = {"version": version} | moving_of(comparison, keys)
    styles, needed = samples_of(comparison, worn), identity_of(comparison)
    return {
        "figure": figure,
        "samples": changed_only(samples, lambda part: styles.get(part.get("throw", ""), {})),
        "identity": no_update if needed == identity else needed,
    }


def draw_every(opened: Any, theme: Any, width: Any, here: Any) -> dict[str, Any]:
    """Draw every quantity, while its fold is open."""
    if not opened:
        raise PreventUpdate
    return multiples(current_again(here).compared(), theme_named(theme), width_px(width) < NARROW_PX)


def beside(current: Current, view: View) -> dict[str, dict[str, Any]]:
    """What follows from the throws in fields that are typed into or chosen from, by their ids in the browser."""
    visit = current.visit

    def field(name: str) -> str:
        return dom_id(bound.field_id(visit.owner, f"comparison.{name}", current.row.uid, visit.system.key))

    return {
        field("headline"): {"data": view.headline_choices, "placeholder": view.headline_default},
        field("above"): {"placeholder": view.level_placeholder},
        field("day"): {"disabled": view.day_off},
        field("kind"): {"disabled": view.kind_off},
        dom_id(bound.act_id(visit.owner, ids.OPEN, kind=bound.PICK)): {"data": names(current.data.comparisons)},
    }


def tell(drawn: Any, held: list[list[Any]], here: Any) -> dict[str, Any]:
    """Put into words what was drawn."""
    if drawn is None:
        raise PreventUpdate
    current = current_again(here)
    comparison = current.compared()
    view = view_of(current.row, comparison, sure_of(current, comparison))
    for part, props in beside(current, view).items():
        set_props(part, props)
    return {
        "view": {name: getattr(view, name) for name in VIEWED},
        "paper": paper_of(comparison),
        "told": {dom_id(sizes_id(key)): to_html(part) for key, part in view.sizes.items()},
        "held": changed_only(held, lambda part: view.held.get(part.get("throw", ""), "")),
    }
