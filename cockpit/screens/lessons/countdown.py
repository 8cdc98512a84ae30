"""The countdown: the clock of the running lesson, or of the next one, in large figures, with the lesson as a ruler."""

from datetime import timedelta

from textual.content import Content
from textual.widget import Widget

from cockpit.desk.desk import Desk
from cockpit.screens.lessons.figures import big_figures, ruler
from cockpit.screens.look.show import cut, role
from cockpit.settings.settings import Settings
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, minutes_of, span
from cockpit.studio.lessons.countdown import ClockFace, Phase, read_clock

_TALL = 5
_LOW = 3
_LONG = 10 * 3600
_ALMOST_A_MINUTE = timedelta(minutes=1) - timedelta(microseconds=1)
_ROLES = {
    Phase.RUNNING: "clock_running",
    Phase.WRAP_UP: "clock_wrap_up",
    Phase.OVER: "clock_over",
    Phase.BEFORE: "clock_waiting",
    Phase.WAITING: "clock_wrap_up",
    Phase.FREE: "clock_waiting",
    Phase.NO_LESSONS: "clock_waiting",
}


class Countdown(Widget):
    """The student, large figures, and the lesson as a ruler; of the day that is going on, whatever is shown."""

    def __init__(self, desk: Desk, settings: Settings) -> None:
        super().__init__(id="clock")
        self._desk = desk
        self._settings = settings
        self._face = ClockFace(phase=Phase.FREE)
        self._now = ""
        self._shown: Content | None = None

    def tell_time(self) -> None:
        """Shows the time that it is; nothing is painted where nothing changed."""
        now, settings = self._desk.clock.now(), self._settings
        self._face = read_clock(self._desk.day.bookings_going_on, now, settings.wrap_up_minutes)
        self._now = settings.preferences.home.time(now)
        if self._desk.clock.is_rehearsal:
            self._now = f"rehearsal · {self._now}"
        fresh = self._draw()
        if self._shown is None or fresh.markup != self._shown.markup:
            self._shown = fresh
            self.refresh()

    def render(self) -> Content:
        """The clock at the size it has now."""
        self._shown = self._draw()
        return self._shown

    def _draw(self) -> Content:
        face, width, settings = self._face, self.size.width, self._settings
        words = clock_words(face, settings.preferences.home, settings.wait_minutes)
        style = role(_ROLES[face.phase], "bold")
        rows = self._figures(max(len(word) for word in words[:2]))
        height = len(rows)
        room = max(0, width - len(rows[0]) - 4)
        below = ""
        if max(len(word) for word in words[:2]) > room:
            words, below = ("", "", ""), f"{words[0]} · {words[2] or words[1]}"
        elif len(words[2]) > room:
            words, below = (words[0], words[1], ""), words[2]
        beside = [""] * ((height - _LOW) // 2) + list(words) + [""] * height
        parts: list[tuple[str, str]] = [*self._heading(width), ("\n", "")]
        for row, word in zip(rows, beside, strict=False):
            parts += [(f" {row}  ", style), (f"{cut(word, room)}\n", role(_ROLES[face.phase]))]
        last = [(f" {cut(below, width - 2)}", style)] if below else self._ruler(width, style)
        return Content.assemble(*parts, *last)

    def _figures(self, beside: int) -> list[str]:
        text = figures_text(self._face)
        tall = big_figures(text, _TALL) if text else [""] * _TALL
        if self.size.height >= _TALL + 2 and len(tall[0]) + 4 + beside <= self.size.width:
            return tall
        return big_figures(text, _LOW) if text else [""] * _LOW

    def _heading(self, width: int) -> list[tuple[str, str]]:
        booking, before, facts = self._face.booking, " ", ""
        not_marked = self._face.not_marked
        done = f"{counted(not_marked, 'lesson')} not marked" if not_marked else "Done for today"
        name = "No lessons today" if self._face.phase is Phase.NO_LESSONS else done
        if booking is not None:
            name = booking.student.name
            before = " Next: " if self._face.phase in {Phase.BEFORE, Phase.WAITING} else " "
            facts = " · ".join(f for f in (booking.lesson.instrument, f"{booking.lesson.minutes} min") if f)
        if len(before) + len(name) + len(facts) + len(self._now) + 5 > width:
            facts = ""  # who it is, and what time, come first
        room = max(4, width - len(before) - len(facts) - len(self._now) - 5)
        name = cut(name, room)
        gap = " " * max(1, width - len(before) - len(name) - 2 - len(facts) - len(self._now) - 1)
        return [
            (before, role("quiet")),
            (name, role("student", "bold")),
            (f"  {facts}{gap}{self._now}", role("quiet")),
        ]

    def _ruler(self, width: int, style: str) -> list[tuple[str, str]]:
        if self._face.phase not in {Phase.RUNNING, Phase.WRAP_UP, Phase.OVER}:
            return [("─" * max(0, width), role("line"))]
        passed, left, cue, rest = ruler(self._face.share, self._face.wrap_up_share, max(1, width - 2))
        quiet = role("line")
        return [(" ", ""), (passed, style), (left, quiet), (cue, role("clock_wrap_up", "bold")), (rest, quiet)]


def clock_words(face: ClockFace, home: TeacherClock, wait_minutes: int) -> tuple[str, str, str]:
    """What stands beside the figures: what they count, until when, and what follows from it."""
    booking = face.booking
    if booking is None:
        return ("", "", "") if face.phase is Phase.NO_LESSONS else ("No more lessons", "", "")
    lesson = booking.lesson
    starts = home.time(lesson.starts_at)
    match face.phase:
        case Phase.BEFORE:
            return "hours to go" if _shows_hours(face) else "until the lesson", f"starts {starts}", ""
        case Phase.WAITING:
            left = wait_minutes - face.seconds // 60
            wait = f"wait {minutes_of(left)} longer" if left > 0 else f"{minutes_of(wait_minutes)} have passed"
            return "past the start", f"planned {starts}", wait
        case _:
            return _lesson_words(face, home)


def _lesson_words(face: ClockFace, home: TeacherClock) -> tuple[str, str, str]:
    if face.booking is None:
        return "", "", ""
    # Up to the whole minute, as lateness is: an end seconds after half past is not half past.
    ends = home.time(face.booking.lesson.ends_at + _ALMOST_A_MINUTE)
    late = " · ".join(
        f"{start.student} starts {minutes_of(start.minutes)} late"
        if start.has_time
        else f"no time left for {start.student}"
        for start in face.late
    )
    match face.phase:
        case Phase.OVER:
            return "OVER TIME", f"ended {ends}", late
        case Phase.WRAP_UP:
            return "left · WRAP UP", f"ends {ends}", late
        case _:
            return "left", f"ends {ends}", late


def figures_text(face: ClockFace) -> str:
    """The characters that are drawn large."""
    if face.booking is None:
        return ""
    if _shows_hours(face):
        return f"{face.seconds // 3600}:{face.seconds // 60 % 60:02d}"
    return ("+" if face.phase in {Phase.OVER, Phase.WAITING} else "") + span(face.seconds)


def _shows_hours(face: ClockFace) -> bool:
    """Whether the time is too long for seconds to say anything, or to fit beside the words."""
    return face.phase is Phase.BEFORE and face.seconds >= _LONG
