"""Puts the parts together; the only module that knows them all. Heavy imports sit inside its functions."""

import contextlib
import functools
import gc
import os
import threading
from collections.abc import Callable
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import time
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.clock import system_zone
from cockpit.desk.day import Day
from cockpit.desk.desk import Desk
from cockpit.desk.enrolling import Enrolling
from cockpit.desk.finding import Finding
from cockpit.desk.hearing import Hearing
from cockpit.desk.note_taking import NoteTaking
from cockpit.desk.ports import Clock
from cockpit.desk.remembering import Remembering
from cockpit.desk.reviewing import Reviewing
from cockpit.desk.sending import Habits, Sending
from cockpit.desk.steps import Steps
from cockpit.desk.teaching import Teaching
from cockpit.outlets.folder import StudioFolder
from cockpit.printing import OurPrinter
from cockpit.settings import Settings, read_settings
from cockpit.store.opening import NAME, make_private
from cockpit.store.studio_store import OpenStudio, open_studio, open_studio_to_read
from cockpit.studio.calendar import local_time
from cockpit.studio.errors import CockpitError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cockpit.desk.ahead import Practice
    from cockpit.desk.calendar import CalendarDesk


@dataclass(frozen=True, slots=True, kw_only=True)
class Studio:
    """An open studio with the desk before it."""

    desk: Desk
    enrolling: Enrolling
    sending: Sending
    store: OpenStudio
    settings: Settings
    habits: Habits
    printer: OurPrinter
    told: tuple[str, ...]


def has_studio(folder: Path) -> bool:
    """Whether there is a studio in the folder."""
    return (folder / NAME).exists()


def practice_of(settings: Settings) -> "Practice":
    """What of the settings the calendar goes by."""
    from cockpit.desk.ahead import Practice
    from cockpit.studio.collisions import Wishes

    month, day = settings.year_begins.split("-")
    begins, ends = time(settings.day_begins), time(settings.day_ends % 24)  # 24 is midnight
    return Practice(
        home_zone=settings.home,
        hours=settings.hours,
        wishes=Wishes(gap_minutes=settings.gap_minutes, day_begins=begins, day_ends=ends),
        month_first=settings.month_first,
        promised=settings.promised_lessons,
        year_begins=(int(month), int(day)),
    )


def wired(folder: Path, store: OpenStudio, settings: Settings, clock: Clock, told: tuple[str, ...] = ()) -> Studio:
    """The desk before an open store."""
    habits = Habits(
        home_zone=settings.home,
        hours=settings.hours,
        family_hours=settings.family_hours,
        notice_hours=settings.notice_hours,
        practice=settings.practice,
    )
    reading, zone = store.reading, settings.home
    printer, outlet, steps = OurPrinter(settings), StudioFolder(folder), Steps(store.writing, store.why_read_only)
    sending = Sending(reading, steps, clock, printer, outlet)
    day = Day(reading, steps, clock, habits)

    @functools.cache
    def calendar() -> "CalendarDesk":
        from cockpit.desk.calendar import calendar_desk

        return calendar_desk(reading, steps, clock, outlet, practice_of(settings))

    desk = Desk(
        day=day,
        teaching=Teaching(day, reading, steps, sending, clock),
        notes=NoteTaking(day, reading, steps, clock),
        hearing=Hearing(reading, steps),
        remembering=Remembering(reading),
        reviewing=Reviewing(reading, steps, clock, printer, outlet, zone),
        finding=Finding(reading, clock, zone),
        calendar=calendar,
        clock=clock,
        folder=folder,
        why_read_only=store.why_read_only,
    )
    return Studio(
        desk=desk,
        enrolling=Enrolling(reading, store.writing, settings.home_zone, settings.hours),
        sending=sending,
        store=store,
        settings=settings,
        habits=habits,
        printer=printer,
        told=told,
    )


@contextmanager
def studio_at(folder: Path, clock: Clock, *, to_write: bool) -> "Iterator[Studio]":
    """Opens a studio folder, and closes it afterwards.

    Raises:
        CockpitError: it cannot be opened; the sentence says why and what to do.
    """
    if to_write:
        make_private(folder)
    settings, told = read_settings(folder, system_zone)
    store = open_studio(folder) if to_write else open_studio_to_read(folder, "This command only reads.")
    try:
        yield wired(folder, store, settings, clock, (told,) if told else ())
    finally:
        store.close()


def run_screen(studio: Studio, sentences: tuple[str, ...] = ()) -> int:
    """Runs the program on the screen, and returns its exit status."""
    os.environ.setdefault("TEXTUAL_FPS", "120")
    os.environ.setdefault("TEXTUAL_ANIMATIONS", "none")
    # None of our keys needs the extended protocol, and some terminals lose accented letters with it.
    os.environ.setdefault("TEXTUAL_DISABLE_KITTY_KEY", "1")
    gc.disable()
    from cockpit.screens.app import CockpitApp
    from cockpit.screens.app_actions import Opening
    from cockpit.screens.own_keys import with_own_keys
    from cockpit.screens.theming import looks_of

    studio.desk.day.open()
    looks, faults = looks_of(studio.desk.folder)
    if studio.settings.theme not in looks:
        faults = (*faults, f"settings.toml, theme: found {studio.settings.theme}, expected one of {', '.join(looks)}.")
    started: list[threading.Thread] = []
    opening = Opening(
        looks=looks,
        sentences=(*studio.told, *sentences),
        faults=faults,
        after_first_paint=lambda tell: started.append(_start_preparing(studio, tell)),
        has_changed=_watch(studio.store) if studio.store.writing is None else None,
    )
    app = CockpitApp(studio.desk, studio.settings, opening, with_own_keys(studio.settings.keys))
    app.run()
    for thread in started:
        if thread.is_alive():
            thread.join(timeout=10)
    if studio.store.writing is not None:
        back_up_today(studio)  # she was gone before the thread began
    return app.return_code or 0


def _watch(store: OpenStudio) -> Callable[[], bool]:
    seen = [store.version()]

    def has_changed() -> bool:
        fresh = store.version()
        changed = fresh != seen[0]
        seen[0] = fresh
        return changed

    return has_changed


def _start_preparing(studio: Studio, tell: Callable[[str], None]) -> threading.Thread:
    thread = threading.Thread(target=_prepare, args=(studio, tell), name="prepare", daemon=True)
    if studio.store.writing is not None:
        thread.start()
    return thread


def _prepare(studio: Studio, tell: Callable[[str], None]) -> None:
    """Loads what the first finish would wait for, and copies the database at the first opening of a day."""
    import markdown_it  # noqa: F401 for its being loaded
    import sqlite_utils  # noqa: F401 for its being loaded

    import cockpit.desk.calendar
    import cockpit.papers.plan
    import cockpit.screens.ahead
    import cockpit.screens.find
    import cockpit.screens.help
    import cockpit.screens.line
    import cockpit.screens.review
    import cockpit.studio.lesson_plan  # noqa: F401 for its being loaded

    fault = back_up_today(studio)
    if fault is not None:
        with contextlib.suppress(RuntimeError):  # the program was closed meanwhile
            tell(fault)


def back_up_today(studio: Studio) -> str | None:
    """Copies the database at the first opening of each day; a sentence if that could not be done."""
    from cockpit.store.backup import back_up

    on = local_time(studio.desk.clock.now(), studio.settings.home).date()
    try:
        back_up(studio.desk.folder, on)
    except (CockpitError, OSError) as fault:
        return str(fault)
    return None
