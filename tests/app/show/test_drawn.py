"""What a page asks `assets/drawn.js` for is wired to functions that are there."""

import re

from dash import Dash, Input

from app import places
from app.show.drawn import drawn


def asked(**parts) -> dict[str, str]:
    app = Dash(__name__)
    drawn(app, **parts)
    return {one["clientside_function"]["function_name"]: one["output"] for one in app._callback_list}


def test_a_page_gets_what_it_asks_for_and_nothing_else():
    assert asked() == {}
    assert asked(width="page-width") == {"width": "page-width.data"}
    every = asked(width="w", papers=["one", "two"], printing=Input("p", "n_clicks"))
    assert set(every) == {"width", "paper", "print"}


def test_all_that_can_be_asked_for_is_there():
    code = (places.assets() / "drawn.js").read_text(encoding="utf-8")
    for name in asked(width="w", papers=["one"], printing=Input("p", "n_clicks")):
        assert re.search(rf"^      {name}\(", code, re.MULTILINE)
