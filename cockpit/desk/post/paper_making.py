"""Practice notes on their way out: as a draft from the planned end on, final when the lesson is finished, with the earlier lessons."""

from collections.abc import Sequence
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.desk.lookup import bookings_on, lesson_that_followed, what_follows
from cockpit.desk.ports import Clock, Folder, Printer, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Export
from cockpit.studio.clocks.moments import Zone, local_time
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import Line
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.people.people import FamilyId, StudentId
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value, replace

if TYPE_CHECKING:
    from datetime import datetime

    from cockpit.studio.practice.notes import PracticeNotes
    from cockpit.studio.practice.week import WeekPlan
from cockpit.studio.assignments.last_lesson import GivenAssignment, TaughtNotes, still_open
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.practice.given_again import Earlier, has_health_line

# More than a year of weeks; what is open longer than that is not shown any more.
_LOOKED_BACK = 60
_DAY = timedelta(days=1)


class WrittenOut(Value):
    """Practice notes that lie in the folder."""

    export: Export
    path: Path


class PaperMaking:
    """Makes practice notes and puts them into the folder."""

    def __init__(
        self,
        reading: Reading,
        steps: Steps,
        clock: Clock,
        printer: Printer,
        folder: Folder,
        preferences: Preferences,
    ) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._printer = printer
        self._folder = folder
        self._preferences = preferences

    def paper(self, booking: ScheduledLesson, body: str) -> "PracticeNotes":
        """The practice notes of a lesson as values, with the student's next lesson and the practice plan until then."""
        from cockpit.studio.practice.notes import (
            practice_notes,  # with the plan's values 4 ms, which opening need not pay
        )

        following, none, paused_until = what_follows(
            self._reading, booking.student.id, booking.lesson, self._preferences.home
        )
        next_at = following.lesson.starts_at if following is not None else None
        none_at = [each.lesson.starts_at for each in none]
        paper = practice_notes(
            booking, body, next_at, self._preferences.family_hours, none_at, self._preferences.labels
        )
        none_until = paused_until + _DAY if paused_until is not None else None
        practice = self._preferences.practice
        earlier = earlier_lessons(self._reading, booking.lesson, booking.family.zone, self._preferences.labels)
        lasting = [each.line for each in self._lasting(booking, body, earlier)]
        return replace(
            paper,
            none_until=none_until,
            to_get=tuple(each for each in lasting if each.line is Line.TO_GET),
            goals=tuple(each for each in lasting if each.line is Line.GOAL),
            plan=self._plan(booking, paper, earlier),
            form=booking.student.plan or practice.form,
            has_health_line=has_health_line(practice.health_line, paper.taught_at.date(), earlier),
            language=booking.family.language or self._preferences.sending.language,
            counting=self._preferences.counting,
        )

    def _lasting(self, booking: ScheduledLesson, body: str, earlier: Earlier) -> tuple[GivenAssignment, ...]:
        """What the family is still to get by the sheet of a lesson, and the open goals; what was got or met after it is not there."""
        lesson, zone, labels = booking.lesson, booking.family.zone, self._preferences.labels
        own = _notes_of(lesson, body, zone, labels)
        since = self._reading.lessons_of(lesson.student_id, lesson.starts_at, self._clock.now())
        later = _taught(
            self._reading,
            [
                each
                for each in since
                if each.outcome is None and each.instrument == lesson.instrument and each.id != lesson.id
            ],
            zone,
            labels,
        )
        marks = self._reading.marks([lesson.id, *(each.lesson_id for each in later)])
        return still_open([*reversed(later), own, *earlier.taught], {**earlier.marks, **marks}, own.taught_on)

    def _plan(self, booking: ScheduledLesson, paper: "PracticeNotes", earlier: Earlier) -> "WeekPlan | None":
        from cockpit.studio.practice.lesson_plan import lesson_plan  # 2 ms, which opening the day need not pay

        if not paper.notes.assignments:
            return None
        zone, lesson = booking.family.zone, booking.lesson
        followed = lesson_that_followed(self._reading, booking.student.id, lesson, self._preferences.home)
        if followed is None:
            return None
        days = paper.taught_at.date(), local_time(followed.lesson.starts_at, zone).date()
        plan = lesson_plan(paper.notes, booking.student, days, earlier, self._preferences.practice)
        return plan.since(local_time(lesson.finished_at or self._clock.now(), zone).date()) if plan else None

    def plan_notices(self, booking: ScheduledLesson, body: str) -> tuple[str, ...]:
        """What the teacher is told about the plan that goes with some notes; see `studio.practice.notices`."""
        return notices_of(self.paper(booking, body))

    def write_out(self, booking: ScheduledLesson, paper: "PracticeNotes", *, is_final: bool) -> WrittenOut:
        """Writes the practice notes of a lesson into the folder, as Markdown and as a page.

        Raises:
            NotSaved: the folder refused; the notes themselves are in the database.
        """
        markdown = self._printer.markdown(paper)
        name = self._name(booking)
        self._folder.put(f"{name}.html", self._printer.page(paper))
        path = self._folder.put(f"{name}.md", markdown)
        now = self._clock.now()
        export = Export(lesson_id=booking.lesson.id, path=f"{name}.md", is_final=is_final, exported_at=now)
        return WrittenOut(export=export, path=path)

    def keep_drafts(self, bookings: tuple[ScheduledLesson, ...]) -> WrittenOut | None:
        """Brings the draft of each lesson that is past its end up to date; the last one written, if any.

        Raises:
            NotSaved: the folder refused.
        """
        now = self._clock.now()
        due = [b for b in bookings if b.is_recorded and b.lesson.is_open and b.lesson.ends_at <= now]
        if not due or not self._steps.can_write:
            return None
        ids = [booking.lesson.id for booking in due]
        notes, exports = self._reading.notes(ids), self._reading.exports(ids)
        written = None
        for booking in due:
            note, export = notes.get(booking.lesson.id), exports.get(booking.lesson.id)
            if note is None or not note.body.strip():
                continue
            if export is None or export.exported_at < note.changed_at:
                paper = self.paper(booking, note.body)
                written = self.write_out(booking, paper, is_final=False)
                self._steps.keep(export, written.export)
        return written

    def _name(self, booking: ScheduledLesson) -> str:
        from cockpit.studio.practice.notes import paper_name

        home = self._preferences.home
        on = home.date_of(booking.lesson.starts_at)
        that_day = bookings_on(self._reading, on, home)
        return f"notes/{self.folder_of(booking.family.id)}/{paper_name(booking, on, that_day, home.zone)}"

    def folder_of(self, family_id: FamilyId) -> str:
        """The name of the folder of a family's papers, which is theirs from the first one on."""
        from cockpit.studio.practice.notes import family_folder

        families = self._reading.people().families
        family = families[family_id]
        folder = family_folder(family, families.values())
        if family.folder is None:
            self._steps.keep(family, replace(family, folder=folder))
        return folder


