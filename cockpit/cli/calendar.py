"""What the calendar's commands of the command line do."""

from pathlib import Path

from cockpit.cli.commands import asked
from cockpit.cli.progress import stoppable
from cockpit.cli.roster import NOTHING, Ask, for_roster, in_lines, name_for, taken_in
from cockpit.clock import zone_data_version
from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.outlets.folder import place
from cockpit.studio.calendar.events import EventTitle
from cockpit.studio.calendar.titles import name_in, own_name
from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import CockpitError
from cockpit.wiring import Studio


def bring_calendar(folder: Path, data: bytes, ask: Ask, *, dry_run: bool) -> str:
    """Brings lessons in from an iCalendar file; `ask` puts a question about a title to her: None where nobody answers."""
    from cockpit.papers.calendar.reading import read_calendar

    with for_roster(folder, dry_run=dry_run) as studio:
        if studio.store.writing is None:
            raise CockpitError(f"{studio.store.why_read_only} {NOTHING}")
        home, enrolling = studio.preferences.home, studio.enrolling
        today = home.date_of(studio.desk.clock.now())
        with stoppable("Reading the calendar: {} events", NOTHING) as report:
            events = read_calendar(data, home_zone=home.zone, begins=today, report=report)
        names: dict[str, str | None] = {}
        for title in enrolling.unknown_titles(events):
            near = enrolling.students_near(title, names)
            if near:
                names[str(title)] = _name_for(title, near, ask)
            elif name_in(title.text) == "":
                said = ask(
                    f'Which student is "{title}" in the calendar? It has no name. Type one, or press enter to leave it out: '
                )
                names[str(title)] = said.strip() or None if said is not None else None
            else:  # a title that may mean nobody else is the name of somebody new
                names[str(title)] = own_name(title.text)
        proposal, troubles = taken_in(studio, events, names)
    return "\n".join(
        [*studio.opening_notices, *events.notices, *in_lines(proposal, "left out: ", dry_run=dry_run), *troubles]
    )


def _name_for(title: EventTitle, near: tuple[str, ...], ask: Ask) -> str | None:
    name = name_for("student", str(title), "calendar", near, ask)
    return title.text if name == str(title) else name


def clock_changes(folder: Path, weeks: int) -> str:
    """The clock changes of the next weeks, and what they shift for whom."""
    from cockpit.wording.clock_changes import clock_changes_text

    def ask(studio: Studio) -> str:
        return clock_changes_text(
            studio.desk.ahead.clock_changes(weeks), studio.preferences.home.hours, zone_data_version()
        )

    return asked(folder, ask).rstrip("\n")


def calendar(folder: Path, weeks: int | None, family: str | None, out: Path | None) -> str:
    """The lessons as an iCalendar file; a sentence where that was written, else its text."""
    from cockpit.papers.calendar.file import calendar_file

    def ask(studio: Studio) -> str:
        handing_out = HandingOut(studio.store.reading, studio.desk.clock, studio.preferences)
        shared = handing_out.calendar(weeks, family)
        with stoppable("Writing the calendar: {} entries", "Nothing was written.") as report:
            text = calendar_file(shared, report)
        if out is None:
            return text.removesuffix("\n")  # the last one is printed
        _write(out, text)
        weekly, single = (
            counted(sum(not each.is_cancelled for each in shared.series), "weekly lesson"),
            counted(len(shared.lessons), "single lesson"),
        )
        return f"Saved {weekly} and {single} in {out}."

    return asked(folder, ask)


def _write(out: Path, text: str) -> None:
    """Writes the file whole or not at all, readable by her alone."""
    try:
        place(out, text.encode(), mode=0o600)
    except OSError as fault:
        raise CockpitError(f"{out} could not be written: {fault.strerror}.") from fault
