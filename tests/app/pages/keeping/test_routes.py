"""Files go out and come in by addresses of their own: looked at first, kept when somebody says so."""

import io
import json

import pytest

from app.bind.visit import visit_of
from app.csv_files import LARGEST_BYTES
from app.pages.keeping.desk import LONGEST_S, MOST, Brought, Desk
from app.pages.keeping.routes import OUT
from app.records.acts import Hand
from app.records.history import history
from app.records.reads import athlete_data
from app.web.server import Config, create_app

TOKEN = "0123abcd-0123"
CSV = "athlete,date,ball_mass_g,speed\nB7,2026-01-10,145,33.1\nB7,2026-01-10,145,34\nB7,soon,145,35\n"


@pytest.fixture
def app():
    return create_app(Config())


@pytest.fixture
def client(app):
    return app.server.test_client()


@pytest.fixture
def store(app):
    with app.server.test_request_context():
        return visit_of("/", "").store


def ask(client, name: str, **said):
    return client.post(f"/records/in/{name}", data={"token": TOKEN} | said, content_type="multipart/form-data")


def bring(client, text: str, name: str = "speeds.csv"):
    return ask(client, "bring", file=(io.BytesIO(text.encode()), name)).json


def test_a_table_is_looked_at_first_and_nothing_is_kept(client, store):
    answer = bring(client, CSV)
    assert answer["can_take"]
    for words in ("2 readings to be added.", "New athletes: B7.", "g", "m/s assumed", "is refused: date: “soon” given"):
        assert words in answer["html"]
    assert store.codes() == ()


def test_what_was_looked_at_is_kept_once_it_is_said_and_twice_adds_nothing(client, store):
    bring(client, CSV)
    assert ask(client, "take").json["said"] == "speeds.csv: 2 entries added."
    assert len(athlete_data(store, "B7").readings) == 2
    again = bring(client, CSV)
    assert not again["can_take"]
    assert "There is nothing in it that could be added." in again["html"]
    assert len(athlete_data(store, "B7").readings) == 2


def test_who_keeps_it_stands_in_the_history(client, store):
    client.set_cookie("levelpeak-initials", "AB")
    bring(client, CSV)
    ask(client, "take")
    assert {line.by for line in history(store, store.find("B7").uid)} == {"AB"}


def test_what_is_left_is_gone_and_cannot_be_kept(client, store):
    bring(client, CSV)
    ask(client, "leave")
    answer = ask(client, "take")
    assert (answer.status_code, answer.json["reason"]) == (410, "The file lies here no longer: choose it again.")
    assert store.codes() == ()


def test_a_column_can_be_said_to_mean_something_else_in_another_unit(client, store):
    bring(client, "who,day,weight,v\nB7,2026-01-10,5,76\n")  # no column for a speed is known
    answer = ask(
        client, "look", **{f"meaning:{place}": key for place, key in ((0, "athlete"), (2, "mass"), (3, "speed"))}
    )
    assert answer.json["can_take"] is True or "refused" in answer.json["html"]
    answer = ask(
        client,
        "look",
        **{"meaning:0": "athlete", "meaning:2": "mass", "unit:2": "oz", "meaning:3": "speed", "unit:3": "mph"},
    )
    assert answer.json["can_take"]
    ask(client, "take")
    (reading,) = athlete_data(store, "B7").readings
    assert reading.speed_m_s == pytest.approx(76 * 0.44704)


def test_rows_without_athlete_or_day_take_those_that_are_said(client, store):
    assert "no column for athlete" in bring(client, "ball_mass_g,speed_m_s\n145,33\n")["html"]
    answer = ask(client, "look", athlete="C3", day="2026-01-11")
    assert answer.json["can_take"]
    ask(client, "take")
    assert athlete_data(store, "C3").readings[0].day.isoformat() == "2026-01-11"


def test_a_day_that_is_none_is_refused_in_words(client):
    bring(client, CSV)
    assert "Day of the reading" in ask(client, "look", day="soon").json["html"]


@pytest.mark.parametrize(
    ("text", "words"), [("", "the file is empty"), ("{", "no JSON text"), ('{"kind": "x"}', "none of the files")]
)
def test_a_file_that_cannot_be_read_is_refused_with_the_reason(client, text, words):
    answer = bring(client, text, "x")
    assert words in answer["html"]
    assert not answer["can_take"]


