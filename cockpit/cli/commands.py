"""What each command of the command line does: opens a studio, asks the desk, returns text."""

import sys
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from cockpit.cli.progress import stoppable
from cockpit.clock import RehearsalClock, SetClock, SystemClock, pin_zone_data, system_zone
from cockpit.outlets.recovery import Recovery
from cockpit.running.running import run_screen
from cockpit.settings.settings import read_settings
from cockpit.studio.clocks.moments import moment
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import BadInput, CockpitError, Interrupted, NotFound
from cockpit.studio.shown import shown
from cockpit.wiring import Studio, has_studio, studio_at

if TYPE_CHECKING:
    from cockpit.desk.ports import Clock
    from cockpit.store.backups import Backup

pin_zone_data()
_FIRST_YEAR, _LAST_YEAR = 1901, 2199
T = TypeVar("T")
_OFFER = "To add your students: cockpit roster FILE.csv. To look around first in a sample studio: cockpit demo."


def open_cockpit(folder: Path, at: str | None, say: Callable[[str], None]) -> int:
    """Opens the cockpit on today, or rehearses at another moment; returns the exit status."""
    want_studio(folder)
    _want_terminal()
    clock: Clock = SystemClock()
    told: tuple[str, ...] = ()
    if at is not None:
        settings, _ = read_settings(folder, system_zone)
        home = settings.preferences.home
        clock = RehearsalClock(read_moment(at, home.date_of(clock.now()), home))
        told = ("This is a rehearsal: the clock is set to a time you chose, and what you finish is never sent.",)
    if Recovery(folder).path.exists():
        told = (
            *told,
            f"{Recovery(folder).path} contains a family that was being deleted. "
            "To finish or undo that, run: cockpit family NAME",
        )
    with studio_at(folder, clock, to_write=True) as studio:
        return run_screen(studio, say, told)


def demo(folder: Path, at: str | None, say: Callable[[str], None]) -> int:
    """Opens a sample studio with some weeks behind it, and a lesson running; returns the exit status."""
    _want_terminal()
    from cockpit.sample import history

    (folder / "settings.toml").write_text(history.SETTINGS, encoding="utf-8")
    starts_at = history.MOMENT if at is None else read_moment(at, history.DAY, TeacherClock(zone=history.HOME_ZONE))
    past = SetClock(starts_at)
    say("Teaching eleven weeks of a sample studio...")
    with studio_at(folder, past, to_write=True) as studio:
        history.enroll(studio.enrolling)
        history.teach_weeks(studio.desk, past, starts_at)
        history.teach_history(studio.desk, past, starts_at)
        history.tell_more(studio.desk)
        history.ask_for_permissions(studio.desk)
        history.begin_letter(studio.desk)
        history.ask_about_lessons(studio.desk, past, starts_at)
        history.plan_recital(studio.desk, past, starts_at)
    with studio_at(folder, RehearsalClock(starts_at), to_write=True) as studio:
        told = (f"This is a sample studio in {folder}. It is deleted when you close the cockpit.",)
        return run_screen(studio, say, told)


def queue(folder: Path, on: date | None, *, as_json: bool) -> str:
    """The lessons of a day."""
    from cockpit.papers.queue import queue_json
    from cockpit.wording.queue import queue_text

    def ask(studio: Studio) -> str:
        day, settings, now = studio.desk.day, studio.settings, studio.desk.clock.now()
        day.open(on or day.today())
        if as_json:
            return queue_json(day.bookings, settings.preferences.home, now)
        return queue_text(day.bookings, settings.preferences.home, now)

    return asked(folder, ask)


def notes(folder: Path, student: str, on: date | None, kind: str) -> str:
    """A student's practice notes as the family gets them: the latest, or those of a date."""

    def ask(studio: Studio) -> str:
        finding = studio.desk.finding
        booking, note = finding.noted_lesson(finding.student(student), on)
        paper = studio.paper_making.paper(booking, note.body)
        match kind:
            case "html":
                return studio.printer.page(paper)
            case "text":
                return studio.printer.text(paper)
            case _:
                return studio.printer.markdown(paper)

    return asked(folder, ask).rstrip("\n")


def review(folder: Path, on: date | None) -> str:
    """A day looked back on, as Markdown."""

    def ask(studio: Studio) -> str:
        return studio.printer.review(studio.desk.reviewing.review(on or studio.desk.day.today()))

    return asked(folder, ask).rstrip("\n")


def keys(*, as_json: bool) -> str:
    """Every command with its keys."""
    from cockpit.screens.commands.commands import COMMANDS, key_name

    if as_json:
        table = [{"id": c.id, "keys": list(c.keys), "label": c.label, "help": c.help} for c in COMMANDS]
        from cockpit.papers.json_text import json_text

        return json_text(table)
    rows = [(c.id, " or ".join(key_name(key) for key in c.keys) or "no key", c.label, c.place) for c in COMMANDS]
    widths = [max(len(row[n]) for row in rows) for n in range(4)]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    )


