"""The lesson day: the queue, and the lesson that is shown."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date

from cockpit.desk.lookup import bookings_on, day_going_on
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.clocks.words import possessive, short_date
from cockpit.studio.errors import NotFound
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson, after_finishing, live_one, opens_on, together_with
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import replace


class Day:
    """The day of lessons that is shown, with the lesson that is shown; and the day that is going on, which may be another.

    The clock and the running lesson belong to the day that is going on, whatever she looks at.
    """

    def __init__(self, reading: Reading, steps: Steps, clock: Clock, preferences: Preferences) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self.preferences = preferences
        self.on = self.going_on = self.today()
        self.bookings: tuple[ScheduledLesson, ...] = ()
        self.bookings_going_on: tuple[ScheduledLesson, ...] = ()
        self.shown_id: LessonId | None = None
        self._follows_today = True

    def today(self) -> date:
        """The date on the teacher's clock."""
        return self.preferences.home.date_of(self._clock.now())

    def open(self, on: date | None = None, show: LessonId | None = None) -> None:
        """Opens a day: today, or the day of a lesson that is taught past midnight, or still can be."""
        self._follows_today = on is None
        self.on = on or day_going_on(self._reading, self._clock.now(), self.preferences.home)
        self.reload()
        self.shown_id = show or opens_on(list(self.bookings), self._clock.now())

    @contextmanager
    def showing(self, on: date, lesson_id: LessonId) -> Iterator[None]:
        """Shows a lesson of any day for the time of a step; then what was shown before."""
        before = None if self._follows_today else self.on, self.shown_id
        self.open(on, lesson_id)
        try:
            yield
        finally:
            self.open(*before)

    def is_over(self) -> bool:
        """Whether midnight has passed on the day that is going on, with no lesson across it."""
        if self._follows_today and self.on != self.going_on:
            return True
        return self.going_on != self.today() and self.going_on != day_going_on(
            self._reading, self._clock.now(), self.preferences.home
        )

    def turn(self) -> None:
        """Goes on with the next day; it is shown too, unless she looks at another one."""
        if self._follows_today:
            self.open()
        else:
            self.reload()

    def reload(self) -> None:
        """Reads the day again; the lesson that is shown stays shown while it is there."""
        self.going_on = day_going_on(self._reading, self._clock.now(), self.preferences.home)
        self.bookings = tuple(bookings_on(self._reading, self.on, self.preferences.home))
        self.bookings_going_on = (
            self.bookings
            if self.on == self.going_on
            else tuple(bookings_on(self._reading, self.going_on, self.preferences.home))
        )
        if self.shown_id not in {booking.lesson.id for booking in self.bookings}:
            self.shown_id = opens_on(list(self.bookings), self._clock.now())

    @property
    def shown(self) -> ScheduledLesson | None:
        """The lesson whose notes are open."""
        return next((b for b in self.bookings if b.lesson.id == self.shown_id), None)

    @property
    def running(self) -> ScheduledLesson | None:
        """The lesson that is being taught, also while another day is shown; of those who share it, the one that is shown."""
        shown = self.shown
        if shown is not None and shown.lesson.is_live:
            return shown
        return live_one(self.bookings_going_on) or live_one(self.bookings)

    @property
    def all_running(self) -> tuple[ScheduledLesson, ...]:
        """The running lesson, and those that share its time and run too."""
        running = self.running
        if running is None:
            return ()
        beside = together_with(running, (*self.bookings_going_on, *self.bookings))
        others = {each.lesson.id: each for each in beside if each.lesson.is_live}
        return (running, *others.values())

    def booking(self, lesson_id: LessonId) -> ScheduledLesson:
        """A lesson of the day that is shown, or of the one that is going on.

        Raises:
            NotFound: it is on neither.
        """
        for booking in (*self.bookings, *self.bookings_going_on):
            if booking.lesson.id == lesson_id:
                return booking
        raise NotFound("That lesson is no longer on this day.")

    def go_to(self, lesson_id: LessonId) -> None:
        """Shows another lesson of the day.

        Raises:
            NotFound: it is not on it.
        """
        if all(booking.lesson.id != lesson_id for booking in self.bookings):
            raise NotFound("That lesson is no longer on this day.")
        self.shown_id = lesson_id

    def go_next(self, step: int = 1) -> None:
        """Shows the day's next lesson. After the last one, starts again with the first.

        Of those who share a lesson that runs, it shows the other.
        """
        if (shown := self.shown) is not None and shown.lesson.is_live and len(running := self.all_running) > 1:
            self.shown_id = running[1].lesson.id
            return
        ids = [booking.lesson.id for booking in self.bookings]
        if ids:
            here = ids.index(self.shown_id) if self.shown_id in ids else -1
            self.shown_id = ids[(here + step) % len(ids)]

    def show_after(self, finished: LessonId) -> None:
        """Shows what comes after a finished lesson; where another day was shown meanwhile, goes back to that of the lesson."""
        self.reload()
        if any(booking.lesson.id == finished for booking in self.bookings):
            self.shown_id = after_finishing(list(self.bookings), finished)
        else:
            self.open()

    def show_again(self, lesson: Lesson) -> None:
        """Shows a lesson that goes on: on its own day, whatever was shown meanwhile."""
        if all(booking.lesson.id != lesson.id for booking in self.bookings):
            on = self.preferences.home.date_of(lesson.starts_at)
            self.open(on if on != self.going_on else None, lesson.id)
        self.shown_id = lesson.id

    def recorded(self, lesson_id: LessonId) -> ScheduledLesson:
        """A lesson of the day, of which the database holds a row from now on."""
        booking = self.booking(lesson_id)
        if booking.is_recorded:
            return booking
        self._steps.keep(None, booking.lesson)
        self.bookings = _with_record(self.bookings, lesson_id)
        self.bookings_going_on = _with_record(self.bookings_going_on, lesson_id)
        return self.booking(lesson_id)

    def left_running(self) -> str | None:
        """A sentence about a lesson of another day that was never finished."""
        live = self._reading.live_lesson()
        if live is None or any(b.lesson.id == live.id for b in (*self.bookings, *self.bookings_going_on)):
            return None
        student = self._reading.people().students[live.student_id]
        on = short_date(self.preferences.home.date_of(live.starts_at))
        return (
            f"{possessive(student.name)} lesson on {on} was never finished. Open it from End of the day on that date."
        )


def _with_record(bookings: tuple[ScheduledLesson, ...], lesson_id: LessonId) -> tuple[ScheduledLesson, ...]:
    return tuple(replace(b, is_recorded=True) if b.lesson.id == lesson_id else b for b in bookings)
