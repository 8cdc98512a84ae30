"""The lines of the roster, by group, and what is told of the chosen student."""

from collections.abc import Iterable, Sequence
from datetime import date

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.roster.roster import RosterView, StudentDetail
from cockpit.screens.look.show import (
    BREAK,
    NEEDS_HER,
    OPEN,
    PRIVATE,
    WIDEST,
    Piece,
    cut_at_word,
    heading,
    lines_of,
    placed,
    role,
)
from cockpit.screens.textual_parts.rows import SeenRow, group
from cockpit.studio.calendar.year import StudentYear
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.moves import zones_of
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import MONTHS, city, counted, listed, near_day, places, short_date
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.status import Status
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Guardian
from cockpit.studio.people.permissions import said_words
from cockpit.studio.roster.entries import EntryGroup, RosterEntry
from cockpit.studio.roster.guardian_cells import gets_words
from cockpit.studio.roster.practice_days import practice_days_words
from cockpit.studio.values import Value

_GAP = 2
_SIGN = 2
_LONGEST_NAME, _SHORTEST_NAME, _LONGEST_INSTRUMENT, _LONGEST_THERE = 24, 8, 12, 22
_MINUTES = 3
_SINCE = len("since September 2026")
_LABEL = 10


def roster_options(view: RosterView, home: TeacherClock, width: int, *, shows_ended: bool) -> list[Option]:
    """All rows in so many columns; the id of a row is the number of its student. Groups without rows are left out."""
    groups = [each for each in EntryGroup if each is not EntryGroup.OVER or shows_ended]
    width = min(width, WIDEST)
    columns = RosterColumns([each for each in view.entries if each.group in groups], view, home, width)
    options: list[Option] = []
    for each in groups:
        rows = [_option(columns, entry) for entry in view.of(each)]
        options += [group(each, width, len(rows)), *rows] if rows else []
    if not options:
        options.append(group("no students", width))
    hidden = 0 if shows_ended else len(view.of(EntryGroup.OVER))
    if hidden:
        options.append(group(EntryGroup.OVER, width, f"{hidden}, v shows them"))
    return options


def _option(columns: "RosterColumns", entry: RosterEntry) -> Option:
    # One line whatever is in it: thousands are laid out before the first is drawn.
    return Option(SeenRow(lambda: columns.row(entry)), id=str(entry.student.id))


class RosterColumns:
    """Where the columns stand: as many of them as there is room for. What is told of a status stands at its own place."""

    def __init__(self, entries: Sequence[RosterEntry], view: RosterView, home: TeacherClock, width: int) -> None:
        self._view, self._home, self._width = view, home, width
        self._clock = len("12:00 pm" if home.hours == 12 else "12:00")
        when = len("Thu ") + self._clock
        extra = max((len(each.times) for each in entries), default=1) > 1
        when += len(" +1") if extra else 0
        longest = max((cell_len(each.called) for each in entries), default=0)
        least = _SIGN + _GAP + when + _GAP + _MINUTES
        name = max(_SHORTEST_NAME, min(_LONGEST_NAME, longest, width - least))
        room = width - least - name
        instruments = (each.instrument or "" for entry in entries for each in entry.times)
        instrument = min(_LONGEST_INSTRUMENT, max(map(cell_len, instruments), default=0))
        there = min(_LONGEST_THERE, max((len("12:00 pm ") + len(city(z)) for z in self._elsewhere(entries)), default=0))
        wanted = {"instrument": instrument, "there": there, "since": _SINCE}
        self._widths: dict[str, int] = {"name": name}
        for column, needed in wanted.items():
            if needed and room >= _GAP + needed:
                self._widths[column] = needed
                room -= _GAP + needed
        self._at: dict[str, int] = {}
        at = _SIGN
        for column, needed in (
            ("name", name),
            ("instrument", self._widths.get("instrument", 0)),
            ("when", when),
            ("minutes", _MINUTES),
            ("there", self._widths.get("there", 0)),
            ("since", self._widths.get("since", 0)),
        ):
            if needed:
                self._at[column] = at
                at += needed + _GAP
        told = max((cell_len(status_words(each, home)) for each in entries), default=0)
        behind = self._at["minutes"] + _MINUTES + _GAP
        is_beside = behind + told <= width
        self._told_at = behind if is_beside else self._at.get("instrument", self._at["when"])

    def row(self, entry: RosterEntry) -> Content:
        """A student: the name, what is taught, when on her clock, how long, when on the family's, and since when."""
        sign, style = _sign(entry)
        name = role("quiet") if entry.group is EntryGroup.OVER else role("text", "bold")
        pieces: list[Piece] = [
            (0, sign, style),
            (_SIGN, cut_at_word(entry.called, self._widths["name"]), name),
        ]
        told = status_words(entry, self._home)
        if told:
            words = role("warning", "bold") if entry.group is EntryGroup.TO_DO else role("quiet")
            pieces.append((self._told_at, cut_at_word(told, self._width - self._told_at), words))
        if not told or self._told_at > self._at["when"]:
            first = entry.times[0] if entry.times else None
            pieces += self._instrument(first or entry.trial)
            pieces += self._time(entry, first, has_more=not told) if first is not None else []
        return placed(self._width, *pieces)

    def _instrument(self, of: StandingTime | Lesson | None) -> list[Piece]:
        if of is None or of.instrument is None or "instrument" not in self._at:
            return []
        return [(self._at["instrument"], cut_at_word(of.instrument, self._widths["instrument"]), role("quiet"))]

    def _elsewhere(self, entries: Iterable[RosterEntry]) -> list[str]:
        """The zones of families, also of those that move, whose clock shows another time than hers."""
        zones = {zone for each in entries for zone in zones_of(each.family.zone)}
        return [each for each in zones if self._home.there(self._view.now, each) is not None]

    def _time(self, entry: RosterEntry, first: StandingTime, *, has_more: bool) -> list[Piece]:
        booking = entry.lesson_of(first, self._home)
        if booking is None:
            return []
        at, home = booking.lesson.starts_at, self._home
        style = role("quiet") if entry.group is EntryGroup.OVER else role("text")
        local = home.local(at)
        time = home.time(at)
        others = f" +{len(entry.times) - 1}" if len(entry.times) > 1 else ""
        pieces: list[Piece] = [
            (self._at["when"], f"{WEEKDAYS[local.weekday()][:3]} {time:>{self._clock}}{others}", style),
            (self._at["minutes"], f"{first.minutes:>{_MINUTES}}", role("quiet")),
        ]
        if has_more and "there" in self._at and (there := home.there(at, entry.family.zone)) is not None:
            pieces.append((self._at["there"], cut_at_word(there, self._widths["there"]), role("quiet")))
        if has_more and "since" in self._at and entry.since is not None:
            since = f"since {MONTHS[entry.since.month - 1]} {entry.since.year}"
            pieces.append((self._at["since"], since, role("quiet")))
        return pieces


