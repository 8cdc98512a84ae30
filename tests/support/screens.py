"""The program on a screen without a terminal: the sample studio, a clock that stands still, keys and taps.

The sample's moment is Tuesday 1 December 2026, 16:12 in Chicago: Eilidh and Teodor are finished, Ilse's cello lesson
runs, Mireille, Nalani and Ishaan follow.
"""

import asyncio
import contextlib
import shutil
import sqlite3
import unicodedata
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator, Mapping
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from threading import Event
from typing import Any

from support.sample import taught
from textual.css.model import RuleSet
from textual.events import Key, Paste
from textual.keys import REPLACED_KEYS, _character_to_key, _get_unicode_name_from_key
from textual.pilot import Pilot
from textual.widgets import OptionList

from cockpit.clock import SetClock
from cockpit.sample import history
from cockpit.screens.app import CockpitApp
from cockpit.screens.commands.own_keys import with_own_keys
from cockpit.screens.day.day import DayScreen
from cockpit.screens.day.notes import NotesPane
from cockpit.screens.look.theming import bundled_looks
from cockpit.screens.opening import Opening
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.notice import Notice
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.values import replace
from cockpit.wiring import Studio, studio_at

NEVER = 86_400.0  # what is done by itself when she is idle would be on the screen of a slow machine, and of no other


@dataclass
class Cockpit:
    """An open program, what it stands on, and the few questions that the tests ask its store."""

    app: CockpitApp
    pilot: Pilot[None]
    studio: Studio
    clock: SetClock
    folder: Path
    _pressed_at: float = 0.0

    @property
    def day(self) -> DayScreen:
        return next(screen for screen in self.app.screen_stack if isinstance(screen, DayScreen))

    @property
    def notes(self) -> NotesPane:
        return self.day.query_one(NotesPane)

    @property
    def said(self) -> str:
        return self.app.screen.query_one(Notice).sentence

    @property
    def shown(self) -> str | None:
        """The student whose lesson is shown."""
        booking = self.studio.desk.day.shown
        return booking.student.name if booking is not None else None

    def id_of(self, student: str) -> LessonId:
        """The lesson of a student on the open day."""
        return next(b.lesson.id for b in self.studio.desk.day.bookings if b.student.name == student)

    def lesson(self, student: str) -> Lesson:
        """A lesson of the sample's day as the store has it."""
        begins = history.MOMENT - timedelta(hours=12)
        lessons = self.studio.store.reading.lessons_between(begins, begins + timedelta(hours=24))
        people = self.studio.store.reading.people()
        return next(lesson for lesson in lessons if people.students[lesson.student_id].name == student)

    def is_recorded(self, student: str) -> bool:
        """Whether the store has anything of a lesson of the open day."""
        with contextlib.closing(sqlite3.connect(self.folder / "studio.db")) as connection, connection:
            found = connection.execute("SELECT 1 FROM lesson WHERE id = ?", (self.id_of(student),)).fetchone()
        return found is not None

    def body(self, student: str) -> str:
        """The notes of a lesson as the store has them."""
        lesson_id = self.id_of(student)
        note = self.studio.store.reading.notes([lesson_id]).get(lesson_id)
        return note.body if note is not None else ""

    def marks(self) -> dict[str, str]:
        """The marks on the last assignments of the lesson that is shown."""
        booking = self.studio.desk.day.shown
        assert booking is not None
        last = self.studio.desk.notes.sheet(booking).last
        assert last is not None
        marks = self.studio.store.reading.marks([last.lesson_id])
        return {line: str(mark.mark) for (_, line), mark in marks.items()}

    def wait_for_notes(self) -> None:
        """Waits until the index of notes has caught up."""
        done = Event()
        self.studio.desk.index_notes(done.set)
        assert done.wait(20)

    async def press(self, *keys: str, apart: float = 1.0) -> None:
        """Presses keys, each when the one before has been done, and paints at last. They come so many seconds apart."""
        for key in keys:
            name = _character_to_key(key) if len(key) == 1 and not key.isalnum() else key
            try:
                sign = unicodedata.lookup(_get_unicode_name_from_key(REPLACED_KEYS.get(name, name)))
            except KeyError:
                sign = key if len(key) == 1 else None
            pressed = Key(name, sign)
            self._pressed_at = pressed.time = self._pressed_at + apart
            self.app.post_message(pressed)
            await self._done()
        self.paint()

    async def done(self) -> None:
        """Waits until all that was set in motion has been done, as the program itself waits before another key; paints."""
        await self._done()
        self.paint()

    async def _done(self) -> None:
        order = self.app._input_order
        while self.app.is_running and order is not None and order.is_busy():
            await asyncio.sleep(0.001)
        if self.app.is_running:
            self.app.screen._on_timer_update()

    def paint(self) -> None:
        """Paints what has changed since it was painted last; it is not painted by itself (`painted_when_asked`)."""
        if self.app.is_running:
            PAINT(self.app.screen)

    async def type(self, text: str) -> None:
        await self.press(*(" " if letter == " " else letter for letter in text), apart=0.1)

    async def paste(self, text: str) -> None:
        """Puts a text where the cursor is, as a terminal does with pasted text: one step, however long it is."""
        self.app.post_message(Paste(text))
        await self.done()

    async def tap(self, command_id: str) -> None:
        """Taps a command in the key strip of the screen on top; a notice over it is tapped away."""
        self.app.screen.query_one(Notice).go()
        await self.done()
        strip = self.app.screen.query_one(KeyStrip)
        item = next(item for item in strip._items if item.command.id == command_id)
        content = strip.content_region.offset - strip.region.offset
        await self.pilot.click(strip, offset=(content.x + item.begins, content.y))
        await self.done()

    async def choose(self, option_id: str) -> None:
        """Chooses a row of the list on the screen on top, as the enter key does."""
        listing = self.app.screen.query_one(OptionList)
        listing.focus()
        listing.highlighted = [option.id for option in listing.options].index(option_id)
        await self.press("enter")

    def drawn(self) -> str:
        """The screen as text."""
        return "\n".join(strip.text.rstrip() for strip in self.app.screen._compositor.render_strips()) + "\n"


