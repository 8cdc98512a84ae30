"""Practice notes made final and put into the outbox, in one change with the finish of their lesson."""

from collections.abc import Iterable
from datetime import datetime, timedelta

from cockpit.desk.lookup import addresses_for, bookings_on, next_of
from cockpit.desk.ports import PostPrinter, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Edit
from cockpit.studio.day.posting import (
    FinalNotes,
    destinations_of_notes,
    posted,
    taken_back,
    ways_of_notes,
    would_be,
)
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.post.channels import Channel, NextLesson
from cockpit.studio.post.outgoing import Outgoing
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.preferences import Preferences

# A family's mail of the day waits so long after the planned end of its last lesson, if nobody closes that.
_FOR_A_LATE_FINISH = timedelta(minutes=30)
_BY_MAIL = frozenset({Channel.MAIL, Channel.DRAFT})


class Posting:
    """Puts the notes of lessons into the outbox."""

    def __init__(self, reading: Reading, steps: Steps, printer: PostPrinter, preferences: Preferences) -> None:
        self._reading = reading
        self._steps = steps
        self._printer = printer
        self._rules = preferences.sending
        self._home = preferences.home

    def edits(self, booking: ScheduledLesson, paper: PracticeNotes, now: datetime) -> tuple[Edit, ...]:
        """What puts the notes of a lesson into the outbox; nothing where the family has these very notes already."""
        if not self.ways(booking) - {Channel.CLIPBOARD}:
            return ()
        earlier = self._reading.outgoing_about([booking.lesson.id])
        fresh = self._fresh(booking, paper, earlier, self._times(booking, now))
        return posted(fresh, earlier, now, self._steps.writing.new_id)

    def taken_back(self, lesson_id: LessonId, now: datetime) -> tuple[Edit, ...]:
        """What takes out the notes of a lesson that have not gone."""
        return taken_back(self._reading.outgoing_about([lesson_id]), now)

    def would_be(self, booking: ScheduledLesson, paper: PracticeNotes, now: datetime) -> tuple[Outgoing, ...]:
        """What the outbox would get of the notes as they stand, were they final; nothing is kept."""
        earlier = self._reading.outgoing_about([booking.lesson.id])
        return self._fresh(booking, paper, earlier, (now, now))

    def ways(self, booking: ScheduledLesson) -> frozenset[Channel]:
        """How the notes of a lesson go out."""
        return ways_of_notes(booking, self._rules)

    def for_clipboard(self, booking: ScheduledLesson, paper: PracticeNotes) -> str | None:
        """What the clipboard gets of the notes: Markdown or a page; None where it is none of the family's ways."""
        if Channel.CLIPBOARD not in self.ways(booking):
            return None
        return self._printer.page(paper) if self._rules.copies_page else self._printer.markdown(paper)

    def _fresh(
        self,
        booking: ScheduledLesson,
        paper: PracticeNotes,
        earlier: Iterable[Outgoing],
        times: tuple[datetime, datetime],
    ) -> tuple[Outgoing, ...]:
        places = destinations_of_notes(self.ways(booking), addresses_for(self._reading, booking.family.id))
        return would_be(booking, self._final(booking, paper, times[0]), places, earlier, times)

    def _final(self, booking: ScheduledLesson, paper: PracticeNotes, now: datetime) -> FinalNotes:
        return FinalNotes(
            title=self._printer.title(paper),
            text=self._printer.text(paper),
            markdown=self._printer.markdown(paper),
            body=self._printer.body(paper),
            language=self._printer.language(paper),
            next_lesson=self._next_lesson(booking, now) if self.ways(booking) & _BY_MAIL else None,
        )

    def _times(self, booking: ScheduledLesson, now: datetime) -> tuple[datetime, datetime]:
        """Now, and the moment that leaves time for undo; or, for one mail a day, that of the family's last lesson."""
        soon = now + timedelta(seconds=self._rules.wait_seconds)
        if not self._rules.one_mail_a_day:
            return now, soon
        on = self._home.date_of(booking.lesson.starts_at)
        still = [
            each.lesson.ends_at + _FOR_A_LATE_FINISH
            for each in bookings_on(self._reading, on, self._home)
            if each.family.id == booking.family.id and each.lesson.id != booking.lesson.id and each.lesson.is_open
        ]
        return now, max([soon, *still])

    def _next_lesson(self, booking: ScheduledLesson, now: datetime) -> str | None:
        if self._rules.next_lesson is NextLesson.LEFT_OUT:
            return None
        following = next_of(self._reading, booking.student.id, booking.lesson, self._home)
        if following is None:
            return None
        return self._printer.next_lesson(following, self._reading.calendar_edition(), now)
