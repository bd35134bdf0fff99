"""The fields beside the plan, which no record keeps: what stands in them goes into what a button does."""

from collections.abc import Mapping, Sequence
from typing import Any

from dash import html
from dash.development.base_component import Component

from app.pages.buildup import ids
from app.pages.buildup.aims import MORE_STEPS
from app.pages.buildup.offers import Offer
from app.pages.buildup.rule_words import CLEARING
from app.records.fields import Field
from app.records.plan_fields import LONGEST_WORDS, ROLE_WORDS
from app.records.tables import LONGEST_INITIALS
from app.show.controls import choice, text_field
from model.build_up import SHARE_LIMIT, STEPS_LIMIT
from model.calendar_plan import REPEATS_LIMIT, THROWS_LIMIT
from model.checks import Limit
from model.session_rules import STOP_SIGNS, URGENT_SIGNS

INITIALS = f"up to {LONGEST_INITIALS} characters, no names"
DAY = "year-month-day"
SHARE = Limit(SHARE_LIMIT.low, SHARE_LIMIT.high, "")


def _count(name: str, label: str, limit: Limit, said: str, needed: bool = False) -> Field:
    return Field(name, label, "whole", limit.unit, limit, needed=needed, hint=said)


def _signed(name: str, roles: Mapping[str, str], words: str, needed: bool = False) -> tuple[Field, ...]:
    """Who decides or records something, and in which words."""
    return (
        Field(f"{name}_by", "Initials", "text", needed=True, longest=LONGEST_INITIALS, hint=INITIALS),
        Field(f"{name}_role", "Role", "choice", choices=roles, needed=True),
        Field(f"{name}_words", words, "text", longest=LONGEST_WORDS, needed=needed, hint="in words"),
    )


FIELDS = {
    one.path: one
    for one in (
        Field("read_by", "Initials of who has read it", "text", needed=True, longest=LONGEST_INITIALS, hint=INITIALS),
        Field("share", "Of full speed with it", "number", "%", SHARE, needed=True, hint="5 to 100"),
        _count("sessions", "Sessions at this step", REPEATS_LIMIT, "1 to 30", needed=True),
        Field("day", "Day", "day", ahead=True, hint=f"{DAY}; empty: by the calendar"),
        _count("throws", "Throws", THROWS_LIMIT, "1 to 500; empty: by the budget"),
        _count(
            "rest",
            "Steps from this one on",
            STEPS_LIMIT,
            f"empty: the fewest within the limits, and {MORE_STEPS} more",
        ),
        Field("again", "Go on from", "day", ahead=True, needed=True, hint=DAY),
        Field("sign_what", "Stop sign", "choice", choices={**URGENT_SIGNS, **STOP_SIGNS}, needed=True),
        Field("sign_since", "Since", "day", hint=f"{DAY}; empty: today"),
        *_signed("sign", ROLE_WORDS, "What was seen, by whom"),
        Field("clear_on", "Day", "day", hint=f"{DAY}; empty: today"),
        *_signed("clear", CLEARING, "Whose decision it was, if not yours"),
        Field("withdraw_what", "Stop sign", "text", needed=True),
        *_signed("withdraw", ROLE_WORDS, "Why it is withdrawn", needed=True),
        *_signed("limits", CLEARING, "What was decided"),
    )
}
"""By their names."""


def hand(name: str, value: str = "", data: list[dict[str, str]] | None = None) -> Component:
    """Make a field, by name; with data it is a choice."""
    one, part = FIELDS[name], {"type": ids.BUILDUP_HAND, "name": name}
    if one.kind == "choice" or data is not None:
        listed = options(one.choices) if data is None else data
        return choice(one.label, listed, value, id=part, searchable=False, placeholder="choose")
    label = f"{one.label}, %" if one.unit == "%" else one.label
    return text_field(label, one.hint, one.kind in ("number", "whole"), one.longest, value=value, id=part)


def options(choices: Mapping[str, str]) -> list[dict[str, Any]]:
    """Choices as a list takes them."""
    return [{"value": key, "label": words} for key, words in choices.items()]


def do(name: str, words: str, **props: Any) -> Component:
    """Make a button that does something to the plan, by name."""
    return html.Button(words, id={"type": ids.BUILDUP_DO, "name": name}, type="button", n_clicks=0, **props)


def row(columns: str, *parts: Component) -> Component:
    """Fields beside one another."""
    return html.Div(list(parts), className=f"buildup-row {columns}".rstrip())


def buttons(*parts: Component) -> Component:
    """Buttons beside one another."""
    return html.Div(list(parts), className="buildup-buttons")


def offer_buttons(offers: Sequence[Offer]) -> list[Component]:
    """Make a button for each thing that can be done."""
    parts = [({"type": ids.BUILDUP_OFFER, "name": f"{one.key}={one.value}"}, one.words) for one in offers]
    return [html.Button(words, id=part, type="button", n_clicks=0) for part, words in parts]
