"""Notes as they are typed, what was given before and how it went, and what the notes are completed from."""

from collections.abc import Mapping

from cockpit.desk.day.day import Day
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.post.paper_making import earlier_lessons
from cockpit.desk.steps import Steps
from cockpit.studio.assignments.carrying import carried_on
from cockpit.studio.assignments.last_lesson import GivenAssignment, Sheet, last_lesson
from cockpit.studio.changes.records import Change, Edit, Heard, MarkSet, Note
from cockpit.studio.clocks.words import counted
from cockpit.studio.completion.remembered import Remembered
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import MOST_SIGNS, Line, Mark, follow_ups
from cockpit.studio.notes.telling import mark_words, marks_of
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import replace

SLOWEST, FASTEST = 20, 400
_OWN = 60
_OF_OTHERS = 12


class NoteTaking:
    """Opens the sheet of a lesson, and saves what is typed on it at every change."""

    def __init__(self, day: Day, reading: Reading, steps: Steps, clock: Clock) -> None:
        self._day = day
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._owed: dict[LessonId, tuple[str, ...]] = {}
        self._room: dict[LessonId, int] = {}

    def sheet(self, booking: ScheduledLesson) -> Sheet:
        """What lies before the teacher for a lesson."""
        lesson = booking.lesson
        note = self._reading.notes([lesson.id]).get(lesson.id)
        body = note.body if note is not None else ""
        self._owed[lesson.id] = follow_ups(body)
        self._room[lesson.id] = max(MOST_SIGNS, len(body) + 1)  # the editor may begin on a line of its own
        preferences = self._day.preferences
        earlier = earlier_lessons(self._reading, lesson, preferences.home.zone, preferences.labels)
        last = last_lesson(earlier.taught, earlier.marks, earlier.heard)
        return Sheet(body=body, last=last, taught=earlier.taught)

    def check_place(self) -> None:
        """Makes sure that the studio is where it was opened.

        Raises:
            NotSaved: it was moved or deleted.
        """
        if self._steps.can_write:
            self._steps.writing.check_place()

    def write(self, lesson_id: LessonId, body: str) -> None:
        """Saves the text of a lesson.

        Raises:
            Refused: the lesson is finished, this program may only read, or the text is too long; a text that was too long
                when it was opened can be made shorter.
            NotSaved, StudioBusy: the disk refused, or another program holds the database.
        """
        booking = self._day.recorded(lesson_id)
        if not booking.lesson.takes_notes:
            raise Refused("This lesson is finished. Press Begin (F2) to reopen it.")
        if len(body) > self._room.get(lesson_id, MOST_SIGNS):
            raise Refused(
                f"Not saved. These notes have {len(body):,} characters. A lesson's notes can have {MOST_SIGNS:,}."
            )
        owed = follow_ups(body)
        note = Note(lesson_id=lesson_id, body=body, changed_at=self._clock.now())
        self._steps.writing.save_note(note, owed if owed != self._owed.get(lesson_id) else None)
        self._owed[lesson_id] = owed


class Hearing:
    """Keeps what is heard of an assignment; each a step that can be undone."""

    def __init__(self, reading: Reading, steps: Steps) -> None:
        self._reading = reading
        self._steps = steps

    def mark(self, given: GivenAssignment, mark: Mark | None) -> str:
        """Sets how an assignment went, or takes the mark away; returns a sentence.

        Raises:
            Refused: a thing to get has another mark than that it was got, or is not needed; a goal than that it is met, or dropped.
        """
        lesson_id, line = given.place
        if mark is not None and mark not in marks_of(given.line):
            raise _refused(given)
        before = self._reading.marks([lesson_id]).get(given.place)
        after = MarkSet(lesson_id=lesson_id, line=line, mark=mark) if mark is not None else None
        if before != after:
            words = f"marked {mark_words(given.line, mark)}" if mark is not None else "no longer marked"
            self._steps.take(f'"{line}" {words}', Edit(before=before, after=after))
        return f"{line}: {mark_words(given.line, mark) if mark is not None else 'no mark'}."

    def keep_tempo(self, given: GivenAssignment, tempo: int) -> str:
        """Keeps the tempo (beats a minute) that an assignment was heard at; returns a sentence.

        Raises:
            BadInput: no metronome beats so.
            Refused: it is a thing to get, or a goal.
        """
        if not SLOWEST <= tempo <= FASTEST:
            raise BadInput(f"{tempo} is not a metronome tempo. Type {SLOWEST} to {FASTEST} beats per minute.")
        self._keep(given, replace(self._heard(given), tempo=tempo), f'tempo {tempo} for "{given.line.typed}"')
        return f"{given.line.typed}: heard at {tempo}."

    def last_step(self) -> Change | None:
        """The last step that can be taken back, whatever it was about."""
        return self._steps.last

    def take_back(self, since: Change | None) -> None:
        """Takes the last step back, if there was one since then."""
        if self._steps.last is not since:
            self._steps.undo()

    def count_clean_run(self, given: GivenAssignment) -> str:
        """Counts one more clean run-through of an assignment; returns a sentence.

        Raises:
            Refused: it is a thing to get, or a goal.
        """
        heard = self._heard(given)
        fresh = replace(heard, clean_runs=heard.clean_runs + 1)
        self._keep(given, fresh, f'a clean run-through of "{given.line.typed}"')
        return f"{given.line.typed}: {counted(fresh.clean_runs, 'clean run-through')}."

    def _heard(self, given: GivenAssignment) -> Heard:
        lesson_id, line = given.place
        return self._reading.heard([lesson_id]).get(given.place) or Heard(lesson_id=lesson_id, line=line)

    def _keep(self, given: GivenAssignment, after: Heard, said: str) -> None:
        if not given.is_assignment:
            raise _refused(given)
        before = self._reading.heard([given.lesson_id]).get(given.place)
        if before != after:
            self._steps.take(said, Edit(before=before, after=after))


def _refused(given: GivenAssignment) -> Refused:
    if given.line.line is Line.GOAL:
        return Refused(f"{given.line.text} is a goal. Mark it done when it is met, or drop it.")
    return Refused(f"{given.line.text} is a thing to get. Mark it done when they have it, or drop it.")


class Remembering:
    """Fetches what may be remembered for a lesson; to make a memory of it is a computation on values."""

    def __init__(self, reading: Reading) -> None:
        self._reading = reading

    def remembered(
        self, booking: ScheduledLesson, sheet: Sheet, abbreviations: Mapping[str, str], labels: Labels
    ) -> Remembered:
        """The notes that completions of a lesson's notes may be learned from, the newest first."""
        people, student = self._reading.people(), booking.student
        last = sheet.last
        given = (*last.assignments, *last.earlier) if last is not None else ()
        others = [other for other in people.students.values() if other.id != student.id]
        families = {other.family_id for other in others} - {student.family_id}
        return Remembered(
            bodies=self._bodies(booking, student.id, _OWN),
            open_lines=tuple(carried_on(each.line, each.tempo) for each in given if each.is_open),
            others=tuple(self._bodies(booking, other.id, _OF_OTHERS) for other in others),
            abbreviations=abbreviations,
            labels=labels,
            names=(*(other.name for other in others), *(people.families[each].name for each in families)),
        )

    def _bodies(self, booking: ScheduledLesson, student_id: StudentId, most: int) -> tuple[str, ...]:
        taught = self._reading.last_taught(student_id, booking.lesson.starts_at, None, most)
        notes = self._reading.notes([lesson.id for lesson in taught])
        return tuple(notes[lesson.id].body for lesson in taught)
