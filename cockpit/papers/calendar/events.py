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
from cockpit.studio.progress import Report, in_steps, unheard
from cockpit.studio.roster.columns import RosterFault, quoted
from cockpit.studio.roster.roster import disagreements, repetitions
from cockpit.studio.values import replace

if TYPE_CHECKING:
    from datetime import date

MOST_WEEKLY = 1000
_MOST_SENTENCES = 500
_SERIES = "series"  # in the place of the meeting that an exception names
_STAMPS = {"DTSTAMP", "LAST-MODIFIED", "CREATED"}  # of the file, or of when it was written


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

    def read(self, events: Iterable[Event], report: Report = unheard) -> EventsReading:
        """What the events come to; `report` counts those that are no exceptions of others.

        Raises:
            BadInput: there are more weekly ones than any studio has.
        """
        series, exceptions, pairs = _by_uid(events)
        self._left_out += [
            f"{_named(one)}: the file gives another event the same UID, {_named(other)}. Only that one is imported."
            for one, other in pairs
        ]
        for uid, (number, event) in in_steps([*series.items()], report):
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
            notices=tuple(_at_most(self._notices, "more note")),
        )

    def _take(self, event: Event, uid: str, number: int, exceptions: Sequence[Event]) -> None:
        try:
            if self._reader.is_past(event):
                self._past += 1
                self._note_end(event, uid, is_over=True)
                alone = exceptions
            else:
                found = self._reader.read(event, uid, number, exceptions)
                lessons, alone = found.lessons, found.alone
                self._left_out += [f"{_named(event)}: {reason}." for reason in found.bad]
                self._notices += [f"{_named(event)}: {dates}." for dates in found.idle]
                for each in (event, *found.taken):
                    self._mark(each)
                self._note_end(event, uid, is_over=not lessons)
                if is_cancelled(event):
                    self._called_off += [lessons] if isinstance(lessons, SingleLesson) else lessons
                elif isinstance(lessons, SingleLesson):
                    self._lessons[lessons.uid] = lessons
                else:
                    self._weekly += lessons
        except BadInput as reason:
            self._leave_out(event, str(reason))
            return
        for each in alone:
            self._take_alone(each, uid, series=text_of(event, "SUMMARY") or None)

    def _mark(self, event: Event) -> None:
        """Notes what the file says of an event that is taken all the same."""
        answers = {_answer(each) for each in values_of(event, "ATTENDEE")}
        marks = {
            "the calendar marks it as tentative": text_of(event, "STATUS").upper() == "TENTATIVE",
            "the calendar shows this time as free": text_of(event, "TRANSP").upper() == "TRANSPARENT",
            "somebody who was invited has declined": "DECLINED" in answers,
            "somebody who was invited may not come": "TENTATIVE" in answers,
        }
        said = [words for words, is_said in marks.items() if is_said]
        if said and not is_cancelled(event):
            self._notices.append(f"{_named(event)}: {' and '.join(said)}. It is a lesson all the same.")

    def _note_end(self, event: Event, uid: str, *, is_over: bool) -> None:
        ends = self._reader.last_date_of(event) if is_over and repeats(event) else None
        if ends is not None:
            self._ended[uid] = ends

    def _take_alone(self, event: Event, uid: str, series: str | None = None) -> None:
        """Takes a moved meeting whose rule does not have it, or is not in the file, as a lesson by itself."""
        try:
            if self._reader.is_past(event):
                self._past += 1
            elif is_cancelled(event):
                self._called_off.append(self._reader.alone(event, uid))
            else:
                lesson = replace(self._reader.alone(event, uid), series=series)
                self._lessons[lesson.uid] = lesson
                self._notices.append(
                    f"{_named(event)}: it stands for a lesson of a series, but the file has none that it could replace. "
                    "It is read as a single lesson."
                )
                self._mark(event)
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
        said = _at_most(self._left_out, "more event")
        if self._past:
            on = long_date(self._reader.begins)
            said.append(f"{counted(self._past, 'event')} before {on} skipped.")
        return tuple(said)


def _at_most(sentences: Sequence[str], others: str) -> list[str]:
    left = len(sentences) - _MOST_SENTENCES
    more = [f"{counted(left, others)} like these."] if left > 0 else []
    return [*sentences[:_MOST_SENTENCES], *more]


def _named(event: Event) -> str:
    """The event in a sentence: by its title, and the day on which it is or begins."""
    try:
        name = quoted(title_of(event))
    except BadInput:
        name = "An event"
    on = stamp_of(event, "DTSTART")[:10]
    return f"{name} of {on}" if on else name


def _answer(attendee: object) -> str:
    return str(attendee.params.get("PARTSTAT", "")).upper() if isinstance(attendee, vCalAddress) else ""


def _by_uid(
    events: Iterable[Event],
) -> tuple[dict[str, tuple[int, Event]], dict[str, list[Event]], list[tuple[Event, Event]]]:
    """The events by UID with their number in the file, and the exceptions to them: the latest version of each.

    Two of one version that are not the same come as a pair, the one that is not used first.
    """
    latest: dict[tuple[str, str], tuple[int, Event]] = {}
    pairs: list[tuple[Event, Event]] = []
    for number, event in enumerate(events, start=1):
        uid = text_of(event, "UID") or f"{text_of(event, 'SUMMARY')}/{stamp_of(event, 'DTSTART')}"
        key = uid, stamp_of(event, "RECURRENCE-ID") if values_of(event, "RECURRENCE-ID") else _SERIES
        _, other = latest.get(key, (0, None))
        if other is not None and _sequence(event) == _sequence(other) and _content(event) != _content(other):
            pairs.append((other, event))
        if other is None or _sequence(event) >= _sequence(other):
            latest[key] = number, event
    exceptions: dict[str, list[Event]] = {}
    for (uid, meeting), (_, event) in latest.items():
        if meeting != _SERIES:
            exceptions.setdefault(uid, []).append(event)
    return {uid: found for (uid, meeting), found in latest.items() if meeting == _SERIES}, exceptions, pairs


def _content(event: Event) -> dict[str, object]:
    return {name: value for name, value in event.items() if name.upper() not in _STAMPS}


def _sequence(event: Event) -> int:
    number = next(iter(values_of(event, "SEQUENCE")), 0)
    return number if isinstance(number, int) else 0
