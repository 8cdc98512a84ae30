"""The events of a calendar file, taken together: series with their exceptions, single ones, and what is left out."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from icalendar import Event, vCalAddress

from cockpit.papers.calendar.entry import is_cancelled, stamp_of, text_of, title_of, values_of
from cockpit.papers.calendar.rule import repeats
from cockpit.papers.calendar.series import SeriesReader
from cockpit.studio.calendar.events import EventsReading, SingleLesson, WeeklyEvent
from cockpit.studio.clocks.words import counted, long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.roster.columns import RosterFault, quoted
from cockpit.studio.roster.roster import disagreements, repetitions

if TYPE_CHECKING:
    from datetime import date

MOST_WEEKLY = 1000
_MOST_SENTENCES = 500


class Events:
    """Goes through the events of a file and gathers what each of them becomes."""

    def __init__(self, reader: SeriesReader, notices: Sequence[str] = ()) -> None:
        self._reader = reader
        self._notices = [*notices]
        self._weekly: list[WeeklyEvent] = []
        self._lessons: dict[str, SingleLesson] = {}
        self._called_off: list[WeeklyEvent | SingleLesson] = []
        self._ended: dict[str, date] = {}
        self._left_out: list[str] = []
        self._past = 0

    def read(self, events: Iterable[Event]) -> EventsReading:
        """What the events come to.

        Raises:
            BadInput: there are more weekly ones than any studio has.
        """
        series, exceptions = _by_uid(events)
        for uid, (number, event) in series.items():
            self._take(event, uid, number, exceptions.pop(uid, []))
        for uid, alone in exceptions.items():
            for event in alone:
                self._take_alone(event, uid)
        if len(self._weekly) > MOST_WEEKLY:
            found = f"{len(self._weekly):,} weekly lessons. The limit is {MOST_WEEKLY:,}"
            raise BadInput(f"The calendar has {found}. Export only the calendar that has your lessons.")
        self._refuse_contradictions()
        return EventsReading(
            weekly=tuple(self._weekly),
            lessons=tuple(self._lessons.values()),
            called_off=tuple(self._called_off),
            ended=self._ended,
            left_out=self._sentences(),
            is_whole=not self._left_out,
            notices=tuple(self._notices),
        )

    def _take(self, event: Event, uid: str, number: int, exceptions: Sequence[Event]) -> None:
        try:
            if self._reader.is_past(event):
                self._past += 1
                self._note_end(event, uid, is_over=True)
                alone = exceptions
            else:
                found, alone, bad = self._reader.read(event, uid, number, exceptions)
                self._left_out += [f"{_named(event)}: {reason}." for reason in bad]
                self._mark(event)
                self._note_end(event, uid, is_over=not found)
                if is_cancelled(event):
                    self._called_off += [found] if isinstance(found, SingleLesson) else found
                elif isinstance(found, SingleLesson):
                    self._lessons[found.uid] = found
                else:
                    self._weekly += found
        except BadInput as reason:
            self._leave_out(event, str(reason))
            return
        for each in alone:
            self._take_alone(each, uid)

    def _mark(self, event: Event) -> None:
        """Notes what the file says of an event that is taken all the same."""
        said = []
        if text_of(event, "TRANSP").upper() == "TRANSPARENT":
            said.append("the calendar shows this time as free")
        if any(_has_declined(each) for each in values_of(event, "ATTENDEE")):
            said.append("somebody who was invited has declined")
        if said:
            self._notices.append(f"{_named(event)}: {' and '.join(said)}. It is a lesson all the same.")

    def _note_end(self, event: Event, uid: str, *, is_over: bool) -> None:
        ends = self._reader.last_date_of(event) if is_over and repeats(event) else None
        if ends is not None:
            self._ended[uid] = ends

    def _take_alone(self, event: Event, uid: str) -> None:
        """Takes a moved meeting whose rule does not have it, or is not in the file, as a lesson by itself."""
        try:
            if self._reader.is_past(event):
                self._past += 1
            elif is_cancelled(event):
                self._called_off.append(self._reader.alone(event, uid))
            else:
                lesson = self._reader.alone(event, uid)
                self._lessons[lesson.uid] = lesson
        except BadInput as reason:
            self._leave_out(event, str(reason))

    def _refuse_contradictions(self) -> None:
        """Leaves out what a student cannot have: two zones, or one weekday and time twice."""
        rows = [event.row for event in self._weekly]
        faults: dict[int, RosterFault] = {}
        for fault in (*disagreements(rows, lambda row: row.student), *repetitions(rows, lambda row: row.student)):
            faults.setdefault(fault.line, fault)
        for line, fault in faults.items():
            title = next(row.student for row in rows if row.line == line)
            why = f"its time zone is {fault.found}, and that of another event with this title is not"
            if fault.column != "zone":
                why = "another event with this title has the same weekday and time"
            self._left_out.append(f"{quoted(title)}: {why}.")
        self._weekly = [event for event in self._weekly if event.row.line not in faults]

    def _leave_out(self, event: Event, reason: str) -> None:
        self._left_out.append(f"{_named(event)}: {reason}.")

    def _sentences(self) -> tuple[str, ...]:
        said = self._left_out[:_MOST_SENTENCES]
        if more := len(self._left_out) - len(said):
            said.append(f"{counted(more, 'more event')} cannot be imported.")
        if self._past:
            on = long_date(self._reader.begins)
            said.append(f"{counted(self._past, 'event')} before {on} skipped.")
        return tuple(said)


def _named(event: Event) -> str:
    """The event in a sentence: by its title, and the day on which it is or begins."""
    try:
        name = quoted(title_of(event))
    except BadInput:
        name = "An event"
    on = stamp_of(event, "DTSTART")[:10]
    return f"{name} of {on}" if on else name


def _has_declined(attendee: object) -> bool:
    return isinstance(attendee, vCalAddress) and str(attendee.params.get("PARTSTAT", "")).upper() == "DECLINED"


def _by_uid(events: Iterable[Event]) -> tuple[dict[str, tuple[int, Event]], dict[str, list[Event]]]:
    """The events by UID with their number in the file, and the exceptions to them; the latest version of each."""
    series: dict[str, tuple[int, Event]] = {}
    exceptions: dict[str, dict[str, Event]] = {}
    for number, event in enumerate(events, start=1):
        uid = text_of(event, "UID") or f"{text_of(event, 'SUMMARY')}/{stamp_of(event, 'DTSTART')}"
        if values_of(event, "RECURRENCE-ID"):
            versions = exceptions.setdefault(uid, {})
            meeting = stamp_of(event, "RECURRENCE-ID")
            if meeting not in versions or _sequence(event) >= _sequence(versions[meeting]):
                versions[meeting] = event
        elif uid not in series or _sequence(event) >= _sequence(series[uid][1]):
            series[uid] = number, event
    return series, {uid: list(versions.values()) for uid, versions in exceptions.items()}


def _sequence(event: Event) -> int:
    number = next(iter(values_of(event, "SEQUENCE")), 0)
    return number if isinstance(number, int) else 0