def restore(folder: Path) -> str:
    """Goes on with the last backup; the database that is set aside is kept."""
    from cockpit.store.backups import restore as put_back
    from cockpit.store.opening import take_lock
    from cockpit.studio.errors import StudioBusy

    lock = take_lock(folder)
    if lock is None:
        raise StudioBusy(f"{folder} is open in another cockpit. Close that one first.")
    now = SystemClock().now()
    with lock:
        restored = None
        try:
            with stoppable("Restoring the backup: {} pages", "Nothing was restored.") as report:
                restored = put_back(folder, now.strftime("%Y%m%d-%H%M%S"), report)
        except Interrupted:
            if restored is None:
                raise
    said = [f"{path} is damaged and was skipped.\n" for path in restored.passed_over]
    said.append(f"The studio was restored from the backup of {_backup_words(restored.backup, folder, now)}.")
    if restored.kept is not None:
        said.append(f" The earlier database is kept as {restored.kept}.")
    return "".join(said)


def _backup_words(backup: "Backup", folder: Path, now: datetime) -> str:
    """When a backup was made, on her clock, and how much is in it."""
    from cockpit.studio.clocks.words import clock_time, counted, near_date

    lessons = counted(backup.lessons, "lesson")
    if backup.made_at is None:  # by an earlier version, which kept the day alone
        return f"{backup.path.stem.removeprefix('studio-')}, {lessons}"
    try:
        hours = (
            read_settings(folder, system_zone)[0].preferences.home.hours if (folder / "settings.toml").exists() else 12
        )
    except CockpitError:  # which is told when the studio is opened
        hours = 12
    made_at = backup.made_at
    return f"{near_date(made_at.date(), now.date())}, {clock_time(made_at, hours)}, {lessons}"


def a_lesson_day(on: date) -> date:
    """A date that lessons can be on: the days around it exist in every zone.

    Raises:
        BadInput: it is not in the years 1901 to 2199.
    """
    if not _FIRST_YEAR <= on.year <= _LAST_YEAR:
        raise BadInput(f"{on.isoformat()} does not work; write a date in the years {_FIRST_YEAR} to {_LAST_YEAR}")
    return on


def read_moment(text: str, today: date, home: TeacherClock) -> datetime:
    """The UTC moment that she means: a time of day, or a date and a time, on her clock.

    Raises:
        BadInput: it is neither, or in a year without lessons.
    """
    said = text.strip()
    try:
        whole = datetime.fromisoformat(said)
    except ValueError:
        return _spoken_moment(said, today, home)
    if len(said) <= len("2026-12-01"):
        raise BadInput(f"--at: {said} is a date without a time. Write '{said} 16:12'.")
    a_lesson_day(whole.date())
    return whole.astimezone(UTC) if whole.tzinfo is not None else moment(whole, home.zone)


def _spoken_moment(said: str, today: date, home: TeacherClock) -> datetime:
    from cockpit.studio.roster.values import read_time

    first, _, rest = said.partition(" ")
    try:
        on, at = date.fromisoformat(first), rest
    except ValueError:
        on, at = today, said
    try:
        return moment(datetime.combine(a_lesson_day(on), read_time(at)), home.zone)
    except BadInput as fault:
        raise BadInput(f"--at: {said!r} is not a time. Write '4:12 pm', 16:12, or '2026-12-01 16:12'.") from fault


def _want_terminal() -> None:
    # Without one it would wait for keys that nobody can press, and never end.
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise CockpitError(
            "The cockpit needs a terminal. In scripts, use cockpit queue, cockpit notes, or cockpit review."
        )


def want_studio(folder: Path) -> None:
    """Makes sure that there is a studio in a folder.

    Raises:
        NotFound: there is none.
    """
    if has_studio(folder):
        return
    if any((folder / "backups").glob("studio-*.db")):
        raise NotFound(
            f"{folder} has backups but no studio.db. To restore the last backup: cockpit restore --folder {folder}"
        )
    raise NotFound(f"There is no studio in {folder} yet. {_OFFER}")


def asked(folder: Path, ask: Callable[[Studio], T], clock: "Clock | None" = None) -> T:
    """Opens a studio only to read, asks it, and returns the answer. Without a `clock` it goes by the system's.

    What the teacher must know of the studio itself goes to stderr.

    Raises:
        NotFound: there is no studio in the folder.
    """
    want_studio(folder)
    with studio_at(folder, clock or SystemClock(), to_write=False) as studio:
        # A program may read the answer.
        sys.stderr.writelines(f"{shown(sentence)}\n" for sentence in studio.opening_notices)
        return ask(studio)