def _sign(entry: RosterEntry) -> tuple[str, str]:
    if entry.group is EntryGroup.TO_DO:
        return NEEDS_HER, role("warning", "bold")
    if entry.status is Status.PAUSED:
        return BREAK, role("quiet")
    return (OPEN, role("text")) if entry.group is EntryGroup.WAITING else ("", "")


def status_words(entry: RosterEntry, home: TeacherClock) -> str:
    """What a student is on the day, where that is not what one expects; empty for one who has lessons every week."""
    today, begins = entry.on, entry.times[0].from_on if entry.times else None
    if entry.trial is not None:
        at = entry.trial.starts_at
        if entry.group is EntryGroup.WAITING:
            return f"trial {short_date(home.date_of(at))}, {home.time(at)}"
        return f"trial {near_day(home.date_of(at), today)}, no weekly time"
    if entry.pause is not None:
        return f"{pause_words(entry.pause, today)}{f': ask {entry.student.name}' if entry.is_to_be_asked else ''}"
    if entry.ended_on is not None:
        return f"ended {near_day(entry.ended_on, today)}"
    if entry.status is Status.BEGINS and begins is not None:
        return f"begins {near_day(begins, today)}"
    return "no weekly time yet" if entry.status is Status.ASKED else ""


def pause_words(pause: Pause, today: date) -> str:
    """How long a pause lasts, and what becomes of the time."""
    kept = "time kept" if pause.keeps_time else "time free"
    if pause.until_on is None:
        return f"paused since {near_day(pause.from_on, today)}, {kept}"
    return f"paused through {near_day(pause.until_on, today)}, {kept}"


class _Facts(Value):
    """Facts with their labels, laid out in so many columns: what does not fit in one line goes on below itself."""

    width: int

    def lines(self, label: str, words: Iterable[tuple[str, str]]) -> list[Content]:
        """Each of some words, with their styles, from a line of its own on; the label stands before the first."""
        room = max(8, self.width - _LABEL)
        found = [line for said, style in words if said for line in lines_of(Content.styled(said, style), room)]
        return [
            Content.assemble((f"{label if not place else '':<{_LABEL}}", role("quiet")), line)
            for place, line in enumerate(found)
        ]

    def private(self, label: str, words: str | None) -> list[Content]:
        """The same of what is the teacher's alone."""
        return self.lines(label, [(f"{PRIVATE} {words}" if words else "", role("private", "italic"))])


