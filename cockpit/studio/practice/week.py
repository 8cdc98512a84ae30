"""The values of a week's practice: its days, and a plan by day."""

from datetime import date, timedelta

from cockpit.studio.assignments.assignment import Assignment, Measures, Tempo
from cockpit.studio.practice.rules import EVERY_DAY
from cockpit.studio.values import Value, replace

_DAY = timedelta(days=1)


class PracticeWeek(Value):
    """The days that are planned, `first` to `last`, both inclusive; those of `weekdays` (Monday is 0) have practice.

    `daily_minutes` are what the student has each practice day; None where nobody said.
    """

    first: date
    last: date
    weekdays: frozenset[int] = EVERY_DAY
    daily_minutes: int | None = None

    @property
    def days(self) -> tuple[date, ...]:
        """Every day of it, rest days too."""
        return tuple(self.first + n * _DAY for n in range((self.last - self.first).days + 1))


class Through(Value):
    """How often the measures of an item can be played whole in its minutes; without a meter, 4/4 is assumed."""

    times: int
    is_meter_assumed: bool


class Returning(Value):
    """The section of the practice day before, which comes back beside a new one, and its tempo now."""

    measures: tuple[Measures, ...]
    tempo: Tempo | None


class PlanItem(Value):
    """An assignment on one day: its minutes, the measures and the tempo of that day.

    `minutes` are None where there are none to tell. Where the measures are a section that is new, `again` is the one of
    the day before. `through` says how often the measures fit into the minutes where that is of any use, `turns` how
    long each turn is where the assignment is practiced in turns with `turns_with`.
    """

    assignment: Assignment
    minutes: int | None
    measures: tuple[Measures, ...]
    tempo: Tempo | None
    again: Returning | None = None
    through: Through | None = None
    turns: tuple[int, ...] = ()
    turns_with: tuple[Assignment, ...] = ()


class Turn(Value):
    """One turn: an assignment, for some minutes."""

    assignment: Assignment
    minutes: int


class DayPlan(Value):
    """One day: its items as they were typed, nothing on a rest day.

    `exceeds_by` is by how many minutes the typed ones exceed the daily minutes, `spare` how many of the daily minutes
    nothing is planned for. `turns` is the order of those practiced in turns.
    """

    on: date
    items: tuple[PlanItem, ...] = ()
    exceeds_by: int = 0
    spare: int = 0
    turns: tuple[Turn, ...] = ()

    @property
    def minutes(self) -> int:
        """The minutes of all items."""
        return sum(item.minutes or 0 for item in self.items)


class OutOfReach(Value):
    """A tempo asked for that the steps of these days do not come to: where it ends instead, in beats a minute, and when."""

    assignment: Assignment
    reached: int
    goal: int
    last_on: date


# A sheet of paper has room for so many columns: two weeks.
_MOST_COLUMNS = 14


class WeekPlan(Value):
    """Every day from the lesson to the next one, the assignments that no practice day is named for, and goals too far away.

    `daily_minutes` are what the student has; None where nobody said.
    """

    days: tuple[DayPlan, ...]
    daily_minutes: int | None = None
    never_due: tuple[Assignment, ...] = ()
    out_of_reach: tuple[OutOfReach, ...] = ()

    def since(self, on: date) -> "WeekPlan":
        """The plan without the days before one; whole where that leaves no day of practice, so that it stays on record."""
        left = tuple(day for day in self.days if day.on >= on)
        return replace(self, days=left) if any(day.items for day in left) else self

    @property
    def exceeds_by(self) -> int:
        """By how many minutes the typed ones exceed the daily minutes on the day where it is most."""
        return max((day.exceeds_by for day in self.days), default=0)

    @property
    def fullest(self) -> int:
        """The minutes of the fullest day."""
        return max((day.minutes for day in self.days), default=0)


def fits_a_chart(plan: WeekPlan) -> bool:
    """Whether a sheet has room for a column for each practice day."""
    return 0 < sum(bool(day.items) for day in plan.days) <= _MOST_COLUMNS
