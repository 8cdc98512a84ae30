"""Puts the parts together; the only module that knows them all. Heavy imports sit inside its functions."""

import functools
import random
import shutil
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.clock import system_zone
from cockpit.desk.day.board import BoardDesk
from cockpit.desk.day.day import Day
from cockpit.desk.day.finding import Finding
from cockpit.desk.day.looking_back import LookingBack
from cockpit.desk.day.note_taking import Hearing, NoteTaking, Remembering
from cockpit.desk.day.reviewing import Reviewing
from cockpit.desk.day.saving import Saving
from cockpit.desk.day.teaching import Teaching
from cockpit.desk.desk import Desk
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.post.outbox import Outbox
from cockpit.desk.post.paper_making import PaperMaking
from cockpit.desk.steps import Steps
from cockpit.outlets.folder import StudioFolder, place
from cockpit.printing.phrase_files import phrase_faults
from cockpit.printing.printing import OurPrinter
from cockpit.settings.settings import NAME_OF_SETTINGS, Settings, read_settings, with_theme
from cockpit.store.open_studio import OpenStudio, open_studio, open_studio_to_read
from cockpit.store.opening import make_private
from cockpit.store.schema import NAME
from cockpit.studio.calendar.basis import calendar_basis
from cockpit.studio.errors import CockpitError
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from cockpit.desk.bringing_in.enrolling import Enrolling
    from cockpit.desk.calendar.calendar import CalendarDesk
    from cockpit.desk.day.saving import TakingIn
    from cockpit.desk.inquiries.inquiring import Inquiring
    from cockpit.desk.pieces.mixing import Mixing
    from cockpit.desk.pieces.pages import StudentPages
    from cockpit.desk.ports import Reading
    from cockpit.desk.post.family_letters import FamilyLetters
    from cockpit.desk.post.post import PostDesk
    from cockpit.desk.post.previewing import Previewing
    from cockpit.desk.recital.desk import RecitalDesk
    from cockpit.desk.recital.papers import RecitalPapers
    from cockpit.desk.roster.roster import StudioRoster
    from cockpit.store.index_thread import IndexThread
    from cockpit.store.line_index import LineIndex
    from cockpit.studio.inquiries.deadline import Deadline
    from cockpit.studio.inquiries.received import ReceivedMail


class Studio(Value):
    """An open studio with the desk before it."""

    desk: Desk
    paper_making: PaperMaking
    store: OpenStudio
    settings: Settings
    printer: OurPrinter
    opening_notices: tuple[str, ...]

    @property
    def preferences(self) -> Preferences:
        """What the teacher prefers."""
        return self.settings.preferences

    @property
    def taking_in(self) -> "TakingIn":
        """Takes in the notes that an earlier session could not save; made when there are any."""
        from cockpit.desk.day.saving import TakingIn

        store = self.store
        steps = Steps(store.writing, store.why_read_only)
        return TakingIn(store.reading, steps, self.desk.clock, self.preferences.home)

    @property
    def enrolling(self) -> "Enrolling":
        """Brings students in; made when it is asked for, since the first screen does not."""
        from cockpit.desk.bringing_in.enrolling import Enrolling

        store = self.store
        return Enrolling(store.reading, store.writing, self.desk.clock, self.preferences.home)


def has_studio(folder: Path) -> bool:
    """Whether there is a studio in the folder."""
    return (folder / NAME).exists()


