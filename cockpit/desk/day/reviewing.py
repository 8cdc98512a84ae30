"""The end of the day: looked over, ticked off, written out."""

from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.desk.lookup import bookings_between, owed_minutes
from cockpit.desk.ports import Clock, Folder, Printer, Reading
from cockpit.desk.post.paper_making import earlier_lessons
from cockpit.desk.steps import Steps
from cockpit.studio.assignments.last_lesson import last_lesson
from cockpit.studio.changes.records import Edit, FollowUp
from cockpit.studio.people.people import StudentId
from cockpit.studio.post.outgoing import most_urgent
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import replace

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from cockpit.desk.inquiries.inquiring import Inquiring
    from cockpit.studio.day.review import BroughtAlong, DayReview, InquiriesToDo, OwedDuty, OwedFollowUp, WeekSoFar
    from cockpit.studio.lessons.lesson import LessonId
    from cockpit.studio.lessons.scheduled import ScheduledLesson


class Reviewing:
    """Reviews a day of lessons."""

    def __init__(
        self,
        studio: tuple[Reading, Clock],
        steps: Steps,
        printer: Printer,
        folder: Folder,
        preferences: Preferences,
        inquiring: "Callable[[], Inquiring]",
    ) -> None:
        self._reading, self._clock = studio
        self._inquiring = inquiring
        self._steps = steps
        self._printer = printer
        self._folder = folder
        self._home = preferences.home
        self._labels = preferences.labels
        self._owes = preferences.owes

    def review(self, on: date) -> "DayReview":
        """A day of the teacher's clock looked back on, everything owed, and the day after it."""
        from cockpit.studio.day.review import (  # 3 ms, which opening the day need not pay
            DayReview,
            missing_elsewhere,
            review_day,
        )

        bookings, left_out = bookings_between(self._reading, *self._home.day_bounds(on), self._home)
        ids = [booking.lesson.id for booking in bookings]
        notes, exports = self._reading.notes(ids), self._reading.exports(ids)
        fates = self._reading.open_statuses()
        lessons, missing = review_day(bookings, notes, exports, self._clock.now(), most_urgent(fates), self._labels)
        tomorrow_on = on + timedelta(days=1)
        tomorrow, left_out_then = bookings_between(self._reading, *self._home.day_bounds(tomorrow_on), self._home)
        return DayReview(
            on=on,
            lessons=lessons,
            missing=(*missing, *missing_elsewhere(fates, ids)),
            owed=(*self._owed(), *owed_minutes(self._reading), *self._duties()),
            tomorrow_on=tomorrow_on,
            tomorrow=tuple(tomorrow),
            brought=self._brought(tomorrow, tomorrow_on),
            left_out=(*left_out, *left_out_then),
            inquiries=self._inquiries(),
            week=self._week(on),
        )

    def _week(self, on: date) -> "WeekSoFar":
        """The week around a date, Monday to Sunday."""
        from cockpit.studio.calendar.year import make_ups_owed  # with the review, which opening the day need not pay
        from cockpit.studio.day.review import week_so_far

        monday = on - timedelta(days=on.weekday())
        begins, ends = self._home.day_bounds(monday)[0], self._home.day_bounds(monday + timedelta(days=6))[1]
        bookings, _ = bookings_between(self._reading, begins, ends, self._home)
        owed = make_ups_owed(self._reading.closed_lessons(), self._owes)
        return week_so_far(bookings, sum(map(len, owed.values())), self._clock.now())

    def _brought(self, bookings: "Sequence[ScheduledLesson]", on: date) -> "dict[LessonId, BroughtAlong]":
        """What students bring to lessons on a date."""
        found = {booking.lesson.id: self.brought_to(booking, on) for booking in bookings}
        return {lesson_id: brought for lesson_id, brought in found.items() if brought is not None}

    def brought_to(self, booking: "ScheduledLesson", on: date) -> "BroughtAlong | None":
        """What a student brings to a lesson on a date; None where that is nothing."""
        from cockpit.studio.day.review import brought_along

        earlier = earlier_lessons(self._reading, booking.lesson, self._home.zone, self._labels)
        return brought_along(last_lesson(earlier.taught, earlier.marks, earlier.heard), on)

    def _inquiries(self) -> "InquiriesToDo | None":
        """What is to be done with inquiries; None where there are none."""
        if not self._reading.inquiries():
            return None
        from cockpit.studio.day.review import InquiriesToDo

        view = self._inquiring().view()
        return InquiriesToDo(due=view.due, leaving=view.leaving, openings=view.openings, now=view.now)

    def tick(self, owed: "OwedFollowUp | OwedDuty") -> str:
        """Marks something owed as done, and returns what it was; what comes again is owed again then."""
        from cockpit.studio.day.review import OwedDuty

        if isinstance(owed, OwedDuty):
            after = replace(owed.duty, ticked_on=self._today())
            self._steps.take(f'checking off "{owed.duty.words}"', Edit(before=owed.duty, after=after))
            return owed.duty.words
        follow_up = owed.follow_up
        ticked = FollowUp(lesson_id=follow_up.lesson_id, body=follow_up.body, ticked_at=self._clock.now())
        self._steps.take(f'checking off "{follow_up.body}"', Edit(before=follow_up, after=ticked))
        return follow_up.body

    def _today(self) -> date:
        return self._home.date_of(self._clock.now())

    def write_out(self, on: date) -> Path:
        """Writes the review into the folder as Markdown, for the teacher alone, and returns its path.

        Raises:
            NotSaved: the folder refused.
        """
        return self._folder.put(f"reviews/{on.isoformat()}.md", self._printer.review(self.review(on)))

    def owed_to(self, student_id: StudentId) -> tuple[str, ...]:
        """What she owes one student or the family."""
        return tuple(o.body for o, lesson in self._reading.open_follow_ups() if lesson.student_id == student_id)

    def _duties(self) -> "Iterator[OwedDuty]":
        from cockpit.studio.day.review import OwedDuty

        today = self._today()
        for duty in self._reading.duties():
            if (since := duty.open_since(today)) is not None:
                yield OwedDuty(duty=duty, since=since)

    def _owed(self) -> "tuple[OwedFollowUp, ...]":
        from cockpit.studio.day.review import OwedFollowUp

        students = self._reading.people().students
        return tuple(
            OwedFollowUp(follow_up=owed, student=students[lesson.student_id].name, noted_at=lesson.starts_at)
            for owed, lesson in self._reading.open_follow_ups()
        )
