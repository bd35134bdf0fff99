"""The callbacks, called as the browser calls them: through the server, also with what no browser of ours would send."""

import json
import re
import sys
from dataclasses import replace

import pytest

from app.demo import load_demo
from app.pages.compare import ids
from app.pages.compare.callbacks import draw, rest_on, tell
from app.pages.compare.on_page import CHOSEN
from app.show import ids as shared_ids
from app.show.cautions import GROWING, UNMEASURED
from app.show.checks import check_athlete
from app.show.throw_form import THROW_NAMES, to_json
from app.show.throw_form_change import opening
from app.web.server import Config, create_app
from model.throw import path_loads
from tests.app.pages.compare.conftest import text_of

FORM = opening(None, load_demo(), on_demo=True).form


@pytest.fixture(scope="module")
def app():
    return create_app(Config(demo=True))


def fields(form=FORM, **throw) -> dict:
    """The fields as Dash hands them to a callback."""
    lines = [(t.key, name, throw.get(f"{t.key}_{name}", getattr(t, name))) for t in form.throws for name in THROW_NAMES]
    return {
        "measures": list(form.athlete.values()),
        "measure_ids": [{"type": shared_ids.COMPARE_MEASURE, "name": name} for name in form.athlete],
        "throws": [value for _, _, value in lines],
        "throw_ids": [{"type": ids.COMPARE_THROW, "throw": key, "name": name} for key, name, _ in lines],
        "chosen": {name: getattr(form, name) for name in CHOSEN},
    }


def curves(made: dict) -> int:
    """How many curves are drawn; one more trace holds the words."""
    return len(made["figure"]["data"]) - 1


def test_the_form_goes_along_with_its_figure_as_typed():
    made = draw(fields(t2_speed_m_s=" 28,5 "), "light", False, [[], []], None, None)
    assert made["figure"]["layout"]["meta"]["form"]["throws"][1]["speed_m_s"] == " 28,5 "
    assert curves(made) == 4


@pytest.mark.parametrize("bad", [None, "", "abc", "1e400", "NaN", 3, [1], {"a": 1}, True, "x" * 5000])
def test_whatever_stands_in_a_field_the_other_curves_are_drawn(bad):
    made = draw(fields(t2_speed_m_s=bad), "light", False, [[], []], None, None)
    assert curves(made) == (4 if bad == 3 else 3)


@pytest.mark.parametrize("written", [None, 7, [], {}, {"units": [], "form": 3}, {"units": "metric", "form": {}}])
def test_whatever_stands_beside_the_fields_their_texts_count(written):
    assert curves(draw(fields() | {"written": written}, "light", False, [[], []], None, None)) == 4


def basis(first: dict, second: dict | None = None) -> str:
    """What the page rests on, and the cautions, with these changes to the first thrower's measures."""
    shown = FORM.athlete | first | {f"other_{name}": text for name, text in (second or {}).items()}
    part_ids = [{"type": shared_ids.COMPARE_MEASURE, "name": name} for name in shown]
    return text_of(rest_on(list(shown.values()), part_ids)[0])


@pytest.mark.parametrize(
    ("first", "growing", "unmeasured"),
    [
        ({}, False, False),
        ({"still_growing": "age"}, False, False),
        ({"still_growing": "yes"}, True, False),
        ({"age_years": "17"}, True, False),
        ({"age_years": "17", "still_growing": "age"}, True, False),
        ({"age_years": ""}, True, True),
        ({"stature_cm": "x"}, True, True),
    ],
)
def test_the_caution_for_the_growing_stands_there_for_the_young_the_marked_and_the_unmeasured(
    first, growing, unmeasured
):
    said = basis(first)  # W01 is 20 (demo_data/athletes.csv)
    assert (GROWING[0] in said, GROWING[1] in said, UNMEASURED in said) == (growing, growing, unmeasured)


def test_it_stands_there_for_either_of_two_throwers():
    second = FORM.athlete | {"still_growing": "yes"}
    assert GROWING[0] in basis({}, second)
    assert GROWING[0] in basis({}, dict.fromkeys(FORM.athlete, ""))  # joined, and nothing is known of them yet
    assert GROWING[0] not in basis({}, FORM.athlete)


@pytest.mark.parametrize("theme", [None, 7, "neon", {}])
def test_an_unknown_theme_or_width_draws_all_the_same(theme):
    assert curves(draw(fields(), theme, theme, [[], []], None, None)) == 4


