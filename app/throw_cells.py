"""A throw written as text, in a table or on the command line -> the model's throw; every problem named at once."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from operator import itemgetter
from typing import Any

from app.csv_files import number_in
from app.show.form_fields import CHOICES, LENGTHS, MEASURES, THROW_FIELDS, Field
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.checks import InputError, check_choice
from model.person import Person
from model.throw import Throw

PERSON_COLUMNS = (*CHOICES, *(field.name for field in MEASURES + LENGTHS))
BALL_COLUMNS = tuple(field.name for field in THROW_FIELDS if field.name != "speed_m_s")
(SPEED_FIELD,) = (field for field in THROW_FIELDS if field.name == "speed_m_s")

NEEDED_COLUMNS = ("athlete", "sex", *(field.name for field in MEASURES + THROW_FIELDS))
OPTIONAL_COLUMNS = ("handedness", *(field.name for field in LENGTHS))

DEFAULTS = {"handedness": "right", "ball_diameter_mm": f"{1000 * DEFAULT_DIAMETER_M:g}"}
"""What stands for an empty cell."""


class ThrowError(ValueError):
    """A throw that cannot be made; the text names each column, what it holds and what is accepted."""

    def __init__(self, problems: Iterable[InputError]) -> None:
        self.problems = tuple(problems)
        super().__init__(" | ".join(str(problem) for problem in self.problems))


class ThrowReader:
    """Makes throws of rows of text; a person, a ball or a speed met before is not read again.

    Parameters
    ----------
    columns : sequence of str
        What the values of a row are, in their order. A column that is not there counts as empty, one that is none of a
        throw's is passed over.
    """

    def __init__(self, columns: Sequence[str]) -> None:
        self._person = _Part(columns, PERSON_COLUMNS, _person_of)
        self._ball = _Part(columns, BALL_COLUMNS, _ball_of)
        self._speed = _Part(columns, (SPEED_FIELD.name,), _speed_of)

    def throw(self, row: Sequence[str]) -> Throw:
        """Make a throw.

        Parameters
        ----------
        row : sequence of str
            A text for each column, in the column's unit.

        Returns
        -------
        Throw

        Raises
        ------
        ThrowError
            With all that is wrong.
        """
        person, ball, speed_m_s = self._person.of(row), self._ball.of(row), self._speed.of(row)
        wrong = [part for part in (person, ball, speed_m_s) if isinstance(part, ThrowError)]
        if wrong:
            raise ThrowError(problem for part in wrong for problem in part.problems)
        return Throw(person, ball, speed_m_s)


class _Part:
    """One part of a throw, read from its columns and remembered by their text."""

    def __init__(
        self, columns: Sequence[str], names: Sequence[str], make: Callable[[Mapping[str, str], list[InputError]], Any]
    ) -> None:
        places = {name: columns.index(name) for name in names if name in columns}
        self._names = tuple(places)
        self._cells = itemgetter(*places.values()) if len(places) > 1 else lambda row: [row[i] for i in places.values()]
        self._make = make
        self._known: dict[tuple[str, ...], Any] = {}

    def of(self, row: Sequence[str]) -> Any:
        key = tuple(self._cells(row))
        found = self._known.get(key)
        if found is None:
            problems: list[InputError] = []
            cells = {name: text.strip() or DEFAULTS.get(name, "") for name, text in zip(self._names, key, strict=True)}
            made = self._make(DEFAULTS | cells, problems)
            found = self._known[key] = ThrowError(problems) if problems else made
        return found


def _person_of(cells: Mapping[str, str], problems: list[InputError]) -> Person | None:
    words: dict[str, str] = {}
    for name, choices in CHOICES.items():
        given = cells.get(name, "")
        try:
            words[name] = check_choice(name, given.lower(), choices)
        except InputError as error:
            problems.append(InputError(name, given, error.accepted))
    measures = _numbers_of(cells, MEASURES + LENGTHS, problems)
    return None if problems else Person(words["sex"], handedness=words["handedness"], **measures)


def _ball_of(cells: Mapping[str, str], problems: list[InputError]) -> Ball | None:
    numbers = _numbers_of(cells, [field for field in THROW_FIELDS if field.name in BALL_COLUMNS], problems)
    return None if problems else Ball(**numbers)


def _speed_of(cells: Mapping[str, str], problems: list[InputError]) -> float | None:
    return _numbers_of(cells, (SPEED_FIELD,), problems).get(SPEED_FIELD.model_name)


def _numbers_of(cells: Mapping[str, str], fields: Iterable[Field], problems: list[InputError]) -> dict[str, Any]:
    """Numbers in SI by the model's names; what is wrong is added to the problems."""
    numbers: dict[str, Any] = {}
    for field in fields:
        given = cells.get(field.name, "")
        if given or field.needed:
            try:
                numbers[field.model_name] = number_in(given, field.name, field.limit, field.unit)
            except InputError as error:
                problems.append(error)
    return numbers
