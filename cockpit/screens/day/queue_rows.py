"""The rows of the queue: a lesson each, its columns in line with the others', between them what is free, and what comes after."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta
from itertools import pairwise, takewhile

from rich.cells import cell_len
from textual.content import Content

from cockpit.screens.look.show import (
    CHOSEN,
    CLOCK_ROLES,
    FREE,
    NEEDS_HER,
    WITH,
    cut,
    cut_at_word,
    heading,
    padded,
    placed,
    rehearsed_words,
    role,
    state_sign,
    state_word,
    status_word,
)
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, short_date
from cockpit.studio.lessons.countdown import read_clock
from cockpit.studio.lessons.lesson import LessonId, State, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, are_together, called
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.studio.values import Value, field, replace
from cockpit.wording.queue import unusual

_LONGEST_NAME, _SHORTEST_NAME = 14, 6
_NARROW = 40  # columns; where there are more, or rows to spare, each half of the day is named
_QUARTER = timedelta(minutes=15)
_WORTH_TELLING = timedelta(minutes=30)
_MINUTE = timedelta(minutes=1)
FREE_ROW = "free"
"""What the id of a row begins with that is no lesson of the day."""

_ENDS = "╵"  # where the hours of her day end
_LONGEST_INSTRUMENT, _SHORTEST_INSTRUMENT = 12, 4
_DAY = timedelta(days=1)
_PAST = frozenset({State.FINISHED, State.ABSENT, State.CANCELLED, State.CANCELLED_LATE, State.CALLED_OFF})


class DayAfter(Value):
    """What comes after the lessons of a day: the stretches (UTC) that are free then, and the lessons of the day after it."""

    free: Sequence[tuple[datetime, datetime]]
    on: date
    bookings: Sequence[ScheduledLesson]


class QueueView(Value):
    """What the queue shows: the lessons of a day in order, at a moment (UTC), in so many columns and rows.

    `fates` are those of notes that have not gone out. `hours` are the moments between which she teaches on that day.
    Without a day `after` the queue ends with its last lesson. `brought` is what students bring along, in words.
    """

    bookings: Sequence[ScheduledLesson]
    now: datetime
    home: TeacherClock
    wrap_up_minutes: Mapping[int, int]
    shown_id: LessonId | None
    fates: Mapping[str, DeliveryStatus]
    width: int
    height: int
    hours: Sequence[tuple[datetime, datetime]]
    after: DayAfter | None = None
    brought: Mapping[LessonId, str] = field(default_factory=dict)

    def free_between(self, begins: datetime, ends: datetime) -> timedelta:
        """How long she teaches between two moments."""
        inside = (min(ends, last) - max(begins, first) for first, last in self.hours)
        return sum((each for each in inside if each > timedelta()), timedelta())


def queue_count(view: QueueView) -> str:
    """How much of the day is done: `2 of 6 taught`."""
    taught = sum(state_of(booking.lesson, view.now) is State.FINISHED for booking in view.bookings)
    return f"{taught} of {len(view.bookings)} taught" if view.bookings else "no lessons"


def queue_rows(view: QueueView) -> dict[str, Content]:
    """The rows by the id of their lesson; what is free, and the day after, have ids of their own.

    Where the day fits, a row is a quarter of an hour, and the family's time stands in a row below.
    """
    quarters = _quarters(view)
    is_empty = view.after is not None and not view.bookings
    names = called(view.bookings)
    columns = _columns(view, names.values(), is_to_scale=quarters is not None or is_empty)
    rows: dict[str, Content] = {}
    before = ""  # the half of the day that was named last
    for place, booking in enumerate(view.bookings):
        lesson = booking.lesson
        following = view.bookings[place + 1].lesson.starts_at if place + 1 < len(view.bookings) else None
        gap = following - lesson.planned_end if following is not None else timedelta()
        row = _Row(view, booking, names[lesson.id], columns, before)
        before = row.half
        most = quarters[place] if quarters is not None else 1
        own = min(most, -(-lesson.minutes // 15))
        lines = row.lines(own) if quarters is not None else [row.first(row.said)]
        between = [_rail(view, columns)] * (most - own)
        if gap < _WORTH_TELLING:
            lines += between
        rows[lesson.id] = Content("\n").join(lines)
        if following is not None and gap >= _WORTH_TELLING:
            free = view.free_between(lesson.planned_end, following)
            said = f"free {free // _MINUTE} min" if free >= _WORTH_TELLING else "outside your hours"
            first, before = _free(view, columns, lesson.planned_end, before, said)
            rows[f"{FREE_ROW} after {lesson.id}"] = Content("\n").join([first, *between[1:]])
    return rows | _after(view, columns, sum(map(_height, rows.values())), before)


def _after(view: QueueView, columns: "_Columns", taken: int, before: str) -> dict[str, Content]:
    """What is free after the last lesson, and the day after it, in the rows that are not taken; `before` is the half of the day that was named last."""
    if view.after is None:
        return {}
    ends = max((booking.lesson.planned_end for booking in view.bookings), default=None)
    free = [gap for gap in view.after.free if ends is not None and gap[0] >= ends and view.now < gap[1]]
    free = [gap for gap in free if gap[1] - gap[0] >= _WORTH_TELLING][: max(0, view.height - taken)]
    tomorrow = _tomorrow(view, columns, view.height - taken - len(free))
    spare = view.height - taken - len(free) - sum(map(_height, tomorrow))
    rows: dict[str, Content] = {}
    for begins, until in free:
        at, half = view.home.time_and_half(until)
        said = f"free until {at} {half}" if half != view.home.time_and_half(begins)[1] else f"free until {at}"
        first, before = _free(view, columns, begins, before, said)
        lines, quarters = [first], -(-(until - begins) // _QUARTER)
        if columns.is_to_scale and quarters <= spare:
            spare -= quarters
            lines += [_rail(view, columns)] * (quarters - 1)
            lines.append(_end(view, columns, until))
        rows[f"{FREE_ROW} from {begins}"] = Content("\n").join(lines)
    return rows | {f"{FREE_ROW} then {place}": row for place, row in enumerate(tomorrow)}


def end_row(view: QueueView) -> Content | None:
    """Draws the row below the last lesson of a day, with its end. None where the day is not drawn to scale."""
    if _quarters(view) is None:
        return None
    columns = _columns(view, called(view.bookings).values(), is_to_scale=True)
    return _end(view, columns, max(booking.lesson.planned_end for booking in view.bookings))


def _end(view: QueueView, columns: "_Columns", ends: datetime) -> Content:
    at, half = view.home.time_and_half(ends)
    pieces = (1, f"{at:>5}", role("quiet")), (7, half if columns.has_half_day else "", role("quiet"))
    return placed(view.width, *pieces, (columns.sign, _ENDS, role("line")))


def _tomorrow(view: QueueView, columns: "_Columns", room: int) -> list[Content]:
    """The day after under a heading of its own, in as many rows as there is room for; nothing where that is too little."""
    after = view.after
    if after is None or room < 2 + bool(after.bookings):
        return []
    is_tomorrow = after.on == view.home.date_of(view.now) + _DAY
    words = "TOMORROW" if is_tomorrow else short_date(after.on).upper()
    count = counted(len(after.bookings), "lesson") if after.bookings else "no lessons"
    rows = [Content("\n").join([Content(), heading(words, view.width - 1, count).pad_left(1)])]
    then = replace(view, bookings=after.bookings, shown_id=None, fates={})
    names, before = called(after.bookings), ""
    columns = _columns(then, names.values(), is_to_scale=columns.is_to_scale, at_least=columns)
    fits = len(after.bookings) if len(after.bookings) <= room - 2 else room - 3
    for booking in after.bookings[:fits]:
        row = _Row(then, booking, names[booking.lesson.id], columns, before)
        before = row.half
        rows.append(row.first(row.brief))
    if fits < len(after.bookings):
        more = (columns.sign + 2, f"{len(after.bookings) - fits} more", role("quiet"))
        rows.append(placed(view.width, more))
    return rows


def _height(row: Content) -> int:
    return row.plain.count("\n") + 1


def _rail(view: QueueView, columns: "_Columns") -> Content:
    """A row in which nothing is: the line of what is free goes through it."""
    return placed(view.width, (columns.sign, FREE, role("line")))


def _free(view: QueueView, columns: "_Columns", begins: datetime, before: str, said: str) -> tuple[Content, str]:
    """The row from which on she is free, and the half of its day."""
    at, half = view.home.time_and_half(begins)
    named = half if columns.has_half_day and half != before else ""
    pieces = (1, f"{at:>5}", role("quiet")), (7, named, role("quiet"))
    return placed(view.width, *pieces, (columns.sign, f"{FREE} {said}", role("quiet"))), half


def _quarters(view: QueueView) -> list[int] | None:
    """How many quarters of an hour lie from each lesson to the next; None where the day does not fit, or two share one."""
    if not view.bookings:
        return None
    begins = view.bookings[0].lesson.starts_at
    places = [(booking.lesson.starts_at - begins) // _QUARTER for booking in view.bookings]
    places.append(places[-1] + -(-view.bookings[-1].lesson.minutes // 15))
    each = [after - before for before, after in pairwise(places)]
    return each if places[-1] <= view.height and min(each) >= 2 else None


class _Columns(Value):
    """Where the parts of a row stand: its sign, its name in so many columns, and what is behind it.

    `what` is the room for an instrument, with so many digits of `minutes` two columns behind it.
    """

    has_half_day: bool
    is_to_scale: bool
    name: int
    what: int
    minutes: int

    @property
    def sign(self) -> int:
        """Where the sign stands, and the line below it."""
        return 10 if self.has_half_day else 7

    @property
    def behind(self) -> int:
        """Where the words behind a name begin."""
        return self.sign + 2 + self.name + (2 if self.is_to_scale else 1)


def _columns(view: QueueView, names: Iterable[str], *, is_to_scale: bool, at_least: _Columns | None = None) -> _Columns:
    """The columns of the lessons of a view, whose students are called by `names`, no narrower than others."""
    longest = max(map(cell_len, names), default=0)
    instrument = max((cell_len(b.lesson.instrument or "") for b in view.bookings), default=0)
    columns = _Columns(
        has_half_day=view.home.hours == 12 and (is_to_scale or view.width > _NARROW),
        is_to_scale=is_to_scale,
        name=max(min(_LONGEST_NAME, longest), at_least.name if at_least is not None else 0),
        what=max(min(_LONGEST_INSTRUMENT, instrument), at_least.what if at_least is not None else 0),
        minutes=max((len(str(b.lesson.minutes)) for b in view.bookings), default=0),
    )
    room = view.width - columns.behind - 2 - columns.minutes
    return columns if columns.what <= room else replace(columns, what=room if room >= _SHORTEST_INSTRUMENT else 0)


def _joined(facts: Sequence[tuple[str, str]]) -> tuple[str, str]:
    """Facts on one row, in the style of the first."""
    return "  ".join(words for words, _ in facts), facts[0][1] if facts else ""


class _Row:
    """One lesson in the queue; its half of the day is named where that is another than `before`."""

    def __init__(self, view: QueueView, booking: ScheduledLesson, name: str, columns: _Columns, before: str) -> None:
        self._view = view
        self._booking = booking
        self._columns = columns
        self._name = cut(name, columns.name)
        self._at, self.half = view.home.time_and_half(booking.lesson.starts_at)
        self._half = self.half if columns.has_half_day and self.half != before else ""
        above = takewhile(lambda each: each.lesson.id != booking.lesson.id, view.bookings)
        if any(are_together(each, booking) for each in above):
            self._at = WITH
        self._state = state_of(booking.lesson, view.now)
        self._sign, self._style, self._exception = self._told(view.fates.get(booking.lesson.id))

    def _told(self, fate: DeliveryStatus | None) -> tuple[str, str, str]:
        """The sign, its style, and what is not as planned."""
        if fate is not None and self._state is State.FINISHED:
            word, style = status_word(fate)
            return NEEDS_HER, style, word
        waits = (self._view.now - self._booking.lesson.starts_at) // _MINUTE
        if self._state is State.BOOKED and waits > 0 and any(b.lesson.is_live for b in self._view.bookings):
            return NEEDS_HER, role("warning", "bold"), f"waits for {waits} min"
        sign, style = state_sign(self._state)
        if self._booking.lesson.is_live:  # the figures and the row of the lesson are of one color
            style = role(CLOCK_ROLES[read_clock(self._view.bookings, self._view.now, self._view.wrap_up_minutes).phase])
        return sign, style, state_word(self._state) or rehearsed_words(self._booking.lesson)

    @property
    def said(self) -> tuple[str, str]:
        """What stands behind the name, with its style: what is not as planned, else the family's time."""
        facts = [(self._exception, self._style)] if self._exception else self._facts
        return _joined(facts)

    @property
    def _facts(self) -> list[tuple[str, str]]:
        """All that there is to say of the lesson, each with its style."""
        brought = self._view.brought.get(self._booking.lesson.id, "")
        usual = ["  ".join(unusual(self._booking.lesson)), self._there, brought]
        facts = [(self._exception, self._style), *((words, role("quiet")) for words in usual)]
        return [fact for fact in facts if fact[0]]

    @property
    def what(self) -> str:
        """The instrument, and the minutes in a column of their own."""
        room, instrument = self._columns.what, self._booking.lesson.instrument or ""
        return f"{padded(cut_at_word(instrument, room), room)}  {self._minutes}" if room else self._minutes

    @property
    def brief(self) -> tuple[str, str]:
        """What stands behind the name in the one row of another day, with its style; an instrument gives way to what is not as usual."""
        if self._exception:
            return self._exception, self._style
        said = "  ".join([self.what, *unusual(self._booking.lesson)])
        fits = cell_len(said) <= self._view.width - self._columns.behind
        return said if fits else "  ".join([self._minutes, *unusual(self._booking.lesson)]), role("quiet")

    @property
    def _minutes(self) -> str:
        return f"{self._booking.lesson.minutes:>{self._columns.minutes}}"

    @property
    def _there(self) -> str:
        return self._view.home.there(self._booking.lesson.starts_at, self._booking.family.zone) or ""

    def first(self, said: tuple[str, str]) -> Content:
        """The row with the time and the name, and what is said behind it."""
        lesson, sign, behind = self._booking.lesson, self._columns.sign, self._columns.behind
        style = role("quiet") if self._state in _PAST else role("text")
        style = self._style if lesson.is_live else style
        weight = " bold" if lesson.is_live else ""
        words, room, longest = said[0], max(0, self._view.width - behind), self._columns.name
        if words == self._exception:  # a name gives way to what is not as planned
            longest = max(min(longest, _SHORTEST_NAME), min(longest, longest + room - cell_len(words)))
            behind, room = behind - self._columns.name + longest, room + self._columns.name - longest
        while cell_len(words) > room and "  " in words:  # the last thing that is said is left out whole
            words = words.rpartition("  ")[0].rstrip()
        return placed(
            self._view.width,
            (0, CHOSEN if lesson.id == self._view.shown_id and not lesson.is_live else " ", role("text", "bold")),
            (1, f"{self._at:>5}", style + weight),
            (7, self._half, style),
            (sign, self._sign, self._style),
            (
                sign + 2,
                cut(self._name, longest),
                style if self._state in _PAST else f"{style.removesuffix(' bold')} bold",
            ),
            (behind, cut_at_word(words, room), said[1]),
        )

    def lines(self, count: int) -> list[Content]:
        """So many rows: the first with what is taught, a rail below the sign, and beside it what else there is to say."""
        lesson, width, sign = self._booking.lesson, self._view.width, self._columns.sign
        rail = self._style if lesson.is_live else role("quiet")
        facts = self._facts
        alone = (
            len(facts) if len(facts) < count else max(0, count - 2)
        )  # each on a row of its own, the rest on the last one
        beside = [*facts[:alone], *([_joined(facts[alone:])] if alone < len(facts) else [])]
        rows = [self.first((self.what, role("quiet")))]
        begun = (self._view.now - lesson.starts_at) // _QUARTER
        for place in range(1, count):
            words, style = beside[place - 1] if place <= len(beside) else ("", "")
            is_now = lesson.is_live and place == max(1, min(begun, count - 1))
            at, _ = self._view.home.time_and_half(self._view.now)
            now = [(1, f"{at:>5} {'─' * (sign - 7)}", rail)] if is_now else []
            rows.append(
                placed(
                    width,
                    *now,
                    (sign, "┨" if is_now else "┃", rail),
                    (sign + 2, cut_at_word(words, width - sign - 2), style),
                )
            )
        return rows
