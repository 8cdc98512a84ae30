"""The lesson day: the queue, and the lesson that is shown."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from cockpit.desk.lookup import bookings_on
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.sending import Habits
from cockpit.desk.steps import Steps
from cockpit.studio.booking import Booking, live_one, opens_on
from cockpit.studio.calendar import local_time
from cockpit.studio.errors import NotFound
from cockpit.studio.lesson import LessonId
from cockpit.studio.words import possessive, short_date

_STILL_GOING = timedelta(hours=12)
# A lesson has 240 minutes at most, so that one of the evening before is over by then.
_EVENING_ENDS = 4


class Day:
    """One day of lessons, and the one that is shown."""

    def __init__(self, reading: Reading, steps: Steps, clock: Clock, habits: Habits) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self.habits = habits
        self.on = self.today()
        self.bookings: tuple[Booking, ...] = ()
        self.shown_id: LessonId | None = None
        self._follows_today = True

    def today(self) -> date:
        """The date on the teacher's clock."""
        return local_time(self._clock.now(), self.habits.home_zone).date()

    def open(self, on: date | None = None, show: LessonId | None = None) -> None:
        """Opens a day: today, or the day of a lesson that is taught past midnight, or still can be."""
        self._follows_today = on is None
        self.on = on or self._day_going_on()
        self.reload()
        self.shown_id = show or opens_on(list(self.bookings), self._clock.now())

    def is_over(self) -> bool:
        """Whether midnight has passed on the day that was opened as today, with no lesson across it."""
        if not self._follows_today or self.on == self.today():
            return False
        return live_one(self.bookings) is None and not self._has_open_lesson(self.bookings)

    def _day_going_on(self) -> date:
        now, zone = self._clock.now(), self.habits.home_zone
        live = self._reading.live_lesson()
        if live is not None and now - live.starts_at < _STILL_GOING:
            return local_time(live.starts_at, zone).date()
        evening = self.today() - timedelta(days=1)
        is_night = local_time(now, zone).hour < _EVENING_ENDS
        return (
            evening if is_night and self._has_open_lesson(bookings_on(self._reading, evening, zone)) else self.today()
        )

    def _has_open_lesson(self, bookings: Iterable[Booking]) -> bool:
        return any(b.lesson.is_open and self._clock.now() < b.lesson.planned_end for b in bookings)

    def reload(self) -> None:
        """Reads the day again; the lesson that is shown stays shown while it is there."""
        self.bookings = tuple(bookings_on(self._reading, self.on, self.habits.home_zone))
        if self.shown_id not in {booking.lesson.id for booking in self.bookings}:
            self.shown_id = opens_on(list(self.bookings), self._clock.now())

    @property
    def shown(self) -> Booking | None:
        """The lesson whose notes are open."""
        return next((b for b in self.bookings if b.lesson.id == self.shown_id), None)

    def booking(self, lesson_id: LessonId) -> Booking:
        """A lesson of the day.

        Raises:
            NotFound: it is not on this day.
        """
        for booking in self.bookings:
            if booking.lesson.id == lesson_id:
                return booking
        raise NotFound("That lesson is not on this day any more.")

    def go_to(self, lesson_id: LessonId) -> None:
        """Shows another lesson of the day."""
        self.shown_id = self.booking(lesson_id).lesson.id

    def go_next(self, step: int = 1) -> None:
        """Shows the next lesson of the day; after the last one, the first."""
        ids = [booking.lesson.id for booking in self.bookings]
        if ids:
            here = ids.index(self.shown_id) if self.shown_id in ids else -1
            self.shown_id = ids[(here + step) % len(ids)]

    def recorded(self, lesson_id: LessonId) -> Booking:
        """A lesson of the day, of which the database holds a row from now on."""
        booking = self.booking(lesson_id)
        if booking.is_recorded:
            return booking
        self._steps.keep(None, booking.lesson)
        self.bookings = tuple(replace(b, is_recorded=True) if b.lesson.id == lesson_id else b for b in self.bookings)
        return self.booking(lesson_id)

    def left_running(self) -> str | None:
        """A sentence about a lesson of another day that was never finished."""
        live = self._reading.live_lesson()
        if live is None or any(booking.lesson.id == live.id for booking in self.bookings):
            return None
        student = self._reading.people().students[live.student_id]
        on = short_date(local_time(live.starts_at, self.habits.home_zone).date())
        return f"{possessive(student.name)} lesson of {on} was never finished: that day's review leads to it."
