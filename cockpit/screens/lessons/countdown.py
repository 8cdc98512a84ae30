"""The countdown: the clock of the running lesson, or of the next one, in large figures, with the lesson as a line of music."""

from collections.abc import Callable, Sequence
from datetime import timedelta

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

from cockpit.desk.day.calls import LostCall
from cockpit.desk.desk import Desk
from cockpit.screens.lessons.figures import big_figures, music_line
from cockpit.screens.look.roles import Face, face_of
from cockpit.screens.look.show import CLOCK_ROLES, NEEDS_HER, OPEN, PRIVATE, REMEMBER, Piece, cut, placed, role
from cockpit.screens.textual_parts.fast_compositor import refresh_changed
from cockpit.settings.settings import Settings
from cockpit.studio.assignments.last_lesson import Sheet
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, minutes_of, short_date, span
from cockpit.studio.lessons.countdown import ClockFace, Phase, names_on, next_after, read_clock
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.pacing import pacing_of
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.areas import AnyArea
from cockpit.studio.notes.vocabulary import Labels
from cockpit.wording.queue import instrument_and_minutes

_TALL, _LOW = 5, 3
_WIDE, _TWO_PANES = 130, 70  # columns: from the first on, what to begin with stands in the band
_BESIDE = 20  # columns beside the tall figures at least
_TIME = 12  # columns for the time of day, and a gap
_NEXT, _HEADING = 6, 11  # columns of NEXT, and of the longest heading beside the figures
_LONGEST_NAME = 18
_NEAR = 3  # columns that the name of the last part may stand before its bar line
_LONG, _LONG_WHERE_NARROW = 10 * 3600, 3600
_ALMOST_A_MINUTE = timedelta(minutes=1) - timedelta(microseconds=1)
TINTED = frozenset({Phase.WRAP_UP, Phase.OVER})
"""Where the ground has the color of the clock: only that and the text can be read on it."""

_RUNNING = frozenset({Phase.RUNNING, *TINTED})