def wired(folder: Path, store: OpenStudio, settings: Settings, clock: Clock, notices: tuple[str, ...] = ()) -> Studio:
    """The desk before an open store."""
    reading, preferences = store.reading, settings.preferences
    printer, outlet = OurPrinter(preferences, folder), StudioFolder(folder)
    steps = Steps(store.writing, store.why_read_only, is_rehearsal=clock.is_rehearsal)
    paper_making = PaperMaking(reading, steps, clock, printer, outlet, preferences)
    day = Day(reading, steps, clock, preferences)

    @functools.cache
    def calendar() -> "CalendarDesk":
        from cockpit.desk.calendar.calendar import calendar_desk

        return calendar_desk((reading, clock), steps, outlet, preferences, printer, lambda: post().letters)

    @functools.cache
    def post() -> "PostDesk":
        from cockpit.desk.post.post import post_desk

        return post_desk((reading, clock, random.random), steps, printer, paper_making, outlet, preferences)

    @functools.cache
    def inquiring() -> "Inquiring":
        from cockpit.desk.inquiries.inquiring import Inquiring

        desk = calendar()
        return Inquiring(reading, steps, clock, (desk.ahead, desk.arranging), lambda: post().letters, _saved_mail)

    @functools.cache
    def roster() -> "StudioRoster":
        from cockpit.desk.roster.roster import StudioRoster

        return StudioRoster(reading, clock, calendar())

    @functools.cache
    def pages() -> "StudentPages":
        from cockpit.desk.pieces.pages import StudentPages

        return StudentPages(reading, index(), steps, clock, preferences, looking_back)

    @functools.cache
    def mixing() -> "Mixing":
        from cockpit.desk.pieces.looking import LookingOver
        from cockpit.desk.pieces.mixing import Mixing  # without the pages, which take three times as long to load

        return Mixing(LookingOver(reading, index(), clock, preferences), reading, steps, clock, preferences)

    def inquiry_deadlines() -> "tuple[Deadline, ...]":
        from cockpit.desk.inquiries.inquiring import deadlines

        return deadlines(reading, preferences)

    recitals, recital_papers = _recitals_of(
        (reading, clock), steps, preferences, pages, lambda: (printer, outlet, post().previewing)
    )
    index, index_notes = _index_of(folder, store, preferences)
    looking_back = LookingBack(reading, preferences.home, preferences.labels)
    notes = NoteTaking(day, reading, steps, clock)
    desk = Desk(
        day=day,
        teaching=Teaching(day, reading, steps, paper_making, lambda: post().posting, clock),
        notes=notes,
        board=BoardDesk(day, reading, steps, clock, printer, outlet),
        saving=Saving(notes),
        hearing=Hearing(reading, steps),
        remembering=Remembering(reading),
        reviewing=Reviewing((reading, clock), steps, printer, outlet, preferences, inquiring),
        finding=Finding(reading, clock, preferences.home),
        looking_back=looking_back,
        outbox=Outbox(reading, steps, clock, outlet),
        calendar=calendar,
        post=post,
        inquiring=inquiring,
        roster=roster,
        families=_families_of((reading, clock), steps, printer, preferences, roster),
        pages=pages,
        mixing=mixing,
        recitals=recitals,
        recital_papers=recital_papers,
        index_notes=index_notes,
        inquiry_deadlines=inquiry_deadlines,
        clock=clock,
        folder=folder,
        why_read_only=store.why_read_only,
    )
    return Studio(
        desk=desk,
        paper_making=paper_making,
        store=store,
        settings=settings,
        printer=printer,
        opening_notices=(*notices, *phrase_faults(folder, preferences.sending.language)),
    )


def _recitals_of(
    asking: "tuple[Reading, Clock]",
    steps: Steps,
    preferences: Preferences,
    pages: "Callable[[], StudentPages]",
    making: "Callable[[], tuple[OurPrinter, StudioFolder, Previewing]]",
) -> "tuple[Callable[[], RecitalDesk], Callable[[], RecitalPapers]]":
    """What makes the desk of recitals, and that of their papers, when it is first asked for."""

    @functools.cache
    def recitals() -> "RecitalDesk":
        from cockpit.desk.recital.desk import RecitalDesk
        from cockpit.desk.recital.lines import RecitalLines
        from cockpit.desk.recital.live import LiveRecital
        from cockpit.desk.recital.recitals import Recitals
        from cockpit.desk.recital.steps import RecitalSteps

        known = Recitals(asking, preferences, pages)
        return RecitalDesk(
            reading=known,
            lines=RecitalLines(asking, steps, preferences, known),
            steps=RecitalSteps(asking[0], steps, preferences, known),
            live=LiveRecital(asking[1], steps, known),
        )

    @functools.cache
    def recital_papers() -> "RecitalPapers":
        from cockpit.desk.recital.papers import RecitalPapers

        return RecitalPapers(asking, steps, making(), preferences, recitals().reading)

    return recitals, recital_papers