def notices_of(paper: "PracticeNotes") -> tuple[str, ...]:
    """What the teacher is told about the plan of some notes; nothing where they have none."""
    from cockpit.studio.practice.notices import plan_notices  # after the plan that it is about

    return plan_notices(paper.plan) if paper.plan is not None else ()


def minutes_of_plan(paper: "PracticeNotes") -> tuple[str, ...]:
    """Which minutes on a sheet are the teacher's, and which are the plan's; nothing where all are hers."""
    from cockpit.studio.practice.notices import shared_minutes

    said = shared_minutes(paper.plan) if paper.plan is not None else None
    return (said,) if said is not None else ()


def earlier_lessons(reading: Reading, lesson: Lesson, zone: Zone, labels: Labels) -> Earlier:
    """The lessons taught before one to the same student on the same instrument; their dates are of the clock of `zone`."""
    taught = reading.last_taught(lesson.student_id, lesson.starts_at, lesson.instrument, _LOOKED_BACK)
    ids = [each.id for each in taught]
    return Earlier(taught=_taught(reading, taught, zone, labels), marks=reading.marks(ids), heard=reading.heard(ids))


def taught_by_instrument(
    reading: Reading, student_id: StudentId, before: "datetime", preferences: Preferences
) -> list[list[TaughtNotes]]:
    """The notes of a student's lessons that were taught before a moment, the newest first, a list for each instrument of late."""
    lately = reading.lessons_of(student_id, before - timedelta(weeks=_LOOKED_BACK), before)
    zone, labels = preferences.home.zone, preferences.labels
    return [
        _taught(reading, reading.last_taught(student_id, before, instrument, _LOOKED_BACK), zone, labels)
        for instrument in dict.fromkeys(each.instrument for each in lately if each.outcome is None)
    ]


def _taught(reading: Reading, lessons: Sequence[Lesson], zone: Zone, labels: Labels) -> list[TaughtNotes]:
    """The notes of those lessons that have some, in their order; dates are of the clock of `zone`."""
    notes = reading.notes([each.id for each in lessons])
    return [_notes_of(each, notes[each.id].body, zone, labels) for each in lessons if each.id in notes]


def _notes_of(lesson: Lesson, body: str, zone: Zone, labels: Labels) -> TaughtNotes:
    on = local_time(lesson.starts_at, zone).date()
    return TaughtNotes(lesson_id=lesson.id, taught_on=on, body=body, minutes=lesson.minutes, labels=labels)
