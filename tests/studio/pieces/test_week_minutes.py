"""The minutes of a lesson's assignments over the days to the next one."""

from datetime import date

from support.studio import ILSE

from cockpit.studio.notes.notes import Line, read_notes
from cockpit.studio.pieces.week_minutes import week_minutes
from cockpit.studio.practice.rules import PracticeRules
from cockpit.studio.values import replace

LESSONS = (date(2026, 11, 24), date(2026, 12, 1))  # Tuesdays: Wednesday to Monday are six practice days
TWENTY = replace(ILSE, daily_minutes=20, practice_days=None)


def minutes(body, student=TWENTY, days=LESSONS):
    lines = [each for each in read_notes(body) if each.line is Line.ASSIGNMENT]
    found = week_minutes(lines, student, days, PracticeRules())
    return {line.split(":")[0]: count for line, count in found.items()}


def test_typed_minutes_are_kept_and_the_rest_of_the_day_is_shared():  # computed by hand: 120 minutes, 25.0, 50.0, 25.0 %
    found = minutes("Scales: D major, 5 min\nPiece: Gavotte, 10 min\nEar: sing it")
    assert found == {"Scales": 30, "Piece": 60, "Ear": 30}
    assert [100 * each / sum(found.values()) for each in found.values()] == [25, 50, 25]


def test_without_daily_minutes_typed_ones_count_by_practice_days():
    nobody = replace(TWENTY, daily_minutes=None)
    assert minutes("Scales: D major, 5 min\nEar: sing it", nobody) == {"Scales": 30}
    assert minutes("Scales: D major, 5 min", replace(nobody, practice_days=frozenset({2, 3}))) == {"Scales": 10}


def test_without_a_next_lesson_it_is_a_week():
    assert minutes("Scales: D major, 5 min", days=(LESSONS[0], None)) == {"Scales": 30}


def test_two_lessons_on_following_days_leave_no_minutes():
    assert minutes("Scales: D major, 5 min", days=(LESSONS[0], date(2026, 11, 25))) == {}
