"""What a plan's row holds beside the plan."""

from datetime import timedelta

from app.pages.buildup.course import course_of
from app.pages.buildup.rows import NEXT, body_of
from app.records.acts import Add, Hand
from app.records.demo import passing_store
from app.records.lines import athlete_lines
from app.records.reads import athlete_data
from tests.app.pages.buildup.conftest import TODAY


def test_the_day_of_the_next_session_is_read_by_the_list_of_athletes(made):
    record = made()
    body = body_of(record, {})
    assert body[NEXT] == course_of(record).next.day.isoformat()
    store = passing_store(True)
    uid = athlete_data(store, "W01").athlete.uid
    store.act(
        uid, [Add("plan", {}, {"name": "Spring", "body": body}, "p1"), Add("plan", {}, {"name": "Bare"})], Hand("t")
    )
    line = next(one for one in athlete_lines(store, TODAY - timedelta(180)) if one.code == "W01")
    assert [(name, day) for _, name, day in line.plans] == [("Spring", course_of(record).next.day), ("Bare", None)]
