"""Whose page it is."""

import pytest

from app.bind.visit import address, hand_of, stores, visit_again, visit_of
from app.records.acts import TEAM, Hand


def test_the_address_says_whose_page_it_is(app):
    visit = visit_of("/start", "?athlete=W04&ball=145")
    assert visit.data.athlete.code == "W04"
    assert visit.asked == {"ball": "145"}
    assert visit.address("/map") == "/map?athlete=W04"


def test_without_a_code_it_is_the_one_looked_at_last(app):
    visit = visit_of("/start", "?athlete=W05")
    visit.store.opened(visit.owner)
    assert visit_of("/map", "").code == "W05"


@pytest.mark.parametrize("code", ["nobody", "<a href=x>", "x" * 5000, "W01'; drop table athlete"])
def test_a_code_that_nobody_has_leads_to_nobody(app, code):
    visit = visit_of("/map", f"?athlete={code}")
    assert visit.data is None
    assert visit.owner == TEAM


def test_a_code_with_signs_of_its_own_comes_back_from_its_address(app):
    assert visit_of("/map", address("/map", "A&B=ü?").removeprefix("/map")).code == "A&B=ü?"


def test_a_page_asks_as_it_was_opened_and_sees_what_is_kept_since(visit, here):
    assert visit_again(here).data.athlete.uid == visit.owner
    assert visit_again({"athlete": 3, "asked": "x"}).data is None
    assert visit_again(None).data is None


def test_each_load_is_a_tab_of_its_own(app):
    first, second = (stores(visit_of("/map", "?athlete=W01"))[0].data["tab"] for _ in range(2))
    assert first != second


@pytest.mark.parametrize("seen", [None, [], {"a": "x"}, {"a": True}])
def test_a_version_that_is_none_was_not_seen(app, seen):
    assert hand_of({"tab": "t"}, seen, None, "a") == Hand("t", "", 0, None)
    assert hand_of({"tab": "t"}, {"a": 4}, 12.7, "a") == Hand("t", "", 12, 4)
