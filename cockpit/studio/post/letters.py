"""A letter to a family about times of its lessons: what it is to be told, as values on its own clock."""

from collections.abc import Sequence
from datetime import date, datetime
from enum import StrEnum

from cockpit.studio.clocks.moments import local_time, zone_at
from cockpit.studio.lessons.lesson import NOT_HELD, Kind, Outcome
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Family, first_name
from cockpit.studio.values import Value


class News(StrEnum):
    """What a letter says of a lesson."""

    CALLED_OFF = "called_off"
    CANCELED = "canceled"
    MOVED = "moved"
    BOOKED = "booked"
    CHOICE = "choice"


class TimeThere(Value):
    """A time on the family's clock (naive), and the IANA zone that this shows then."""

    at: datetime
    zone: str


class LessonTold(Value):
    """A lesson as a letter names it: its student, and when it starts."""

    student: str
    instrument: str | None
    kind: Kind
    starts: TimeThere


class TimeLetter(Value):
    """What one family is told: the news of its lessons, in order. It knows no other family, and no reason of hers.

    `today` is the date on the family's clock; `times` are starts that it may choose from.
    """

    news: News
    family: Family
    today: date
    lessons: tuple[LessonTold, ...]
    times: tuple[TimeThere, ...] = ()

    @property
    def students(self) -> tuple[str, ...]:
        """The students that it is about, each once."""
        return tuple(dict.fromkeys(each.student for each in self.lessons))


def news_of(booking: ScheduledLesson) -> News:
    """What there is to tell of a lesson: what became of it, or else that its family may choose another time."""
    lesson = booking.lesson
    if lesson.outcome is Outcome.CALLED_OFF:
        return News.CALLED_OFF
    if lesson.outcome in NOT_HELD:
        return News.CANCELED
    if lesson.is_moved:
        return News.MOVED
    return News.CHOICE if lesson.kind is Kind.WEEKLY else News.BOOKED


def letter_on(
    news: News, bookings: Sequence[ScheduledLesson], now: datetime, times: Sequence[datetime] = ()
) -> TimeLetter:
    """The letter to the family of some lessons, at a UTC moment; `times` are starts (UTC) that it may choose from.

    Raises:
        ValueError: the lessons are of several families, or there is none.
    """
    (family,) = {booking.family.id: booking.family for booking in bookings}.values()
    ordered = sorted(bookings, key=lambda each: (each.lesson.starts_at, each.lesson.id))
    return TimeLetter(
        news=news,
        family=family,
        today=local_time(now, family.zone).date(),
        lessons=tuple(
            LessonTold(
                student=first_name(booking.student, family),
                instrument=booking.lesson.instrument,
                kind=booking.lesson.kind,
                starts=_there(booking.lesson.starts_at, family),
            )
            for booking in ordered
        ),
        times=tuple(_there(at, family) for at in times),
    )


def _there(at: datetime, family: Family) -> TimeThere:
    return TimeThere(at=local_time(at, family.zone).replace(tzinfo=None), zone=zone_at(family.zone, at))
