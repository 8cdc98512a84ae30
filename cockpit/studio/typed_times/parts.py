"""What the words of a line that says when can be; none of it need exist on a calendar or a clock."""

from enum import StrEnum

from cockpit.studio.clocks.moments import Zone
from cockpit.studio.people.people import Family, Student
from cockpit.studio.values import Value


class TimeOfDay(Value):
    """A time of day as it was written; `half` is a or p. `shift` minutes are added: -15 for a quarter to."""

    text: str
    hour: int
    minute: int = 0
    half: str | None = None
    shift: int = 0
    has_zero: bool = False


class DayPart(Value):
    """The morning (a), or the afternoon, evening or night (p); `hours` are those that it has beside noon, from 1 to 11."""

    text: str
    half: str
    hours: range


class Length(Value):
    """A length of time in minutes."""

    text: str
    minutes: float


class Number(Value):
    """A number alone: an hour, a time such as 1630, or minutes."""

    text: str
    value: int


class Edge(StrEnum):
    """What a line names of a month: its first day, its last, or no day of it."""

    FIRST = "first"
    LAST = "last"
    NONE = "none"


class Dated(Value):
    """A day of the calendar; without a month it is the next such day, without a year the one that `days` says.

    Of a month that the line names by its `edge`, `day` is 1 where it is not the last one, and `months` counts the month
    from that of today where it has no name.
    """

    text: str
    day: int
    month: int | None = None
    year: int | None = None
    months: int | None = None
    edge: Edge | None = None


class Slashed(Value):
    """A date such as `12/3`, whose order is a habit."""

    text: str
    first: int
    second: int
    year: int | None


class FromToday(Value):
    """Days or weeks from today, or from the lesson's day.

    `is_week` is true where a week is named, and not a day of it, `is_counted` where the line says a number of them.
    """

    text: str
    days: int = 0
    weeks: int = 0
    from_lesson: bool = False
    is_week: bool = False
    is_counted: bool = False


class Weekday(Value):
    """A day of the week; Monday is 0."""

    text: str
    weekday: int


class ZoneName(Value):
    """The clocks that a city, an abbreviation or a family's name can mean."""

    text: str
    zones: tuple[Zone, ...]


class SameTime(Value):
    """The lesson's own time of day."""

    text: str


class SameDay(Value):
    """The lesson's own day; beside a week, its weekday."""

    text: str


class TimeShift(Value):
    """Minutes later than the lesson's own time, or earlier where they are negative; or from now on."""

    text: str
    minutes: int
    from_now: bool = False


class After(Value):
    """So many days after the day that is named: `a week from thursday`."""

    text: str
    days: int


class DayCount(Value):
    """A number of days on end: `for 2 weeks` is 14."""

    text: str
    days: int


class WeekOf(Value):
    """The week, or the weekend, of the day that follows."""

    text: str
    is_weekend: bool = False


class Every(Value):
    """Every week, or every second one."""

    text: str
    weeks: int


class Joint(StrEnum):
    """What a small word makes of the words beside it."""

    FROM = "from"
    TO = "to"
    ON = "on and on"
    AND = "and"
    EXCEPT = "except"
    ONLY = "only"
    PART = "part of a day"


class Link(Value):
    """A word that joins, limits, or goes on; it never stands for itself."""

    text: str
    joint: Joint


class Named(Value):
    """The students or families of the studio that a name can mean; with neither, everybody."""

    text: str
    families: tuple[Family, ...] = ()
    students: tuple[Student, ...] = ()


class Instrument(Value):
    """An instrument that is taught."""

    text: str


class ReasonWord(Value):
    """Words that say why there are no lessons; `is_reason` is false for those that only stand beside a reason."""

    text: str
    is_reason: bool


class Unknown(Value):
    """A word that means nothing to the reader."""

    text: str


Part = (
    TimeOfDay
    | DayPart
    | Length
    | Number
    | Dated
    | Slashed
    | FromToday
    | Weekday
    | ZoneName
    | SameTime
    | SameDay
    | TimeShift
    | After
    | DayCount
    | WeekOf
    | Every
    | Link
    | Named
    | Instrument
    | ReasonWord
    | Unknown
)
