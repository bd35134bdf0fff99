"""The result columns: one name for each, and each explained in the help."""

import re

import pytest

from app.commands import readout_columns
from app.commands.readout_columns import FIRST, MAIN, QUANTITIES, columns_of, quantities_in_words, result_names
from app.main import main
from model.channels import CHANNELS, READINGS

FIRST_COLUMNS, OTHERS = columns_of(above=True, every=True)
EVERY = [column.name for column in FIRST_COLUMNS + OTHERS]


def test_no_name_is_given_twice() -> None:
    assert len(set(EVERY)) == len(EVERY)
    assert len(set(QUANTITIES.values())) == len(READINGS)


def test_the_first_columns_are_those_of_the_file_format() -> None:
    assert tuple(column.name for column in FIRST_COLUMNS) == FIRST


def test_every_quantity_has_every_readout_that_makes_sense_for_it() -> None:
    for key, reading in READINGS.items():
        names = [column.name for column in FIRST_COLUMNS + OTHERS if column.key == key]
        torque = reading.unit == "N·m"
        turning = CHANNELS[reading.channel].turns is not None
        assert len(names) == 7 + 2 * torque + 2 * turning, key


def test_all_names_of_results_are_known_beforehand() -> None:
    for above in (False, True):
        for every in (False, True):
            first, others = columns_of(above=above, every=every)
            assert {column.name for column in first + others} < result_names()
    assert "error" in result_names()


def documented() -> list[re.Pattern[str]]:
    """What the table in the docstring says, as patterns for names."""
    quantity = f"(?:{'|'.join(sorted(QUANTITIES.values(), key=len, reverse=True))})"
    patterns = []
    for line in (readout_columns.__doc__ or "").splitlines():
        row = re.match(r"  (\S*\{quantity\}\S*?)(?:, (_\S+))?  ", line)
        if row:
            name, other = row.groups()
            names = [name] if other is None else [name, name[: name.rindex("_" + "nm")] + other]
            for each in names:
                patterns.append(
                    re.compile(each.replace("{quantity}_", f"(?:{quantity}_)?").replace("{quantity}", quantity))
                )
    return patterns


def test_every_column_is_explained_in_the_docstrings_table_and_every_line_of_it_is_used() -> None:
    patterns = documented()
    for name in EVERY:
        assert any(pattern.fullmatch(name) for pattern in patterns), name
    for pattern in patterns:
        assert any(pattern.fullmatch(name) for name in EVERY), pattern.pattern


def test_the_help_shows_the_table_and_every_quantity(capsys: pytest.CaptureFixture) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["readouts", "--help"])
    assert ended.value.code == 0
    text = capsys.readouterr().out
    assert (readout_columns.__doc__ or "").strip() in text
    for key, quantity in QUANTITIES.items():
        assert re.search(rf"  {quantity} +{re.escape(READINGS[key].label)}", text), key
    assert quantities_in_words().index("with --all") > quantities_in_words().index(QUANTITIES[MAIN[-1]])
