"""A family's sheet as values: its words in their order, with the practice as a chart or as lists; nothing of how it looks."""

from cockpit.studio.values import Value


class ChartCell(Value):
    """What a day asks of an assignment, in lines; nothing but a box where it asks no more than that.

    `first` are the measures of the day, `again` those that come back from the day before, each with its tempo where
    that is another; `rest` is how often and how long, where that is not the same every day.
    """

    first: str = ""
    tempo: str = ""
    again: str = ""
    again_tempo: str = ""
    rest: tuple[str, ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines, the measures first."""
        return tuple(filter(None, (self.first, self.tempo, self.again, self.again_tempo, *self.rest)))


class ChartRow(Value):
    """An assignment: its area, its minutes where they are the same every day, its name, how to do it; a cell a day, or none.

    `answers` are lines of theory that she asked for in it.
    """

    area: str
    minutes: str
    name: str
    how: str
    cells: tuple[ChartCell | None, ...]
    answers: tuple[str, ...] = ()


class ChartDay(Value):
    """A practice day: its weekday cut short, its date in the head of the chart, both whole, and its minutes."""

    number: int
    weekday: str
    date: str
    whole: str
    minutes: str
    begins_week: bool


class PracticeChart(Value):
    """The practice until the next lesson as a chart; `legend` says what the signs in it mean."""

    heading: str
    minutes: str
    days: tuple[ChartDay, ...]
    rows: tuple[ChartRow, ...]
    legend: tuple[str, ...]


class SheetPart(Value):
    """Some lines of a sheet below their heading."""

    heading: str
    lines: tuple[str, ...]


class FamilySheet(Value):
    """What a family reads: the title, when the lesson was and is next, remarks, and the practice; last the line about health.

    The practice is a `chart`, or the `parts` are its lists. A remark may be empty, between two paragraphs.
    """

    title: str
    head: tuple[str, ...]
    remarks: SheetPart | None = None
    chart: PracticeChart | None = None
    parts: tuple[SheetPart, ...] = ()
    caution: str = ""
