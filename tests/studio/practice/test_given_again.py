"""What earlier lessons tell of an assignment that is given again."""

from datetime import date

import pytest

from cockpit.studio.assignments.last_lesson import TaughtNotes
from cockpit.studio.changes.records import Heard, MarkSet
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Line, Mark, read_notes
from cockpit.studio.practice.given_again import Earlier, has_health_line, practice_days_passed, tempos_heard
from cockpit.studio.practice.rules import EVERY_DAY, HealthLine

LESSON_ON = date(2026, 12, 1)
NOVEMBER_24, NOVEMBER_17, NOVEMBER_10 = (date(2026, 11, day) for day in (24, 17, 10))
GAVOTTE = "Piece: Gavotte, mm. 1-8, q = 72"


def id_of(on):
    return LessonId(f"w1-{on}")


def earlier(*lessons, heard=(), marks=()):
    """Lessons as (date, notes), the newest first; what was heard as (date, line, tempo), marks as (date, line, mark)."""
    return Earlier(
        taught=[TaughtNotes(lesson_id=id_of(on), taught_on=on, body=body, minutes=45) for on, body in lessons],
        heard={(id_of(on), line): Heard(lesson_id=id_of(on), line=line, tempo=tempo) for on, line, tempo in heard},
        marks={(id_of(on), line): MarkSet(lesson_id=id_of(on), line=line, mark=mark) for on, line, mark in marks},
    )


def lines(body):
    return [line for line in read_notes(body) if line.line is Line.ASSIGNMENT]


def test_the_tempo_heard_last_week_is_known_of_the_same_assignment_at_another_tempo():
    known = earlier((NOVEMBER_24, GAVOTTE), heard=[(NOVEMBER_24, GAVOTTE, 66)])
    again = "Piece: Gavotte, mm. 1-8, q = 88, 5 min"
    assert tempos_heard(lines(f"{again}\nPiece: Minuet, q = 60"), known) == {again: 66}


def test_of_two_tempos_the_later_one_counts_and_a_week_without_one_hides_nothing():
    known = earlier(
        (NOVEMBER_24, GAVOTTE),
        (NOVEMBER_17, GAVOTTE),
        (NOVEMBER_10, GAVOTTE),
        heard=[(NOVEMBER_24, GAVOTTE, None), (NOVEMBER_17, GAVOTTE, 66), (NOVEMBER_10, GAVOTTE, 50)],
    )
    assert tempos_heard(lines(GAVOTTE), known) == {GAVOTTE: 66}


@pytest.mark.parametrize(
    ("then", "heard_at", "now", "known"),
    [
        ("Scales: D major, h = 44", 40, "Scales: D major, q = 96", 80),  # a half is two quarters
        ("Scales: D major, q = 96", 80, "Scales: D major, h = 44", 40),
        ("Scales: D major", 80, "Scales: D major, q = 96", 80),  # without a mark it is taken for quarters
        ("Scales: D major, q. = 60", 50, "Scales: D major, q = 96", 75),  # three eighths for every two
    ],
)
def test_a_tempo_is_known_in_the_beat_that_is_asked_for_now(then, heard_at, now, known):
    told = earlier((NOVEMBER_24, then), heard=[(NOVEMBER_24, then, heard_at)])
    assert tempos_heard(lines(now), told) == {now: known}


def test_what_asks_for_no_tempo_has_none_and_neither_has_another_passage():
    known = earlier((NOVEMBER_24, GAVOTTE), heard=[(NOVEMBER_24, GAVOTTE, 66)])
    assert tempos_heard(lines("Piece: Gavotte, mm. 1-8\nPiece: Gavotte, mm. 9-16, q = 72"), known) == {}


SCALES = "Scales: D major 2 oct, q=72 to 100"


@pytest.mark.parametrize("now", ["q=60 to 92", "q=60 to 112", "q=80 to 120", "h=30 to 50"])
def test_a_start_that_is_typed_anew_wins_over_what_was_heard_before(now):
    known = earlier((NOVEMBER_24, SCALES), heard=[(NOVEMBER_24, SCALES, 100)])
    assert tempos_heard(lines(f"Scales: D major 2 oct, {now}"), known) == {}


@pytest.mark.parametrize("now", [SCALES, "Scales: D major 2 oct, h=36 to 60", "Scales: D major 2 oct, q=112"])
def test_what_was_heard_counts_where_the_start_is_still_the_one_it_was_given_with_or_none_is_typed(now):
    known = earlier((NOVEMBER_24, SCALES), heard=[(NOVEMBER_24, SCALES, 84)])
    assert tempos_heard(lines(now), known) == {now: 42 if "h=" in now else 84}


