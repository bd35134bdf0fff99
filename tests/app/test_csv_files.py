"""Tables of text: read strictly, told in words what is wrong, written whole or not at all."""

import csv
import io
import os
import stat
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import csv_files
from app.csv_files import (
    TableError,
    check_columns,
    check_file_name,
    csv_line,
    harmless,
    number_in,
    parse_table,
    read_bytes,
    written_whole,
)
from model.checks import InputError, Limit

SPEED = Limit(1.0, 60.0, "m/s")
STATURE = Limit(0.9, 2.3, "m")


def test_a_plain_table_is_read_as_it_stands() -> None:
    table = parse_table(b"b, a \n1, x\n\n2,\n")
    assert table.columns == ("b", "a")
    assert table.rows == [["1", " x"], ["2", ""]]
    assert table.problems == {}
    assert not table.marked


def test_a_byte_order_mark_is_no_part_of_the_first_name() -> None:
    table = parse_table(b"\xef\xbb\xbfname\nJos\xc3\xa9\n")
    assert table.columns == ("name",)
    assert table.rows == [["José"]]
    assert table.marked


def test_a_table_of_more_columns_than_any_table_has_is_refused_at_its_first_line() -> None:
    line = b",".join(b"c%d" % number for number in range(1001))
    with pytest.raises(TableError, match=r"^1001 columns given; accepted: up to 1000$"):
        parse_table(line + b"\n" + b"not 'a table\n" * 3)
    assert len(parse_table(line.rpartition(b",")[0] + b"\n").columns) == 1000


@pytest.mark.parametrize("end", [b"\n", b"\r\n", b"\r"])
def test_any_kind_of_line_end_is_read(end: bytes) -> None:
    assert parse_table(end.join([b"a,b", b"1,2", b""])).rows == [["1", "2"]]


def test_quoted_values_hold_commas_quotes_and_line_ends() -> None:
    assert parse_table(b'a,b\n"1,5","say ""hi""\nthere"\n').rows == [["1,5", 'say "hi"\nthere']]


def test_a_row_of_the_wrong_length_is_kept_with_its_reason() -> None:
    table = parse_table(b"a,b\n1\n1,2\n28,5,3\n")
    assert table.rows == [["1", ""], ["1", "2"], ["28", "5"]]
    assert table.problems[0] == "row: 1 values given; accepted: 2, one for each column"
    assert table.problems[2].endswith("with a decimal point, not a comma; left over: '3'")
    assert set(table.problems) == {0, 2}


def test_a_table_may_have_no_rows() -> None:
    assert parse_table(b"a,b\n").rows == []


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "the file is empty"),
        (b"\xef\xbb\xbf", "the file is empty"),
        (b"\n\n", "the file is empty"),
        (b"a,b\n1,\xff\n", "line 2: not UTF-8"),
        ("a,b\n".encode("utf-16"), "UTF-16"),
        (b"a,b\n1,\x00\n", "line 2: a zero byte"),
        (b'a,b\n1,"2\n3,4\n', "a quoted value that does not end"),
        (b'a,b\n1,"2"3\n', "line 2: quotes that cannot be understood"),
        (b"a,b,a\n1,2,3\n", "columns given twice: a"),
        (b"a;b;c\n1;2;3\n", "semicolons"),
    ],
)
def test_what_is_no_table_is_refused_in_words(data: bytes, words: str) -> None:
    with pytest.raises(TableError, match=words.replace("?", r"\?")):
        parse_table(data)


def test_a_value_of_ten_megabytes_is_a_value_like_any_other() -> None:
    usual = csv.field_size_limit()
    table = parse_table(b"a,b\n" + b"9" * 10_000_000 + b",1\n2,3\n")
    assert [row[1] for row in table.rows] == ["1", "3"]
    assert len(table.rows[0][0]) == 10_000_000
    assert csv.field_size_limit() == usual
    with pytest.raises(InputError, match=r"\.\.\. given; accepted: 1 to 60 m/s"):
        number_in(table.rows[0][0], "speed_m_s", SPEED, "m/s")


@pytest.mark.parametrize("name", ["", "  "])
def test_an_option_without_a_files_name_is_refused(name: str) -> None:
    with pytest.raises(InputError, match=r"--output: .* given; accepted: a file's name, or - for standard output"):
        check_file_name("--output", name, "standard output")
    with pytest.raises(InputError, match=r"--segments: .* given; accepted: a file's name$"):
        check_file_name("--segments", "-")


def test_a_file_that_cannot_be_written_is_named_as_it_was_asked_for(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="nowhere") as refused, written_whole(tmp_path / "nowhere" / "a.csv"):
        pass
    assert refused.value.filename == str(tmp_path / "nowhere" / "a.csv")


def test_columns_without_a_name_are_no_columns_given_twice() -> None:
    assert parse_table(b"a,,\n1,2,3\n").columns == ("a", "", "")