def test_names_and_cells_stand_escaped(client):
    answer = bring(client, 'athlete,date,"<b>",ball_mass_g,speed_m_s\n<a href=x>,2026-01-10,<i>,145,33\n', "<u>.csv")
    for raw in ("<b>", "<a href=x>", "<i>", "<u>"):
        assert raw not in answer["html"]


def test_everything_goes_out_and_comes_in_unchanged(client, store):
    bring(client, CSV)
    ask(client, "take")
    out = client.get(f"{OUT}/records.json")
    assert "attachment" in out.headers["Content-Disposition"]
    assert json.loads(out.text)["athletes"][0]["code"] == "B7"
    other = create_app(Config())
    fresh = other.server.test_client()
    assert bring(fresh, out.text, "records.json")["can_take"]
    ask(fresh, "take")
    with other.server.test_request_context():
        assert len(athlete_data(visit_of("/", "").store, "B7").readings) == 2


def test_one_athlete_or_a_table_goes_out(client, store):
    store.new_athlete("D4", Hand("t"))
    bring(client, CSV)
    ask(client, "take")
    alone = json.loads(client.get(f"{OUT}/records.json?athlete=D4").text)
    assert [one["code"] for one in alone["athletes"]] == ["D4"]
    assert client.get(f"{OUT}/readings.csv").text.count("B7,2026-01-10") == 2
    assert client.get(f"{OUT}/sessions.csv?athlete=D4").text.count("\n") == 1


def test_what_is_not_there_is_not_sent(client):
    assert client.get(f"{OUT}/readings.csv?athlete=nobody").status_code == 404
    assert client.get(f"{OUT}/passwords").status_code == 404


def test_a_code_like_a_tag_gives_a_plain_file_name(client, store):
    store.new_athlete("<a>/x", Hand("t"))
    name = client.get(f"{OUT}/records.json", query_string={"athlete": "<a>/x"}).headers["Content-Disposition"]
    assert "-a--x" in name


def test_the_same_code_here_and_there_asks_whether_it_is_the_same_athlete(client, store):
    store.new_athlete("B7", Hand("t"))
    other = create_app(Config()).server.test_client()
    bring(other, CSV)
    ask(other, "take")
    document = other.get(f"{OUT}/records.json").text
    answer = bring(client, document, "b.json")
    assert "B7: not taken, the code B7 is another athlete’s here" in answer["html"]
    assert "B7 of the file is the same athlete as here" in answer["html"]
    assert ask(client, "look", **{"same:B7": "yes"}).json["can_take"]
    assert ask(client, "look", **{"as:B7": "B8"}).json["can_take"]
    ask(client, "take")
    assert set(store.codes()) == {"B7", "B8"}


def test_more_than_the_cap_is_refused_and_a_body_over_the_pages_own_limit_is_not(client):
    head = "athlete,date,ball_mass_g,speed,remark\n"
    large = head + f"B7,2026-01-10,145,33,{'x' * 2000}\n" * 1500  # 3 MB: more than a page may send
    assert bring(client, large)["can_take"]
    told = {"CONTENT_LENGTH": str(LARGEST_BYTES + 2**20), "CONTENT_TYPE": "multipart/form-data; boundary=x"}
    answer = client.post("/records/in/bring", environ_overrides=told)
    assert answer.status_code == 413
    assert "200 MB" in answer.json["reason"]


def test_a_request_of_another_page_is_refused(client):
    answer = client.post("/records/in/take", data={"token": TOKEN}, headers={"Origin": "http://elsewhere.example"})
    assert answer.status_code == 403


@pytest.mark.parametrize("token", ["", "x", "../../etc", "a" * 99])
def test_a_token_of_another_shape_is_refused(client, token):
    assert client.post("/records/in/leave", data={"token": token}).status_code == 400


def test_a_desk_keeps_few_files_and_none_for_long():
    hours = [0.0]
    desk = Desk(lambda: hours[0] * 3600.0)
    for number in range(MOST + 2):
        hours[0] += 0.01
        desk.put(str(number), Brought("f", b""))
    assert desk.find("0") is None
    assert desk.find(str(MOST + 1)) is not None
    hours[0] += 1.1 * LONGEST_S / 3600.0
    desk.put("new", Brought("f", b""))
    assert desk.find(str(MOST + 1)) is None
    desk.tell("new", "Reading rows: 1 of 2")
    assert desk.progress("new") == "Reading rows: 1 of 2"
    desk.drop("new")
    assert (desk.find("new"), desk.progress("new")) == (None, "")
