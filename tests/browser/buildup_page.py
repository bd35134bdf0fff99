"""The build-up page in a browser test: where its parts are, and what a hand does there."""

import re
from datetime import date

from app.records.acts import Edit, Hand
from app.records.reads import athlete_data
from app.records.store import Store
from tests.app.pages.buildup.conftest import ASKED
from tests.browser.by_hand import choose
from tests.browser.compare_page import type_in
from tests.browser.settling import settled

SESSIONS = ".buildup-sheet tbody tr"
STEPS = "#buildup-steps tbody tr"
BROKEN = ".buildup-broken"
PAINLESS = {"throws": "10", "before": "0", "throwing": "0", "hour_after": "0", "next_morning": "0"}


def _expect(what):
    from playwright.sync_api import expect  # where there is none, the tests skip before they come here

    return expect(what)


def opened(page, served: str, code: str = "W01"):
    page.goto(f"{served}/build-up?athlete={code}")
    _expect(page.get_by_role("heading", name="Build up")).to_be_visible()
    return page


def typed_before(store: Store, code: str, **texts) -> None:
    """Have the form filled in before the page is opened."""
    owner = athlete_data(store, code).athlete.uid
    store.act(owner, [Edit(f"plan.{name}", text) for name, text in texts.items()], Hand("before"), today=date.today())


def make(page, order: str = "The own ball,") -> None:
    page.get_by_role("radio", name=order).check()
    settled(page)
    page.get_by_role("button", name="Make the plan").click()
    _expect(page.locator("#buildup-notice")).to_contain_text("Plan made.")
    _expect(page.locator(SESSIONS).first).to_be_attached()


def ask(page, **more) -> None:
    """Say what is asked for after time off or an injury."""
    fields = {"Weeks without throwing": "12", "Throws a week before that": "150", "Sessions at each step": "3"}
    for label, text in {**fields, "Throws in the first session": "15", **more}.items():
        type_in(page, page.get_by_label(label, exact=True), text)
    for day in ("Tue", "Fri"):
        page.get_by_role("checkbox", name=day).check()
    if page.get_by_label("Initials of who cleared").is_visible():
        type_in(page, page.get_by_label("Initials of who cleared"), "PT")
        page.locator(f"{at('plan.cleared_role')}").click()
        page.get_by_role("option", name="licensed clinician").first.click()


def do(page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def at(path: str) -> str:
    """Where a bound field is; of a session's, whichever is shown."""
    return f'[id*=\'"path":"{path}\']:is(input, textarea)'


def hand(page, name: str):
    """A field beside the plan."""
    return page.locator(f'input[id=\'{{"name":"{name}","type":"buildup-hand"}}\']')


def field(page, name: str):
    """A field of what is noted after a session."""
    return page.locator(at(f"noted.{name}@"))


def tick(page, name: str, value: str) -> None:
    page.locator(f'[aria-labelledby*=\'"path":"noted.{name}@\'] input[value="{value}"]').check()


def note(page, role: str = "coach", **texts) -> None:
    """Fill in what is noted after a session."""
    for name, text in texts.items():
        type_in(page, field(page, name), text)
    tick(page, "painkiller", "no")
    type_in(page, field(page, "by"), "AB")
    field(page, "role").click()
    page.get_by_role("option", name=role, exact=True).click()


def keep(page, number: int, then: str = "") -> None:
    """Keep a session, and wait until the fields are those of the next one."""
    do(page, "Keep this session")
    _expect(page.locator("#buildup-notice-log")).to_contain_text(f"Session {number} kept.")
    if then:
        _expect(page.locator("#buildup-log-title")).to_have_text(then)


def sentence(page):
    return page.locator("#buildup-sentence .sentence")


def kept(store: Store, code: str = "W01"):
    """What the records have of the newest plan."""
    (plan,) = athlete_data(store, code).plans[-1:]
    return plan.body


def sheets(page, paper: str) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper)))


def fast_block(page, served: str):
    """The page on its demo data, with a plan into a block of fast throwing."""
    opened(page, served)
    choose(page, "Aim", "into a block of fast throwing")
    make(page, "The heaviest ball slow")
    return page


def after_injury(page, served: str, store: Store):
    """With the plan of one who was injured, the own ball from slow to fast; the form as it was filled in before."""
    asked = ASKED | {"first_throws": "15", "repeats": "3", "days": "1 4", "aim": "after_injury"}
    typed_before(store, "W06", **asked)
    opened(page, served, "W06")
    _expect(page.get_by_label("Initials of who cleared")).to_have_value("PT")
    make(page)
    return page
