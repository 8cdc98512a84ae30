"""What a calendar that is handed out consists of."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedLesson:
    """A lesson that stands by itself, or, with `instead_of`, in the place of one of a series.

    `starts_at` is UTC; `instead_of` is the naive local start by the rule, on the clock of the series.
    """

    uid: str
    title: str
    starts_at: datetime
    minutes: int
    call_link: str | None = None
    instead_of: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedSeries:
    """A weekly rule on the clock of one IANA zone.

    `first` and `left_out` are naive local starts; `last` is the UTC start of the last meeting, None if there is none.
    """

    uid: str
    title: str
    zone: str
    first: datetime
    minutes: int
    every_weeks: int = 1
    last: datetime | None = None
    left_out: tuple[datetime, ...] = ()
    moved: tuple[SharedLesson, ...] = ()
    call_link: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedCalendar:
    """A calendar to be handed out, with nothing private in it. `made_at` is UTC.

    The single lessons in `cancelled` do not take place: a program that has one of them is told so.
    """

    uid: str
    name: str
    revision: int
    made_at: datetime
    series: tuple[SharedSeries, ...] = ()
    lessons: tuple[SharedLesson, ...] = ()
    cancelled: tuple[SharedLesson, ...] = ()
