"""How much of a plan stands on its printed sheet: one page for the steps, one for the sessions. Pure."""

from math import ceil

from app.pages.buildup.course import Course
from app.pages.buildup.words import pace_words
from app.show.cautions import is_growing

STEP_ROWS = 23  # rows of steps below the figures, and of what they break, that the first page holds
GROWING_ROWS = 4  # that the words above them take where the thrower is still growing
TARGET_ROWS = 2  # and where there is a target day
PACE_ROWS = 2  # and where weeks go on by more steps than the soreness rules do
FIRST_ROWS = 3  # and where limits came over from Start
FLAG_ROWS = 3  # and for each stop sign
NEXT_ROWS = 2  # and where pain is open or later sessions wait
COLUMN_ROWS = 20  # rows of a column, where they stand in columns
SESSION_ROWS = 42  # rows that can be written in, that the second page holds
PAST_ROWS = 12  # of them for sessions that were thrown


def _word_rows(course: Course) -> int:
    """Rows that the words above take beyond those that every plan has."""
    record = course.record
    rows = GROWING_ROWS * is_growing(record.person) + TARGET_ROWS * (record.calendar.target_day is not None)
    rows += FIRST_ROWS * (record.first is not None) + FLAG_ROWS * len(course.signs)
    rows += NEXT_ROWS * (course.standing.most is not None or course.waits) + len(record.notes)
    return rows + PACE_ROWS * bool(pace_words(course))


def columns(course: Course) -> int:
    """In how many columns the steps stand on paper: more than one where they, and the limits they break, are many."""
    steps = len(course.record.throws)
    if steps + len(course.breaches) + _word_rows(course) <= STEP_ROWS:
        return 1
    return 2 if steps <= 2 * COLUMN_ROWS else 3


def step_rows(course: Course) -> int:
    """How many rows the steps take on paper."""
    count = columns(course)
    return len(course.record.throws) + len(course.breaches) if count == 1 else ceil(len(course.record.throws) / count)


def figure_rows(course: Course) -> int:
    """How many rows the figures leave room for; the words are the longest where steps are many."""
    return STEP_ROWS if columns(course) == 3 else step_rows(course) + _word_rows(course)


def rows_on_paper(course: Course) -> tuple[int, int]:
    """How many of the sessions thrown, and of those to come, stand on paper; what one breaks takes a row more."""
    done, left = len(course.record.log), len(course.schedule.sessions)
    past = min(done, max(PAST_ROWS, SESSION_ROWS - left))
    broken = {one.session for one in course.session_breaches}
    rows = past
    for i in range(left):
        rows += 1 + (i in broken)
        if rows > SESSION_ROWS:
            return past, i
    return past, left
