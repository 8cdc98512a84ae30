"""What the teacher owes that comes from no lesson: once, by a day, or again and again; open until it is checked off."""

from calendar import monthrange
from datetime import date, timedelta
from enum import StrEnum
from typing import NewType

from cockpit.studio.values import Value

DutyId = NewType("DutyId", int)
_DAY, _WEEK = timedelta(days=1), timedelta(days=7)
_LOOKED_BACK = timedelta(days=800)  # more than two years: a yearly one that was forgotten is still found
LAST = -1


class Cycle(StrEnum):
    """After what something is owed again."""

    DAY = "day"
    WEEK = "week"
    MONTH = "month"
    YEAR = "year"


class Duty(Value):
    """Something owed. Without `every` it is owed once, from the day it was noted on, `by_on` at the latest if that is there.

    Weeks have a `weekday` (0 is Monday) and come every so many `weeks`; months a `day`, or the `nth` of a weekday (-1 is the
    last); years a `month` and a `day`. A day that a month does not have is its last. All dates are the teacher's.
    """

    id: DutyId
    words: str
    made_on: date
    by_on: date | None = None
    every: Cycle | None = None
    weekday: int | None = None
    nth: int | None = None
    day: int | None = None
    month: int | None = None
    weeks: int = 1
    ticked_on: date | None = None

    def falls_on(self, on: date) -> bool:
        """Whether it comes again on a date."""
        match self.every:
            case Cycle.DAY:
                return True
            case Cycle.WEEK:
                weeks = (_monday(on) - _monday(self.made_on)) // _WEEK
                return on.weekday() == self.weekday and weeks % self.weeks == 0
            case Cycle.MONTH if self.nth is not None:
                is_nth = (on + _WEEK).month != on.month if self.nth == LAST else (on.day - 1) // 7 + 1 == self.nth
                return on.weekday() == self.weekday and is_nth
            case Cycle.MONTH:
                return on.day == _in_month(self.day, on)
            case Cycle.YEAR:
                return on.month == self.month and on.day == _in_month(self.day, on)
            case None:
                return on == self.made_on

    def open_since(self, today: date) -> date | None:
        """The first day on which it was owed and not checked off; None where it is not owed. What was missed is one."""
        since = self.made_on if self.ticked_on is None else self.ticked_on + _DAY
        since = max(since, today - _LOOKED_BACK) if self.every is not None else since
        days = (since + number * _DAY for number in range((today - since).days + 1))
        return next(filter(self.falls_on, days), None)


def _monday(on: date) -> date:
    return on - on.weekday() * _DAY


def _in_month(day: int | None, on: date) -> int:
    return min(day or 1, monthrange(on.year, on.month)[1])