def _index_of(
    folder: Path, store: OpenStudio, preferences: Preferences
) -> "tuple[Callable[[], LineIndex], Callable[[Callable[[], None]], None]]":
    """What makes the index of all notes when it is first asked for, and what brings it up to date on a thread."""

    @functools.cache
    def index() -> "LineIndex":
        from cockpit.store.line_index import LineIndex

        found = LineIndex(folder, preferences.labels, may_write=store.writing is not None)
        store.at_close(found.close)
        return found

    @functools.cache
    def indexing() -> "IndexThread":
        from cockpit.store.index_thread import IndexThread

        thread = IndexThread(index())
        store.at_close(thread.stop)
        return thread

    return index, lambda then: indexing().catch_up_soon(then)


def _families_of(
    sources: "tuple[Reading, Clock]",
    steps: Steps,
    printer: OurPrinter,
    preferences: Preferences,
    roster: "Callable[[], StudioRoster]",
) -> "Callable[[], FamilyLetters]":
    """What makes letters to many families when they are first asked for."""

    @functools.cache
    def families() -> "FamilyLetters":
        from cockpit.desk.post.family_letters import FamilyLetters

        return FamilyLetters(sources, steps, printer, preferences, roster())

    return families


def _saved_mail(path: Path) -> "ReceivedMail":
    """A mail that was saved as a file."""
    from cockpit.outlets.mail_file import mail_file
    from cockpit.papers.mail.received import read_mail

    return read_mail(mail_file(path.expanduser()))


def _calendar_basis(preferences: Preferences, clock: Clock) -> str:
    home = preferences.home
    return calendar_basis(home.zone, preferences.year_of(home.date_of(clock.now())))


def copy_studio(folder: Path, target: Path) -> None:
    """Copies the settings and the database of a studio into another folder.

    Raises:
        StudioDamaged: the database cannot be copied.
    """
    from cockpit.store.backups import copy_database

    shutil.copyfile(folder / NAME_OF_SETTINGS, target / NAME_OF_SETTINGS)
    copy_database(folder, target)


def keep_theme(folder: Path, name: str) -> str | None:
    """Writes the name of a theme into the settings of a studio folder; a sentence where that cannot be done."""
    path = (folder / NAME_OF_SETTINGS).resolve()  # the file may be a link into a folder of hers
    try:
        text = path.read_bytes().decode("utf-8-sig")
        place(path, with_theme(text, name).encode(), path.stat().st_mode & 0o777)
    except (OSError, ValueError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else "its line `theme` was not found"
        return f"{path} was not changed ({why})."
    return None


@contextmanager
def studio_at(folder: Path, clock: Clock, *, to_write: bool) -> "Iterator[Studio]":
    """Opens a studio folder, and closes it afterwards.

    Raises:
        CockpitError: it cannot be opened; the sentence says why and what to do.
    """
    if to_write:
        make_private(folder)
    settings, notice = read_settings(folder, system_zone)
    store = open_studio(folder) if to_write else open_studio_to_read(folder, "This command only reads.")
    try:
        if store.writing is not None:
            store.writing.note_calendar_basis(_calendar_basis(settings.preferences, clock))
        yield wired(folder, store, settings, clock, tuple(filter(None, (notice, store.loss))))
    except (CockpitError, OSError):
        raise
    except Exception:
        store.check()  # a fault of ours, unless records are damaged in a way that shows only when they are used
        raise
    finally:
        store.close()