def test_too_many_rows_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(csv_files, "LARGEST_ROWS", 2)
    assert len(parse_table(b"a\n1\n2\n").rows) == 2
    with pytest.raises(TableError, match="more than 2 rows"):
        parse_table(b"a\n1\n2\n3\n")


def test_too_large_a_file_is_refused(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(csv_files, "LARGEST_BYTES", 4)
    path = tmp_path / "throws.csv"
    path.write_bytes(b"a\n1\n")
    assert read_bytes(path) == b"a\n1\n"
    path.write_bytes(b"a\n12\n")
    with pytest.raises(TableError, match="more than 0 MB"):
        read_bytes(path)


def test_a_file_that_is_not_there_and_a_folder_are_refused(tmp_path: Path) -> None:
    with pytest.raises(TableError, match="no such file"):
        read_bytes(tmp_path / "none.csv")
    with pytest.raises(TableError, match=r"folder|cannot be read"):
        read_bytes(tmp_path)


def test_missing_columns_are_named_with_those_that_differ_in_capitals() -> None:
    table = parse_table(b"Sex,age\nmale,3\n")
    check_columns(table, ["age"])
    with pytest.raises(TableError, match=r"columns missing: sex, athlete \(given, but spelt otherwise: Sex\)"):
        check_columns(table, ["sex", "age", "athlete"])


# -- numbers -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("cell", ["28.5", " 28.5 ", "+28.5", "2.85e1", "28.50"])
def test_a_plain_number_is_read(cell: str) -> None:
    assert number_in(cell, "speed_m_s", SPEED, "m/s") == 28.5


def test_a_number_is_turned_into_si_and_the_ends_of_the_range_are_accepted() -> None:
    assert number_in("188", "stature_cm", STATURE, "cm") == 1.88
    assert number_in("90", "stature_cm", STATURE, "cm") == 0.9
    assert number_in("230", "stature_cm", STATURE, "cm") == 2.3


@pytest.mark.parametrize(
    "cell", ["", "nan", "inf", "1_0", "0x1F", "१२", "5 m/s", "1e999", "--5", "5..0", "0.99", "60.01"]
)
def test_anything_else_is_refused_with_the_range_in_the_columns_unit(cell: str) -> None:
    with pytest.raises(InputError) as refusal:
        number_in(cell, "speed_m_s", SPEED, "m/s")
    assert str(refusal.value) == f"speed_m_s: {cell!r} given; accepted: 1 to 60 m/s"


def test_a_decimal_comma_is_refused_with_a_hint() -> None:
    with pytest.raises(InputError, match=r"'188,5' given; accepted: 90 to 230 cm, with a decimal point, not a comma"):
        number_in("188,5", "stature_cm", STATURE, "cm")


# -- writing -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("cell", ["=1+1", "+cmd", "-x", "@sum", "\tx", "\rx", "-", "=", "+1+1"])
def test_a_text_that_looks_like_a_formula_gets_an_apostrophe(cell: str) -> None:
    assert harmless(cell) == "'" + cell


@pytest.mark.parametrize("cell", ["", "x", "-5", "+5.5", "-1e3", "'=1", "a=b", "W-01"])
def test_numbers_and_other_texts_stay_as_they_are(cell: str) -> None:
    assert harmless(cell) == cell


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00")), min_size=2))
def test_a_written_line_reads_back_as_its_harmless_texts(cells: list[str]) -> None:
    """Oracle: Python's csv reader."""
    read = list(csv.reader(io.StringIO(csv_line(cells) + "\n", newline=""), strict=True))
    assert read == [[harmless(cell) for cell in cells]]


def test_a_file_appears_when_it_is_whole(tmp_path: Path) -> None:
    path = tmp_path / "out.csv"
    with written_whole(path) as file:
        file.write("a\n")
        assert not path.exists()
    assert path.read_bytes() == b"a\n"
    assert list(tmp_path.iterdir()) == [path]


def test_after_a_failure_the_old_file_is_still_there(tmp_path: Path) -> None:
    path = tmp_path / "out.csv"
    path.write_text("old")

    def fail() -> None:
        with written_whole(path) as file:
            file.write("half of it")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        fail()
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.skipif(sys.platform == "win32", reason="no such rights on Windows")
def test_rights_and_links_of_the_old_file_are_kept(tmp_path: Path) -> None:
    path, link = tmp_path / "out.csv", tmp_path / "link.csv"
    path.write_text("old")
    path.chmod(0o640)
    link.symlink_to(path)
    with written_whole(link) as file:
        file.write("new")
    assert link.is_symlink()
    assert path.read_text() == "new"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.skipif(sys.platform == "win32", reason="no /dev/null on Windows")
def test_a_device_is_written_to_and_not_replaced() -> None:
    with written_whole(Path(os.devnull)) as file:
        file.write("away")
    assert stat.S_ISCHR(Path(os.devnull).stat().st_mode)
