"""The mix of what students are given: of one, with its minutes, of the whole studio, and what is mentioned at a lesson's beginning."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from cockpit.desk.lookup import next_of
from cockpit.desk.pieces.looking import GivenLately, LookingOver
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.assignments.last_lesson import LineKey, TaughtNotes
from cockpit.studio.changes.pieces import Piece, StrandLeft
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.breaks import days_off
from cockpit.studio.people.people import Student, StudentId
from cockpit.studio.pieces.given import GivenLine
from cockpit.studio.pieces.history import PieceTime, histories
from cockpit.studio.pieces.kept_alive import DuePiece, due_pieces
from cockpit.studio.pieces.mix import (
    WEEKS,
    GivenSoFar,
    LinePlace,
    Mix,
    StudioStrand,
    by_strand,
    mix_of,
)
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value

_DAY = timedelta(days=1)
_LOOKED_AT = WEEKS + 1  # a week begun is one of the mix


class StudentMix(Value):
    """The mix of one student on a date of the teacher's clock, and what is `left` of it.

    `unread` lessons are left out until their notes were read.
    """

    student: Student
    on: date
    mix: Mix
    left: tuple[StrandLeft, ...] = ()
    unread: int = 0


class StudioMix(Value):
    """The mix of all students who have a weekly time and were given something, strand by strand."""

    on: date
    students: int
    strands: tuple[StudioStrand, ...]


class MixAtLesson(Value):
    """What a lesson is told of the last weeks: the mix of the student, what became of the piece of each line in them, and what is due."""

    mix: Mix
    pieces: Mapping[LineKey, PieceTime]
    due: tuple[DuePiece, ...] = ()


class Mixing:
    """Looks at the mix, and leaves a strand of it for a season."""

    def __init__(
        self, looking: LookingOver, reading: Reading, steps: Steps, clock: Clock, preferences: Preferences
    ) -> None:
        self._looking = looking
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._preferences = preferences

    def of(self, student_id: StudentId) -> StudentMix:
        """The mix of a student at this moment, with the minutes of each line."""
        student, today = self._reading.people().students[student_id], self._today()
        look = self._looking.look_at_weeks(student_id, _LOOKED_AT)
        minutes = self._minutes(student, look.given, today)
        return StudentMix(
            student=student,
            on=today,
            mix=self._mix(student, look, today, minutes),
            left=tuple(each for each in self._reading.strands_left() if each.student_id == student_id),
            unread=self._looking.unread(student_id, _LOOKED_AT),
        )

    def at_lesson(self, student: Student) -> MixAtLesson | None:
        """The mix that is told at a student's lesson, and the pieces in it; None until all earlier notes were read."""
        if self._looking.unread(student.id, _LOOKED_AT):
            return None  # what was not read yet may have been given last week
        look = self._looking.look_at_weeks(student.id, _LOOKED_AT)
        # Of a piece that was given for longer the first tempo stands beside the last, as on the page.
        given = self._looking.given(student.id, {each.read.piece for each in look.given})
        said = {each.key: each for each in self._reading.pieces_said(student.id)}
        pieces, today = histories(given, said), self._today()
        return MixAtLesson(
            mix=self._mix(student, look, today, {}),
            pieces={(line.lesson_id, line.read.line): history.now for history in pieces for line in history.now.lines},
            due=due_pieces(pieces, self._preferences.pieces.gaps, today),
        )

    def studio(self) -> StudioMix:
        """The mix of all students who have a weekly time and were given something."""
        today, people = self._today(), self._reading.people()
        ids = {each.student_id for each in self._reading.standing_times(today)}
        looks = {each: self._looking.look_at_weeks(each, _LOOKED_AT) for each in people.students if each in ids}
        students = [people.students[student_id] for student_id, look in looks.items() if look.areas]
        names = [each.name for each in students]
        mixes = {
            each.name
            if names.count(each.name) == 1
            else f"{each.name} ({people.families[each.family_id].name})": self._mix(each, looks[each.id], today, {})
            for each in students
        }
        return StudioMix(on=today, students=len(students), strands=by_strand(mixes, self._preferences.pieces.mix))

    def leave(self, student_id: StudentId, name: str) -> str:
        """Leaves an area or a strand of a student through the last day of this term; returns a sentence.

        Raises:
            Refused: it is left so already, or the student is not taught it at all.
        """
        today = self._today()
        until_on = self._preferences.policies.on(today).next_term(today) - _DAY
        before = next(
            (each for each in self._reading.strands_left() if (each.student_id, each.strand) == (student_id, name)),
            None,
        )
        after = StrandLeft(student_id=student_id, strand=name, until_on=until_on)
        student = self._reading.people().students[student_id].name
        if before is not None and before.until_on is None:
            raise Refused(
                f'{student} is not taught {name}. "with {name}" in the details (d in the queue) takes that back.'
            )
        if before == after:
            raise Refused("That is so already.")
        self._steps.take(f"leaving {name} for {student}", Edit(before=before, after=after))
        return f"{name[:1].upper()}{name[1:]} is not mentioned for {student} through {long_date(until_on)}."

    def _today(self) -> date:
        return self._preferences.home.date_of(self._clock.now())

    def _mix(self, student: Student, look: GivenLately, today: date, minutes: Mapping[LinePlace, int]) -> Mix:
        so_far = given_so_far(self._reading, student, look, today, minutes)
        return mix_of(so_far, today, self._preferences.pieces.mix)

    def _minutes(self, student: Student, given: Sequence[GivenLine], today: date) -> dict[LinePlace, int]:
        """The minutes of the lines of the last eight weeks, each over the days to the next lesson."""
        from cockpit.studio.pieces.week_minutes import week_minutes  # 10 ms with plans, which no lesson waits for

        days = {each.lesson_id: each.on for each in given if (today - each.on).days < WEEKS * 7}
        notes, places = self._reading.notes(days), {}
        for lesson_id, on in ((each, on) for each, on in days.items() if each in notes):
            lines = TaughtNotes(
                lesson_id=lesson_id,
                taught_on=on,
                body=notes[lesson_id].body,
                minutes=0,
                labels=self._preferences.labels,
            ).given
            following = min((other for other in days.values() if other > on), default=None) or self._next(student)
            found = week_minutes(lines, student, (on, following), self._preferences.practice)
            for line in (each for each in given if each.lesson_id == lesson_id):
                if line.read.line in found:
                    places[lesson_id, line.read.place] = found[line.read.line]
        return places

    def _next(self, student: Student) -> date | None:
        following = next_of(self._reading, student.id, self._clock.now(), self._preferences.home)
        return self._preferences.home.date_of(following.lesson.starts_at) if following is not None else None


def given_so_far(
    reading: Reading,
    student: Student,
    look: GivenLately,
    today: date,
    minutes: Mapping[LinePlace, int],
) -> GivenSoFar:
    """What the mix of a student is made of, from a look at what was given."""
    said: dict[str, Piece] = {each.key: each for each in reading.pieces_said(student.id)}
    return GivenSoFar(
        lines=look.given,
        said=said,
        minutes=minutes,
        first_on=look.first_on,
        last_on=look.areas,
        off=days_off(reading.breaks(look.first_on or today), student, today),
        left=tuple(each for each in reading.strands_left() if each.student_id == student.id),
    )
