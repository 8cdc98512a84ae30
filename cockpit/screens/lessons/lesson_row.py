"""The row on top of every screen but the lesson day: the running lesson's clock in one row, or the next one's."""

from textual.content import Content
from textual.widget import Widget

from cockpit.desk.desk import Desk
from cockpit.screens.lessons.countdown import (
    TINTED,
    figures_text,
    lesson_bar,
    parts_of,
    shows_hours,
    tint,
)
from cockpit.screens.look.roles import face_of
from cockpit.screens.look.show import CLOCK_ROLES, NEEDS_HER, Piece, cut, placed, role
from cockpit.screens.textual_parts.fast_compositor import refresh_changed
from cockpit.settings.settings import Settings
from cockpit.studio.clocks.words import short_date
from cockpit.studio.lessons.countdown import ClockFace, Phase, names_on, next_after, read_clock

_LONGEST_NAME = 18
_DATED = 70  # columns from which on the date stands before the time of day
_SHORTEST_BAR = 8


class LessonRow(Widget):
    """What is left of the running lesson, its line, and the time of day; what to do in the wrap-up and over time."""

    def __init__(self, desk: Desk, settings: Settings) -> None:
        super().__init__(id="lesson-row", classes="band")
        self._desk = desk
        self._settings = settings
        self._shown = Content()

    def on_mount(self) -> None:
        """Shows the time that it is."""
        self.tell_time()

    def tell_time(self) -> None:
        """Shows the time that it is; nothing is painted where nothing changed."""
        fresh, face = self._draw()
        tint(self, face.phase)
        before, self._shown = self._shown, fresh
        refresh_changed(self, [before], [fresh])

    def render(self) -> Content:
        """The row in its width."""
        self._shown, _ = self._draw()
        return self._shown

    def _draw(self) -> tuple[Content, ClockFace]:
        now, bookings, home = self._desk.clock.now(), self._desk.day.bookings_going_on, self._settings.preferences.home
        face = read_clock(bookings, now, self._settings.wrap_up_minutes)
        width, time = self.size.width, home.time(now)
        before = f"{short_date(home.date_of(now))}  " if width >= _DATED and face.booking is None else ""
        before = f"rehearsal  {before}" if self._desk.clock.is_rehearsal else before
        ends = width - 1 - len(time) - len(before)
        quiet = role("text" if face.phase in TINTED else "quiet")
        pieces: list[Piece] = [(width - 1 - len(time), time, role("text", "bold")), (ends, before, quiet)]
        at = 1
        for words, style in row_words(face):
            pieces.append((at, cut(words, max(0, ends - at - 1)), style))
            at += len(words) + 1
        room = ends - at - 3
        lost = self._desk.calls.lost
        if lost is not None:
            said = f"{NEEDS_HER} call lost {home.time_and_half(lost.lost_at)[0]}"
            style = role("text" if face.phase in TINTED else "warning", "bold")
            pieces.append((at + 1, cut(said, max(0, room)), style))
            return placed(width, *pieces), face
        following = next_after(bookings, face)
        if face.phase in TINTED and following is not None:
            digits, half = home.time_and_half(following.lesson.starts_at)
            starts = f"{digits} {half}".rstrip()
            ways = (f"NEXT {starts} {cut(following.student.name, _LONGEST_NAME)}", f"NEXT {starts}", f"NEXT {digits}")
            said = next((way for way in ways if len(way) <= room), "")  # the time of day is not given up for it
            pieces.append((at + 1, said, role("text", "bold")))
        elif face.booking is not None and face.phase is Phase.RUNNING and room >= _SHORTEST_BAR:
            _, shares = parts_of(face.booking.lesson, self._settings)
            pieces += lesson_bar(face, shares, at + 1, room, face_of(self.app.theme_variables))
        return placed(width, *pieces), face


def row_words(face: ClockFace) -> list[tuple[str, str]]:
    """What the row says of a lesson, each with its style: the time, what it counts, whose it is, and what to do."""
    if face.booking is None:
        return []
    style, name = role(CLOCK_ROLES[face.phase], "bold"), cut(names_on(face), _LONGEST_NAME)
    student = (name, role("text" if face.phase in TINTED else "student", "bold"))
    figures, quiet = figures_text(face), role("quiet")
    match face.phase:
        case Phase.BEFORE:
            return [(f"{figures} hours" if shows_hours(face) else figures, style), ("until", quiet), student]
        case Phase.WAITING:
            return [(figures, style), ("past the start of", quiet), student]
        case Phase.OVER:
            return [(figures, style), student, ("OVER TIME", style)]
        case Phase.WRAP_UP:
            return [(figures, style), ("left", role("text")), student, ("WRAP UP", style)]
        case _:
            return [(figures, style), ("left", quiet), student]
