"""Plain cells: rows that are made by the first text, and emptied ones."""

from app.bind.cells import cell_html, keep_cells
from app.bind.visit import visit_of


def readings(code: str = "W01"):
    return visit_of("/athlete", f"?athlete={code}").data.readings


def cell(visit, text: str, row: str = "", line: str = "x/1", column: str = "speed_m_s", n: int = 1, **more):
    ball = next(iter(visit.team.balls)).uid
    made = {"n": n, "path": f"reading.{column}", "of": visit.owner, "row": row, "line": line, "units": "metric"}
    return made | {"new": {"ball": ball}, "text": text, "sent": 10 * n} | more


def kept(here, visit, *cells, monkeypatch):
    monkeypatch.setattr("app.bind.edit.set_props", lambda *_: None)
    return keep_cells({"edits": list(cells)}, here, {visit.owner: visit.data.version})["told"]


def test_the_first_text_of_a_line_makes_its_row_and_the_others_go_there(visit, here, monkeypatch):
    before = len(readings())
    told = kept(
        here, visit, cell(visit, "30.1"), cell(visit, "90", column="asked_effort", n=2), monkeypatch=monkeypatch
    )
    assert len(readings()) == before + 1
    assert {one["row"] for one in told} == {told[0]["row"]}
    made = next(one for one in readings() if one.uid == told[0]["row"])
    assert (made.speed_m_s, made.asked_effort, made.day) == (30.1, 0.9, visit.today)


def test_what_is_sent_twice_is_kept_once(visit, here, monkeypatch):
    (first,) = kept(here, visit, cell(visit, "30.1"), monkeypatch=monkeypatch)
    before = len(readings())
    kept(here, visit, cell(visit, "30.1", row=first["row"]), monkeypatch=monkeypatch)
    assert len(readings()) == before


def test_a_new_row_that_is_sent_again_before_the_answer_is_made_once(visit, here, monkeypatch):
    before = len(readings())
    first = cell(visit, "30.1")
    (told,) = kept(here, visit, first, monkeypatch=monkeypatch)
    again = kept(here, visit, first, cell(visit, "31.4", line="x/2", n=2), monkeypatch=monkeypatch)
    assert again[0]["row"] == told["row"]
    assert len(readings()) == before + 2
    kept(here, visit, cell(visit, "", emptied="remove", n=3), monkeypatch=monkeypatch)  # its row not yet known
    assert [one.speed_m_s for one in readings()[before:]] == [31.4]
    (told,) = kept(here, visit, cell(visit, "", line="x/9", emptied="remove", n=4), monkeypatch=monkeypatch)
    assert told["message"] == ""
    assert len(readings()) == before + 1


def test_a_refused_text_is_told_of_its_own_cell(visit, here, monkeypatch):
    (told,) = kept(here, visit, cell(visit, "300"), monkeypatch=monkeypatch)
    assert told["message"].startswith("Reading: “300” given; accepted: ")
    assert told["row"]


def test_an_emptied_reading_is_taken_out(visit, here, monkeypatch):
    row = readings()[0].uid
    kept(here, visit, cell(visit, " ", row=row, emptied="remove"), monkeypatch=monkeypatch)
    assert row not in [one.uid for one in readings()]


def test_whatever_is_in_a_cell_is_escaped():
    made = cell_html("reading.speed_m_s", '"><b>', "<i>", of="a", row="", line="l", units="metric", new='{"a": "b"}')
    assert "<b>" not in made
    assert "<i>" not in made
    assert 'data-new="{&quot;a&quot;: &quot;b&quot;}"' in made