PAINT = FastScreen._compositor_refresh


@contextlib.contextmanager
def painted_when_asked() -> Iterator[None]:
    """Has the screen on top wait with its painting until a test asks for it: a quarter of what a test of a screen takes.

    Otherwise it is painted after each key, and in between whenever 8 ms are over.
    """

    def refresh(screen: FastScreen[Any]) -> None:
        if screen is screen.app.screen:
            screen._dirty_widgets.clear()  # the compositor knows them already
        else:
            PAINT(screen)

    FastScreen._compositor_refresh = refresh
    try:
        yield
    finally:
        FastScreen._compositor_refresh = PAINT


_Rules = dict[tuple[object, ...], list[RuleSet]]
_RULES: dict[tuple[tuple[str, str], ...], _Rules] = {}


@contextlib.contextmanager
def _style_sheet_read_once(app: CockpitApp) -> Iterator[None]:
    """Lends a program the rules that earlier ones read from the same style sheets in the same colors: a tenth of a start."""
    sheet = app.stylesheet
    colors = tuple(sorted(sheet._variables.items()))
    rules = _RULES.setdefault(colors, {})
    sheet._parse_cache.grow(1024)
    for key, known in rules.items():
        sheet._parse_cache[key] = known
    yield
    if tuple(sorted(sheet._variables.items())) == colors:
        rules.update((key, sheet._parse_cache[key]) for key in list(sheet._parse_cache.keys()))


@asynccontextmanager
async def cockpit(
    folder: Path,
    size: tuple[int, int] = (80, 40),
    at: datetime = history.MOMENT,
    keys: Mapping[str, str] | None = None,
    proposals: bool = False,
    abbreviations: Mapping[str, str] | None = None,
    signs: str = "drawn",
) -> AsyncIterator[Cockpit]:
    """The program on the sample studio, its history taught up to a moment.

    Proposals come from a thread when there is time: only who asks for them gets them on the screen.
    """
    shutil.copytree(taught(at), folder, dirs_exist_ok=True)
    clock = SetClock(at)
    with studio_at(folder, clock, to_write=True) as studio:
        studio.desk.day.open()
        settings = replace(studio.settings, proposals=proposals, abbreviations=abbreviations or {}, signs=signs)
        opening = Opening(looks=bundled_looks(), idle_seconds=NEVER)
        app = CockpitApp(studio.desk, settings, opening, with_own_keys(keys or {}))
        with _style_sheet_read_once(app), painted_when_asked():
            async with app.run_test(size=size) as pilot:
                await pilot.pause()
                yield Cockpit(app, pilot, studio, clock, folder)


def on_screen(
    folder: Path,
    steps: Callable[[Cockpit], Awaitable[None]],
    size: tuple[int, int] = (80, 40),
    at: datetime = history.MOMENT,
    keys: Mapping[str, str] | None = None,
    **more: Any,
) -> None:
    """Runs the steps of a test on the open program."""

    async def run() -> None:
        async with cockpit(folder, size, at, keys, **more) as opened:
            await steps(opened)

    asyncio.run(run())
