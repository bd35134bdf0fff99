"""A throw written as text, in a table or on the command line -> the model's throw; every problem named at once."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from operator import itemgetter
from typing import Any

from app.csv_files import number_in
from app.records.field_list import FIELDS, field_of
from app.records.fields import Field
from model.ball import DEFAULT_DIAMETER_M, Ball
from model.checks import InputError, check_choice
from model.person import HANDS, SEXES, Person
from model.throw import Throw

CHOICES = {"sex": SEXES, "handedness": HANDS}
"""Columns with a choice of words, and the words."""

MEASURES = {
    "age_years": FIELDS["measures.age_years"],
    "stature_cm": FIELDS["measures.stature_m"],
    "body_mass_kg": FIELDS["measures.body_mass_kg"],
}
LENGTHS = {f"{part}_length_cm": FIELDS[f"measures.{part}_length_m"] for part in ("upper_arm", "forearm", "hand")}
BALL = {"ball_mass_g": FIELDS["throw.mass_kg"], "ball_diameter_mm": FIELDS["throw.diameter_m"]}
SPEED = {"speed_m_s": field_of("throw.number", {"hold": "speed"})}
"""Columns of numbers in the unit of their field, by the parts of a throw; its speed is the release speed."""

NEEDED_COLUMNS = ("athlete", "sex", *MEASURES, *BALL, *SPEED)
OPTIONAL_COLUMNS = ("handedness", *LENGTHS)

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
        self._person = _Part(columns, (*CHOICES, *MEASURES, *LENGTHS), _person_of)
        self._ball = _Part(columns, (*BALL,), _ball_of)
        self._speed = _Part(columns, (*SPEED,), _speed_of)

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
    measures = _numbers_of(cells, MEASURES | LENGTHS, problems)
    return None if problems else Person(words["sex"], handedness=words["handedness"], **measures)


def _ball_of(cells: Mapping[str, str], problems: list[InputError]) -> Ball | None:
    numbers = _numbers_of(cells, BALL, problems)
    return None if problems else Ball(**numbers)


def _speed_of(cells: Mapping[str, str], problems: list[InputError]) -> float | None:
    return next(iter(_numbers_of(cells, SPEED, problems).values()), None)


def _numbers_of(cells: Mapping[str, str], fields: Mapping[str, Field], problems: list[InputError]) -> dict[str, Any]:
    """Numbers in SI by the model's names; what is wrong is added to the problems."""
    numbers: dict[str, Any] = {}
    for column, field in fields.items():
        given = cells.get(column, "")
        if given or column not in OPTIONAL_COLUMNS:
            try:
                numbers[field.name] = number_in(given, column, field.of, field.unit)
            except InputError as error:
                problems.append(error)
    return numbers