def detail_rows(detail: StudentDetail, home: TeacherClock, width: int) -> list[Content]:
    """All that is known of a student below the name: what is needed most stands first."""
    entry, facts, text, quiet = detail.entry, _Facts(width=width), role("text"), role("quiet")
    today = entry.on
    lines = [
        heading(
            entry.called.upper(), width, f"{entry.family.name} family" if entry.called == entry.student.name else ""
        )
    ]
    status = status_words(entry, home)
    lines += facts.lines("", [(status[:1].upper() + status[1:], text)])
    times = [*entry.times, *entry.later]
    lines += facts.lines("weekly", [(_time_words(entry, each, home), text) for each in times])
    if detail.following is not None:
        at = detail.following.lesson.starts_at
        kind = "" if detail.following.lesson.standing_time_id is not None else f"  {detail.following.lesson.kind}"
        lines += facts.lines("next", [(f"{short_date(home.date_of(at))}, {home.time(at)}{kind}", text)])
    to_come = [each for each in detail.pauses if each is not entry.pause]
    lines += facts.lines("pauses", [(_pause_to_come(each, today), text) for each in to_come])
    lines += facts.private("", "; ".join(each.reason for each in detail.pauses if each.reason))
    lines += facts.private("ended", entry.student.ended_because if entry.is_ended else None)
    if detail.owed:
        owed = "; ".join(near_day(home.date_of(each.starts_at), today) for each in detail.owed)
        lines += facts.lines("owed", [(f"{counted(len(detail.owed), 'make-up')}, for {owed}", role("asked"))])
    if detail.year is not None:
        lines += facts.lines("this year", [(_year_words(detail.year), text)])
    lines += facts.private("level", entry.student.level)
    lines += facts.private("remark", entry.student.remark)
    lines += facts.lines("family", [(words, text) for words in _family(detail)])
    guardians = [words for each in detail.guardians for words in _guardian(each)]
    lines += facts.lines("guardian" if len(detail.guardians) == 1 else "guardians", guardians)
    lines += facts.lines("practice", [(_practice(entry), text)])
    lines += facts.lines("shown", [(words, role("private", "italic")) for words in _shown(detail)])
    links = dict.fromkeys(each.call_link for each in times if each.call_link)
    return lines + facts.lines("call", [(link, quiet) for link in links])


def _time_words(entry: RosterEntry, standing: StandingTime, home: TeacherClock) -> str:
    booking = entry.lesson_of(standing, home)
    if booking is None:
        return ""
    at, today = booking.lesson.starts_at, entry.on
    there = home.there(at, entry.family.zone)
    often = "every other " if standing.every_weeks > 1 else ""
    facts = [f"{often}{WEEKDAYS[home.local(at).weekday()][:3]} {home.time(at)}"]
    facts += [there] if there is not None else []
    facts += [f"{standing.minutes} min", *([standing.instrument] if standing.instrument else [])]
    if standing.from_on is not None:
        facts.append(f"{'from' if standing.from_on > today else 'since'} {near_day(standing.from_on, today)}")
    if standing.until_on is not None:
        facts.append(f"through {near_day(standing.until_on, today)}")
    return ", ".join(facts)


def _pause_to_come(pause: Pause, today: date) -> str:
    first = near_day(pause.from_on, today)
    last = f" through {near_day(pause.until_on, today)}" if pause.until_on is not None else " on"
    return f"from {first}{last}, {'time kept' if pause.keeps_time else 'time free'}"


def _year_words(year: StudentYear) -> str:
    missed: Sequence[tuple[int, str]] = (
        (year.absent, "absent"),
        (year.cancelled + year.cancelled_late, "canceled"),
        (year.called_off, "called off"),
        (year.unmarked, "not marked"),
    )
    told = [f"{year.taught} taught", f"{year.planned} to come", *(f"{count} {word}" for count, word in missed if count)]
    return f"{', '.join(told)}; {year.taught + year.planned} of {year.promised}"


def _family(detail: StudentDetail) -> list[str]:
    family = detail.entry.family
    siblings = listed([each.student.name for each in detail.siblings]) if detail.siblings else ""
    habits = [
        f"language {family.language}" if family.language else "",
        f"{family.hours}-hour clock" if family.hours else "",
        f"notes by {family.send_by}" if family.send_by else "",
    ]
    return [
        ", ".join(
            filter(None, [family.name, places(family.zone, detail.entry.on), f"with {siblings}" if siblings else ""])
        ),
        ", ".join(filter(None, habits)),
    ]


def _guardian(guardian: Guardian) -> list[tuple[str, str]]:
    gets = f"gets {gets_words(guardian.gets)}" if guardian.email else "no email address"
    return [
        ("  ".join(filter(None, [guardian.name, guardian.email, gets])), role("text")),
        (f"{PRIVATE} {guardian.phone}" if guardian.phone else "", role("private", "italic")),
    ]


def _shown(detail: StudentDetail) -> list[str]:
    """What may be shown of the student, one way after the other; one that ended says so."""
    return [
        f"{PRIVATE} {said_words(each.said)}{', ended' if (each.until_on or detail.entry.on) < detail.entry.on else ''}"
        for each in sorted(detail.permissions, key=lambda each: (not each.is_given, each.what))
    ]


def _practice(entry: RosterEntry) -> str:
    student = entry.student
    days = practice_days_words(student.practice_days) if student.practice_days is not None else ""
    a_day = f"{student.daily_minutes} minutes a day" if student.daily_minutes else ""
    plan = f"plan {student.plan}" if student.plan is not None else ""
    return ", ".join(filter(None, [a_day, days, plan]))
