"""The rows of the queue: a lesson each, its columns in line with the others', and between them what is free."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from rich.cells import cell_len
from textual.content import Content

from cockpit.screens.look.show import (
    CHOSEN,
    CLOCK_ROLES,
    FREE,
    NEEDS_HER,
    cut,
    cut_at_word,
    placed,
    rehearsed_words,
    role,
    state_sign,
    state_word,
    status_word,
)
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.countdown import read_clock
from cockpit.studio.lessons.lesson import LessonId, State, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, called
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.wording.queue import unusual

_LONGEST_NAME, _SHORTEST_NAME = 14, 6
_NARROW = 40  # columns; where there are more, or rows to spare, each half of the day is named
_QUARTER = timedelta(minutes=15)
_WORTH_TELLING = timedelta(minutes=30)
_MINUTE = timedelta(minutes=1)
_PAST = frozenset({State.FINISHED, State.ABSENT, State.CANCELLED, State.CANCELLED_LATE, State.CALLED_OFF})


@dataclass(frozen=True, slots=True, kw_only=True)
class QueueView:
    """What the queue shows: the lessons of a day in order, at a moment (UTC), in so many columns and rows.

    `fates` are those of notes that have not gone out.
    """

    bookings: Sequence[ScheduledLesson]
    now: datetime
    home: TeacherClock
    wrap_up_minutes: Mapping[int, int]
    shown_id: LessonId | None
    fates: Mapping[str, DeliveryStatus]
    width: int
    height: int


def queue_count(view: QueueView) -> str:
    """How much of the day is done: `2 of 6 taught`."""
    taught = sum(state_of(booking.lesson, view.now) is State.FINISHED for booking in view.bookings)
    return f"{taught} of {len(view.bookings)} taught" if view.bookings else "no lessons"


def queue_rows(view: QueueView) -> dict[str, Content]:
    """The rows by the id of their lesson; what is free between two lessons has an id of its own.

    Where the day fits, a row is a quarter of an hour, and the family's time stands in a row below.
    """
    quarters = _quarters(view)
    has_half_day = view.home.hours == 12 and (quarters is not None or view.width > _NARROW)
    names = called(view.bookings)
    longest = min(_LONGEST_NAME, max(map(cell_len, names.values()), default=0))
    rows: dict[str, Content] = {}
    before = ""  # the half of the day that was named last
    for place, booking in enumerate(view.bookings):
        lesson = booking.lesson
        following = view.bookings[place + 1].lesson.starts_at if place + 1 < len(view.bookings) else None
        gap = following - lesson.planned_end if following is not None else timedelta()
        at, half = view.home.time_and_half(lesson.starts_at)
        row = _Row(view, booking, names[lesson.id], longest, at, _named(half, before) if has_half_day else None)
        before = half
        most = quarters[place] if quarters is not None else 1
        own = min(most, -(-lesson.minutes // 15))
        lines = row.lines(own) if quarters is not None else [row.first(row.said)]
        between = [placed(view.width, (row.sign_column, FREE, role("line")))] * (most - own)
        if gap < _WORTH_TELLING:
            lines += between
        rows[lesson.id] = Content("\n").join(lines)
        if gap >= _WORTH_TELLING:
            at, half = view.home.time_and_half(lesson.planned_end)
            first = placed(
                view.width,
                (1, f"{at:>5}", role("quiet")),
                (7, _named(half, before) if has_half_day else "", role("quiet")),
                (row.sign_column, f"{FREE} free {gap // _MINUTE} min", role("quiet")),
            )
            before = half
            rows[f"free after {lesson.id}"] = Content("\n").join([first, *between[1:]])
    return rows


def _named(half: str, before: str) -> str:
    """The half of the day where that is another one than `before`."""
    return half if half != before else ""


def _quarters(view: QueueView) -> list[int] | None:
    """How many quarters of an hour lie from each lesson to the next; None where the day does not fit, or two share one."""
    if not view.bookings:
        return None
    begins = view.bookings[0].lesson.starts_at
    places = [(booking.lesson.starts_at - begins) // _QUARTER for booking in view.bookings]
    places.append(places[-1] + -(-view.bookings[-1].lesson.minutes // 15))
    each = [after - before for before, after in pairwise(places)]
    return each if places[-1] <= view.height and min(each) >= 2 else None


class _Row:
    """One lesson in the queue. `half` is None where halves of the day are not named."""

    def __init__(
        self, view: QueueView, booking: ScheduledLesson, name: str, longest: int, at: str, half: str | None
    ) -> None:
        self._view = view
        self._booking = booking
        self._name = cut(name, longest)
        self._longest = longest
        self._at = at
        self._half = half
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
    def sign_column(self) -> int:
        """Where the sign stands, and the line below it."""
        return 7 if self._half is None else 10

    @property
    def said(self) -> tuple[str, str]:
        """What stands behind the name, with its style: what is not as planned, else the family's time."""
        if self._exception:
            return self._exception, self._style
        return "  ".join(filter(None, [*unusual(self._booking.lesson), self._there])), role("quiet")

    @property
    def _there(self) -> str:
        return self._view.home.there(self._booking.lesson.starts_at, self._booking.family.zone) or ""

    def first(self, said: tuple[str, str]) -> Content:
        """The row with the time and the name, and what is said behind it."""
        lesson, sign = self._booking.lesson, self.sign_column
        style = role("quiet") if self._state in _PAST else role("text")
        style = self._style if lesson.is_live else style
        weight = " bold" if lesson.is_live else ""
        room = max(0, self._view.width - sign - 3 - self._longest)
        words = said[0] if cell_len(said[0]) <= room else said[0].partition("  ")[0]
        # A name gives way to what is not as planned.
        short = min(self._longest, max(_SHORTEST_NAME, self._view.width - sign - 3 - cell_len(words)))
        longest = short if self._exception and words == self._exception else self._longest
        behind = sign + 3 + longest
        return placed(
            self._view.width,
            (0, CHOSEN if lesson.id == self._view.shown_id and not lesson.is_live else " ", role("text", "bold")),
            (1, f"{self._at:>5}", style + weight),
            (7, self._half or "", style),
            (sign, self._sign, self._style),
            (
                sign + 2,
                cut(self._name, longest),
                style if self._state in _PAST else f"{style.removesuffix(' bold')} bold",
            ),
            (behind, cut_at_word(words, max(0, self._view.width - behind)), said[1]),
        )

    def lines(self, count: int) -> list[Content]:
        """So many rows: the first with what is taught, a rail below the sign, and beside it what else there is to say."""
        lesson, width, sign = self._booking.lesson, self._view.width, self.sign_column
        minutes = f"{lesson.minutes:>{width - sign - 3 - self._longest}}"
        what = f"{cut(lesson.instrument or '', len(minutes) - 4):{len(minutes) - 3}}{lesson.minutes:>3}"
        rail = self._style if lesson.is_live else role("quiet")
        beside = [self.said, *([(self._there, role("quiet"))] if self.said[0] != self._there else [])]
        rows = [self.first((what, role("quiet")))]
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
                    (sign + 2, cut(words, width - sign - 2), style),
                )
            )
        return rows