class Countdown(Widget):
    """The student, large figures, who is next, and the lesson as a line; of the day that is going on, whatever is shown.

    `finish` is the name of the key that finishes a lesson; `so_far` says what its notes hold, and `typed_last` the area of
    their last assignment. The ground is tinted for the wrap-up and over time.
    """

    def __init__(
        self,
        desk: Desk,
        settings: Settings,
        finish: str,
        so_far: Callable[[], str],
        typed_last: Callable[[], AnyArea | None],
    ) -> None:
        super().__init__(id="clock", classes="band")
        self._desk = desk
        self._settings = settings
        self._finish = finish
        self._face = ClockFace(phase=Phase.FREE)
        self._lost: LostCall | None = None
        self._now = desk.clock.now()
        self._so_far = so_far
        self._typed_last = typed_last
        self._begin_with: list[tuple[str, str, str]] = []
        self._shown: list[Content] = []

    def tell_time(self) -> None:
        """Shows the time that it is; nothing is painted where nothing changed."""
        self._read_clock()
        tint(self, self._face.phase)
        before, self._shown = self._shown, self._draw()
        refresh_changed(self, before, self._shown)

    def read_again(self, shown: ScheduledLesson | None, sheet: Sheet | None) -> None:
        """Reads what the lesson is to begin with; called after each step, with the lesson and the sheet that are shown."""
        self._read_clock()
        booking, self._begin_with = self._face.booking, []
        if booking is not None and self.app.size.width >= _WIDE:
            is_shown = shown is not None and shown.lesson.id == booking.lesson.id
            own = sheet if sheet is not None and is_shown else self._desk.notes.sheet(booking)
            self._begin_with = begin_with(self._desk, booking, own)

    @property
    def following(self) -> ScheduledLesson | None:
        """The lesson that comes after the running one."""
        return next_after(self._desk.day.bookings_going_on, self._face)

    def _read_clock(self) -> None:
        self._now = self._desk.clock.now()
        self._face = read_clock(self._desk.day.bookings_going_on, self._now, self._settings.wrap_up_minutes)
        self._lost = self._desk.calls.lost

    def render(self) -> Content:
        """The clock at the size it has now."""
        self._shown = self._draw()
        return Content("\n").join(self._shown)

    @property
    def _look(self) -> Face:
        return face_of(self.app.theme_variables)

    @property
    def _home(self) -> TeacherClock:
        return self._settings.preferences.home

    @property
    def _is_tinted(self) -> bool:
        return self._face.phase in TINTED

    @property
    def _quiet(self) -> str:
        """The style of what is expected."""
        return role("text" if self._is_tinted else "quiet")

    def _draw(self) -> list[Content]:
        width, height = self.size
        is_narrow = width < _TWO_PANES
        text = figures_text(self._face, is_narrow=is_narrow)
        is_tall = height >= _TALL + 3 and (not text or len(big_figures(text, _TALL)[0]) + _BESIDE <= width)
        figures = (
            big_figures(text, _TALL if is_tall else _LOW, self._look) if text else [""] * (_TALL if is_tall else _LOW)
        )
        style, gap = role(CLOCK_ROLES[self._face.phase]), 4 if width >= _TWO_PANES else 3
        beside = len(figures[0]) + gap if text else 1
        rows: list[list[Piece]] = [[(1, line, f"{style} bold")] for line in figures]
        if is_tall:  # who it is stands above the figures, else beside them
            rows.insert(0, [])
        rows[0] += [*self._who(1 if is_tall else beside, width), *self._time(width, is_tall=is_tall)]
        first, taken = 2 if is_tall else 1, beside
        said = clock_words(self._face, self._home, self._settings.wait_minutes, self._finish, is_narrow=is_narrow)
        if self._lost is not None:  # in their place, beside who is next: nothing else moves
            beyond = self._next(is_tall=is_tall) if width >= _TWO_PANES else []
            room = width - beside - max((cell_len(line) + 3 for line in beyond), default=0)
            said = [*lost_words(self._lost, self._face, self._home, room), *said][: len(rows) - first]
        for row, (words, name) in enumerate(said):
            words = words if beside + cell_len(words) <= width else words.partition("  ")[0]
            if first + row < len(rows):
                rows[first + row].append((beside, words, name))
                taken = max(taken, beside + cell_len(words))
            else:
                rows[-1].append((taken + 2, words, name))
        for row, pieces in enumerate(self._right(taken + 2, width, is_tall=is_tall), first):
            rows[row] += pieces
        return [placed(width, *row) for row in [*rows, *self._line(width)][:height]]

    def _who(self, column: int, width: int) -> list[Piece]:
        booking, not_marked = self._face.booking, self._face.not_marked
        if booking is None:
            done = f"{counted(not_marked, 'lesson')} not marked" if not_marked else "Done for today"
            said = "No lessons today" if self._face.phase is Phase.NO_LESSONS else done
            return [(column, said, role("text", "bold"))]
        ends = width - (_TIME if width >= _TWO_PANES else 0)
        name = cut(names_on(self._face), max(4, ends - column))
        at = column + cell_len(name) + 1
        what = instrument_and_minutes(booking.lesson)
        fits = at + cell_len(what) <= ends
        return [(column, name, self._name_style), *([(at, what, self._quiet)] if fits else [])]

    @property
    def _name_style(self) -> str:
        return role("text" if self._is_tinted else "student", "bold")

    def _time(self, width: int, *, is_tall: bool) -> list[Piece]:
        if width < _TWO_PANES:
            return []  # the last row of the screen says it
        time = self._home.time(self._now)
        before = "rehearsal  " if self._desk.clock.is_rehearsal else ""
        if is_tall and width >= _TWO_PANES:
            before += f"{short_date(self._home.date_of(self._now))}  "
        column = width - 1 - len(time)
        return [(column, time, role("text", "bold")), (column - len(before), before, self._quiet)]

    def _right(self, begins: int, width: int, *, is_tall: bool) -> list[list[Piece]]:
        """Who is next, at the right end; before it, where there is room, what the lesson is to begin with."""
        lines = self._next(is_tall=is_tall)
        column = width - 1 - max((cell_len(line) for line in lines), default=0)
        if column < begins:
            lines, column = [], width
        rows: list[list[Piece]] = [[(column, line, self._quiet)] for line in lines]
        if lines:
            at, _, name = lines[0].partition("  ")
            rows[0] = [
                *([(column - _NEXT, "NEXT", f"{self._quiet} bold")] if column - _NEXT >= begins else []),
                (column, at, role("text")),
                (column + cell_len(at) + 2, name, role("text", "bold")),
            ]
        room = column - _NEXT - begins - 4 - _HEADING
        if is_tall and room >= _HEADING:
            rows += [[] for _ in range(len(self._begin_with[:_TALL]) - len(rows))]
            for row, (head, words, style) in zip(rows, self._begin_with, strict=False):
                style = role("text") if self._is_tinted else style
                row += [(begins + 2, head, f"{self._quiet} bold"), (begins + 2 + _HEADING, cut(words, room), style)]
        return rows

    def _next(self, *, is_tall: bool) -> list[str]:
        face, following = self._face, self.following
        if following is None:
            return []
        lesson = following.lesson
        at, _ = self._home.time_and_half(lesson.starts_at)
        line = f"{at}  {cut(following.student.name, _LONGEST_NAME)}"
        if face.late:  # the first of them is this one
            late, more = face.late[0], len(face.late) - 1
            waits = int((self._now - lesson.starts_at).total_seconds() // 60)
            said = f"starts {minutes_of(late.minutes)} late" if late.has_time else "no time left"
            said = f"waits for {waits} min" if waits > 0 and late.has_time else said
            return [line, f"{said}, {more} more late" if more else said]
        if face.phase is Phase.WRAP_UP:
            return [line, f"in {minutes_of(-int(-(lesson.starts_at - self._now).total_seconds() // 60))}"]
        there = self._home.there(lesson.starts_at, following.family.zone)
        what = [instrument_and_minutes(lesson)] if is_tall else []
        return [line, *what, *([there] if there else [])]

    def _line(self, width: int) -> list[list[Piece]]:
        """The lesson as a line of music, and below it its parts; in the wrap-up and after it, what the notes hold so far."""
        face, length = self._face, max(3, width - 2)
        if face.booking is None or face.phase not in _RUNNING:
            return [[(1, self._look.rest_sign * length, role("line"))]]
        names, shares = parts_of(face.booking.lesson, self._settings)
        bar = lesson_bar(face, shares, 1, length, self._look)
        if self._is_tinted:
            return [bar, [(1, cut(self._so_far(), length), role("text"))]]
        typed = parts_for(self._typed_last(), names, self._settings.preferences.labels)
        return [bar, part_names(names, shares, face, length, typed)]


def tint(band: Widget, phase: Phase) -> None:
    """Gives a band the ground of the wrap-up or of over time, or takes it away."""
    band.update_classes({"-wrap-up": phase is Phase.WRAP_UP, "-over": phase is Phase.OVER})


def parts_of(lesson: Lesson, settings: Settings) -> tuple[list[str], list[float]]:
    """The names of the parts that a lesson's time is planned in, and where each begins, 0 to 1."""
    parts = pacing_of(lesson, settings.pacing)
    shares = [1 - (lesson.ends_at - at).total_seconds() / (lesson.all_minutes * 60) for _, at in parts]
    return [name for name, _ in parts], shares


def lesson_bar(face: ClockFace, shares: Sequence[float], column: int, length: int, look: Face) -> list[Piece]:
    """The running lesson as a line of music from a column on, with a bar line where each part begins."""
    style, is_tinted = role(CLOCK_ROLES[face.phase]), face.phase in TINTED
    played, now, ahead, end = music_line(length, face.share, shares or [face.wrap_up_share], look.rest_sign)
    return [
        (column, played, style),
        (column + len(played), now, style),
        (column + len(played + now), ahead, role("text" if is_tinted else "line")),
        (column + len(played + now + ahead), end, role("text" if is_tinted else "quiet")),
    ]


def begin_with(desk: Desk, booking: ScheduledLesson, sheet: Sheet) -> list[tuple[str, str, str]]:
    """What a lesson is to begin with, a row each: a heading at the first of each kind, the words, their style."""
    last = sheet.last
    owed = desk.calls.owed_to(booking.student.id)
    calls = () if owed is None else (f"{minutes_of(owed.minutes)} of a lost call: F3 gives them",)
    kinds = (
        ("BEGIN WITH", REMEMBER, last.next_time if last is not None else (), role("text")),
        ("YOU OWE", OPEN, (*calls, *desk.reviewing.owed_to(booking.student.id)), role("text")),
        ("PRIVATE", PRIVATE, filter(None, (booking.student.remark,)), role("private", "italic")),
    )
    return [
        ("" if place else head, f"{sign} {words}", style)
        for head, sign, texts, style in kinds
        for place, words in enumerate(texts)
    ]


def parts_for(area: AnyArea | None, names: Sequence[str], labels: Labels) -> frozenset[int]:
    """Which parts of a lesson are for an area, by their names: what such a label means, or how the area's name begins."""
    if area is None:
        return frozenset()
    meant = ((place, name.casefold(), labels.meaning(name)) for place, name in enumerate(names))
    return frozenset(
        place
        for place, name, meaning in meant
        if str(area).startswith(name) or (meaning is not None and meaning.area == area)
    )


def part_names(
    names: Sequence[str], shares: Sequence[float], face: ClockFace, length: int, typed: frozenset[int] = frozenset()
) -> list[Piece]:
    """The names of a lesson's parts below its line, the present one in capitals, with the minutes that are left of it.

    Those that are `typed` are underlined. Where there is no room, the names around the present one give way.
    """
    begins = [1 + round(share * length) + (place > 0) for place, share in enumerate(shares)]
    begun = [place for place, share in enumerate(shares) if share <= face.share]
    here = begun[-1] if begun else 0
    pieces: list[Piece] = []
    for place, (name, column) in enumerate(zip(names, begins, strict=True)):
        more = ("underline",) if place in typed else ()
        if place == here:
            until = shares[place + 1] if place + 1 < len(shares) else 1.0
            minutes = face.booking.lesson.all_minutes if face.booking is not None else 0
            left = -int(-((until - face.share) * minutes - 1e-6) // 1)
            name, left_of_it = name.upper(), f" {left} left"
            column = max(1, min(column, length - cell_len(name + left_of_it)))
            pieces = [piece for piece in pieces if piece[0] + cell_len(piece[1]) < column]
            pieces.append((column, name, role("clock_running", "bold", *more)))
            pieces.append((column + cell_len(name), left_of_it, role("clock_running", "bold")))
        elif place + 1 == len(names) and cell_len(name) <= length + 1 - column + _NEAR:
            column = min(column, length + 1 - cell_len(name))
            pieces += [(column, name, role("quiet", *more))] if pieces[-1][0] + cell_len(pieces[-1][1]) < column else []
        elif not pieces or pieces[-1][0] + cell_len(pieces[-1][1]) < column:
            room = (begins[place + 1] if place + 1 < len(begins) else length + 1) - column
            if cell_len(name) < room:
                pieces.append((column, name, role("quiet", *more)))
    return pieces


def clock_words(
    face: ClockFace, home: TeacherClock, wait_minutes: int, finish: str, *, is_narrow: bool = False
) -> list[tuple[str, str]]:
    """What stands beside the figures, each with its style: what they count, until when, and what follows from it."""
    style, quiet = role(CLOCK_ROLES[face.phase]), role("quiet")
    booking = face.booking
    if booking is None:
        return [("No more lessons", quiet)] if face.not_marked else []
    lesson = booking.lesson
    starts = home.time(lesson.starts_at)
    # Up to the whole minute, as lateness is: an end seconds after half past is not half past.
    ends = home.time(lesson.ends_at + _ALMOST_A_MINUTE)
    match face.phase:
        case Phase.BEFORE:
            has_hours = shows_hours(face, is_narrow=is_narrow)
            return [("hours to go" if has_hours else "until the lesson", style), (f"starts {starts}", quiet)]
        case Phase.WAITING:
            left = wait_minutes - face.seconds // 60
            wait = f"wait {left} min" if left > 0 else f"{wait_minutes} min are over"
            return [("past the start", style), (wait, style), (f"planned {starts}", quiet)]
        case Phase.OVER:
            return [(f"OVER TIME  {finish} finishes", f"{style} bold"), (f"since {ends}", role("text"))]
        case Phase.WRAP_UP:
            return [(f"WRAP UP  {finish} finishes", f"{style} bold"), (f"left, ends {ends}", role("text"))]
        case _:
            return [(f"left of {lesson.all_minutes}", style), (f"ends {ends}", quiet)]


def lost_words(lost: LostCall, face: ClockFace, home: TeacherClock, room: int) -> list[tuple[str, str]]:
    """What stands in so many columns while the call is lost, each with its style: since when, and whom to telephone."""
    style = role("text" if face.phase in TINTED else "warning", "bold")
    at, _ = home.time_and_half(lost.lost_at)
    said = f"{NEEDS_HER} call lost {at}"
    short = f"{NEEDS_HER} lost {at}"
    rows = [((f"{said}, {lost.minutes} min", f"{short}, {lost.minutes} min", short), style)]
    for each in lost.phones[:2]:
        phone = each.phone or ""
        rows.append(((f"{phone}  {each.name or ''}".rstrip(), phone, "".join(phone.split())), role("text")))
    return [(next((words for words in ways if cell_len(words) <= room), ways[-1]), style) for ways, style in rows]


def figures_text(face: ClockFace, *, is_narrow: bool = False) -> str:
    """The characters that are drawn large."""
    if face.booking is None:
        return ""
    if shows_hours(face, is_narrow=is_narrow):
        return f"{face.seconds // 3600}:{face.seconds // 60 % 60:02d}"
    return ("+" if face.phase in {Phase.OVER, Phase.WAITING} else "") + span(face.seconds)


def shows_hours(face: ClockFace, *, is_narrow: bool = False) -> bool:
    """Whether the time is too long for seconds to say anything, or to fit beside the words on a screen that `is_narrow`."""
    return face.phase is Phase.BEFORE and face.seconds >= (_LONG_WHERE_NARROW if is_narrow else _LONG)