def test_a_start_that_was_typed_after_the_hearing_is_as_good_a_week_later():
    again = "Scales: D major 2 oct, q=60 to 100"
    known = earlier((NOVEMBER_24, again), (NOVEMBER_17, SCALES), heard=[(NOVEMBER_17, SCALES, 84)])
    assert tempos_heard(lines(again), known) == {}
    assert tempos_heard(lines(SCALES), known) == {}
    assert tempos_heard(lines("Scales: D major 2 oct, q=100"), known) == {"Scales: D major 2 oct, q=100": 84}


@pytest.mark.parametrize(
    ("mark", "marked_on", "is_heard"),
    [
        (Mark.DONE, NOVEMBER_17, False),
        (Mark.DROPPED, NOVEMBER_24, False),
        (Mark.MORE_WORK, NOVEMBER_24, True),
        (Mark.DONE, NOVEMBER_10, True),  # before it was heard
    ],
)
def test_once_it_was_done_or_dropped_the_typed_start_wins_though_it_is_the_same(mark, marked_on, is_heard):
    known = earlier(
        (NOVEMBER_24, SCALES),
        (NOVEMBER_17, SCALES),
        (NOVEMBER_10, SCALES),
        heard=[(NOVEMBER_17, SCALES, 84)],
        marks=[(marked_on, SCALES, mark)],
    )
    assert tempos_heard(lines(SCALES), known) == ({SCALES: 84} if is_heard else {})


OLD_MILL = "Review: The Old Mill"


@pytest.mark.parametrize(
    ("given_on", "weekdays", "passed"),
    [
        ([NOVEMBER_24], EVERY_DAY, 6),
        ([NOVEMBER_24, NOVEMBER_17], EVERY_DAY, 12),  # the lesson between is no practice day
        ([NOVEMBER_24, NOVEMBER_10], EVERY_DAY, 19),  # no lesson on 17 November
        ([NOVEMBER_24], frozenset({0, 2, 4}), 3),
        ([], EVERY_DAY, None),
    ],
)
def test_the_practice_days_since_a_review_piece_was_first_given_are_counted(given_on, weekdays, passed):
    known = earlier(*((on, f"{OLD_MILL}, 3 min") for on in given_on))
    found = practice_days_passed(lines(f"{OLD_MILL}\nPiece: The Old Mill"), known, LESSON_ON, weekdays)
    assert found == ({OLD_MILL: passed} if passed is not None else {})


def test_a_review_piece_that_was_done_and_is_given_again_begins_anew():
    weeks = [(NOVEMBER_24, OLD_MILL), (NOVEMBER_17, OLD_MILL), (NOVEMBER_10, OLD_MILL)]
    still = earlier(*weeks, marks=[(NOVEMBER_17, OLD_MILL, Mark.MORE_WORK)])
    assert practice_days_passed(lines(OLD_MILL), still, LESSON_ON, EVERY_DAY) == {OLD_MILL: 18}
    done = earlier(*weeks, marks=[(NOVEMBER_17, OLD_MILL, Mark.DONE)])
    assert practice_days_passed(lines(OLD_MILL), done, LESSON_ON, EVERY_DAY) == {OLD_MILL: 6}


@pytest.mark.parametrize(
    ("wanted", "before", "is_there"),
    [
        (HealthLine.MONTHLY, [], True),
        (HealthLine.MONTHLY, [date(2026, 11, 24)], True),
        (HealthLine.MONTHLY, [date(2025, 12, 2)], True),
        (HealthLine.MONTHLY, [date(2026, 12, 1), date(2026, 11, 24)], False),
        (HealthLine.ALWAYS, [date(2026, 12, 1)], True),
        (HealthLine.NEVER, [], False),
    ],
)
def test_the_health_line_is_on_the_first_sheet_of_a_month(wanted, before, is_there):
    taught = [
        TaughtNotes(lesson_id=LessonId(str(on)), taught_on=on, body="Piece: Gavotte", minutes=45) for on in before
    ]
    assert has_health_line(wanted, date(2026, 12, 8), Earlier(taught=taught, marks={}, heard={})) == is_there


def test_a_lesson_without_notes_had_no_sheet():
    bare = TaughtNotes(lesson_id=LessonId("w1"), taught_on=date(2026, 12, 1), body="  \n", minutes=45)
    assert has_health_line(HealthLine.MONTHLY, date(2026, 12, 8), Earlier(taught=[bare], marks={}, heard={}))
