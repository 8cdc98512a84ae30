"""Until when an inquiry is to be answered, and when that is told: elapsed time in UTC, shown on the teacher's clock."""

from calendar import monthrange
from collections.abc import Iterable
from datetime import datetime, time, timedelta

from cockpit.studio.clocks.moments import moment
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted
from cockpit.studio.inquiries.rules import InquiryRules
from cockpit.studio.values import Value

_DAY = timedelta(days=1)
_HOUR = timedelta(hours=1)
_MINUTE = timedelta(minutes=1)
_LONG = 3 * _DAY  # from here on days are said, and not hours
_MIDNIGHT = time()


class TeachingDay(Value):
    """From when until when the teacher's day lasts on her clock, as her settings say it."""

    home: TeacherClock
    begins: time
    ends: time

    def last_moment(self, at: datetime) -> datetime:
        """The moment itself where it lies in her day, else the last one before it that does; both are UTC."""
        on, zone = self.home.date_of(at), self.home.zone
        begins, ends = moment(datetime.combine(on, self.begins), zone), self._end(at)
        if ends <= begins or begins <= at <= ends:  # a day that ends before it begins has no bounds
            return at
        return ends if at > ends else self._end(moment(datetime.combine(on - _DAY, self.begins), zone))

    def _end(self, at: datetime) -> datetime:
        on = self.home.date_of(at)
        if self.ends == _MIDNIGHT:
            return self.home.day_bounds(on)[1]
        return moment(datetime.combine(on, self.ends), self.home.zone)


class Deadline(Value):
    """When an answer is due (UTC), by when in her day, and from when on she is told."""

    due_at: datetime
    by: datetime
    told_from: datetime

    def is_told(self, now: datetime) -> bool:
        """Whether half of the time has passed."""
        return self.told_from <= now

    def is_late(self, now: datetime) -> bool:
        """Whether the time has passed."""
        return self.due_at < now

    def shown_until(self, now: datetime) -> datetime:
        """The moment to answer by: the one in her day, and when that has passed the last of all."""
        return self.by if now <= self.by else self.due_at

    def left(self, now: datetime) -> str:
        """How long there is: `7 h`, or `late by 3 h`."""
        if self.is_late(now):
            return f"late by {duration(now - self.due_at)}"
        return duration(self.shown_until(now) - now)


def deadline(came_at: datetime, rules: InquiryRules, day: TeachingDay) -> Deadline:
    """The deadline of an inquiry that came at a moment (UTC)."""
    given = timedelta(hours=rules.reply_hours)
    due_at = came_at + given
    by = day.last_moment(due_at)
    return Deadline(due_at=due_at, by=by if by > came_at else due_at, told_from=came_at + given / 2)


def duration(length: timedelta) -> str:
    """A length of time in whole hours, below one in minutes, above three days in days: `7 h`, `40 min`, `4 days`."""
    if length < _HOUR:
        return f"{max(0, length // _MINUTE)} min"
    return f"{length // _HOUR} h" if length < _LONG else f"{length // _DAY} days"


def urgent_words(deadlines: Iterable[Deadline], now: datetime) -> str:
    """What is told on the day of inquiries that wait: `1 inquiry: 7 h`; empty where none has waited for half of its time."""
    told = sorted((each for each in deadlines if each.is_told(now)), key=lambda each: each.due_at)
    if not told:
        return ""
    return f"{counted(len(told), 'inquiry', 'inquiries')}: {told[0].left(now)}"


def months_before(at: datetime, months: int) -> datetime:
    """The moment so many months before another one; the last day of a month that is shorter."""
    year, month = divmod(at.year * 12 + at.month - 1 - months, 12)
    days = monthrange(year, month + 1)[1]
    return at.replace(year=year, month=month + 1, day=min(at.day, days))