def test_a_piece_of_line_that_stays_the_same_is_left_alone():
    parts = [{"type": ids.COMPARE_SAMPLE, "throw": throw.key} for throw in FORM.throws]
    first = draw(fields(), "light", False, [parts, [None] * 4], None, None)["samples"]
    again = draw(fields(), "light", False, [parts, first], None, None)["samples"]
    assert all("borderTop" in style for style in first)
    assert all(style is again[0] for style in again)  # dash's "no update"
    assert again[0] not in first


def test_a_message_is_set_where_it_is_new_and_taken_back_when_mended():
    broken = opening(
        to_json(FORM) | {"throws": [{**to_json(FORM)["throws"][0], "speed_m_s": "x"}]}, load_demo(), True
    ).form
    part = {"type": ids.COMPARE_THROW, "throw": "t1", "name": "speed_m_s"}
    (message,) = tell(to_json(broken), [[], []], [[part], [None]], [[], []], None)["throw_errors"]
    assert message.startswith("Release speed: “x” given")
    (mended,) = tell(to_json(FORM), [[], []], [[part], [message]], [[], []], None)["throw_errors"]
    assert mended is None


def test_a_throw_just_held_otherwise_is_drawn_as_it_was_before_its_number_is_in_the_field():
    speed, clock = (draw(fields(t2_hold=hold), "light", False, [[], []], None, None) for hold in ("speed", "clock"))
    heights = [max(made["figure"]["data"][1]["y"]) for made in (speed, clock)]
    assert heights[1] == pytest.approx(
        heights[0], rel=5e-4
    )  # the clock is written to 0.01 %, the peak goes with its square
    (throw,) = [one for one in clock["figure"]["layout"]["meta"]["form"]["throws"] if one["key"] == "t2"]
    assert (throw["hold"], throw["speed_m_s"]) == ("clock", "")
    assert float(throw["clock_percent"]) == pytest.approx(100 * 28.5 / path_speed_m_s(FORM), abs=0.005)


def test_a_longer_thrower_is_drawn_at_the_same_clock_while_the_old_speeds_stand_in_the_fields():
    taller = replace(FORM, athlete={**FORM.athlete, "stature_cm": "190"})
    made = draw(fields(taller), "light", False, [[], []], to_json(FORM), None)
    assert {one["hold"] for one in made["figure"]["layout"]["meta"]["form"]["throws"]} == {"clock"}
    asked = draw(fields(taller), "light", False, [[], []], None, None)
    assert {one["hold"] for one in asked["figure"]["layout"]["meta"]["form"]["throws"]} == {"speed"}


def path_speed_m_s(form) -> float:
    return float(path_loads(check_athlete(form.athlete).person, 0.073).path_speed_m_s)


def post(app, **body):
    """Send a callback's request as the renderer does."""
    return app.server.test_client().post("/_dash-update-component", json=body)


def request_of(app, output: str) -> dict:
    """The renderer's request for the callback that sets an output, with every input empty."""
    spec = next(one for one in app.server.test_client().get("/_dash-dependencies").json if output in one["output"])
    return {
        "output": spec["output"],
        "inputs": [{**part, "value": None} for part in spec["inputs"]],
        "state": [{**part, "value": None} for part in spec["state"]],
        "changedPropIds": [],
    }


def test_every_id_of_the_callbacks_is_one_of_the_ids_modules(app):
    modules = [module for name, module in sys.modules.items() if re.fullmatch(r"app\..+\.ids", name)]
    known = {value for module in modules for name, value in vars(module).items() if name.isupper()}
    for spec in app.server.test_client().get("/_dash-dependencies").json:
        for part in spec["inputs"] + spec["state"]:
            name = json.loads(part["id"])["type"] if part["id"].startswith("{") else part["id"]
            assert name in known


@pytest.mark.parametrize("output", [ids.COMPARE_FIGURE, ids.COMPARE_SENTENCE, ids.COMPARE_ROWS, ids.COMPARE_BASIS])
def test_a_request_of_another_shape_shows_no_stack_trace(app, output):
    body = request_of(app, f"{output}.")
    for broken in (
        {"inputs": []},
        {"inputs": "x"},
        {"state": None},
        {"inputs": [{"id": 1, "property": 2, "value": 3}]},
    ):
        answer = post(app, **(body | broken))
        assert b"Traceback" not in answer.data
        assert b"/app/" not in answer.data
