"""A recital in words: the program in columns, what stands against it, and what was noted."""

from collections.abc import Iterable
from datetime import date, datetime
from typing import assert_never

from cockpit.studio.clocks.moments import WEEKDAYS, zone_at
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import city, clock_time, counted, listed, long_date, near_date, possessive, short_date
from cockpit.studio.recital.clock_turns import ClockTurn, TurnedHour
from cockpit.studio.recital.lengths import length_words
from cockpit.studio.recital.order import Rule
from cockpit.studio.recital.program import AgainstRecital, ProgramRow, RecitalProgram, RecitalTrouble
from cockpit.studio.recital.readiness import NotedAnswer, Readiness
from cockpit.studio.shown import one_line
from cockpit.wording.columns import columns

_RIGHT = frozenset({0, 1, 2})  # number, start, length
_AGAINST = {
    AgainstRecital.ENDED: "has ended by then",
    AgainstRecital.PAUSED: "is paused on that day",
    AgainstRecital.ON_BREAK: "is on a break that day",
    AgainstRecital.NOT_SEEN: "has no permission to be seen in a recital",
    AgainstRecital.NO_LENGTH: "has no length yet",
}
_BROKEN = {
    Rule.INSTRUMENT: "has the instrument of the item before",
    Rule.STUDENT: "has a student of the item before",
    Rule.COSTUME: "leaves too little time for another costume",
    Rule.PIN: "is not where you pinned it",
}


def recital_text(program: RecitalProgram, home: TeacherClock) -> str:
    """A recital as lines: its head, its items in aligned columns with when each begins and ends, and what stands against it."""
    troubles = "".join(f"! {trouble_words(each, home)}\n" for each in program.troubles)
    rows = columns(_rows(program, home), right=_RIGHT)
    items = f"{rows}{_sentence(ends_words(program, home))}\n" if program.rows else ""
    return "\n".join(filter(None, [f"{recital_title(program, home)}\n", items, troubles]))


def recital_title(program: RecitalProgram, home: TeacherClock) -> str:
    """The name, the theme, when and where a recital is, and how much music it has."""
    recital = program.recital
    local = home.local(program.starts_at)
    where = "online" if recital.is_online else one_line(recital.place or "")
    named = " · ".join(filter(None, [one_line(recital.name), one_line(recital.theme or "")]))
    when = f"{long_date(local)}, {clock_time(local, home.hours)}"
    music = f"{length_words(program.times.music)} of music" if program.rows else "no items yet"
    return "\n".join([named, " · ".join(filter(None, [when, where, music]))])


def ends_words(program: RecitalProgram, home: TeacherClock) -> str:
    """When a recital ends, and what is left of the limit: `ends 12:35:15 pm, 24:45 under your 60 minutes`."""
    ends = f"ends {exact_time(program.times.ends_at, home)}"
    left, limit = program.times.left, program.recital.minutes_limit
    if left is None or limit is None:
        return ends
    return f"{ends}, {length_words(abs(left))} {'under' if left >= 0 else 'over'} your {counted(limit, 'minute')}"


def exact_time(at: datetime, home: TeacherClock) -> str:
    """The time of day of a UTC moment on her clock, with seconds: `12:03:00 pm`."""
    local = home.local(at)
    if home.hours != 12:
        return f"{local:%H:%M:%S}"
    return f"{local.hour % 12 or 12}:{local:%M:%S} {'am' if local.hour < 12 else 'pm'}"


def row_names(row: ProgramRow) -> str:
    """Those who play a number, as she calls them: `Ilse and Wren`."""
    return listed([one_line(each.called) for each in row.performers])


def behind_words(behind: int) -> str:
    """How far a recital is behind its plan, in seconds, in words: `4 minutes behind`, `on time`, `1 minute ahead`."""
    minutes = abs(behind) // 60
    if not minutes:
        return "on time"
    return f"{counted(minutes, 'minute')} {'behind' if behind > 0 else 'ahead'}"


def trouble_words(trouble: RecitalTrouble, home: TeacherClock) -> str:
    """What stands against a recital, in a sentence."""
    who = one_line(trouble.performer.called) if trouble.performer is not None else ""
    what = (
        f"{possessive(row_names(trouble.row))} {one_line(trouble.row.shared.piece)}" if trouble.row is not None else ""
    )
    if (whole := _against_whole(trouble, home)) is not None:
        return whole
    if trouble.kind is AgainstRecital.COMPANY and trouble.performer is not None:
        company = one_line(trouble.performer.item.with_whom or "")
        return f'"With {company}" is not on the sheet for {who}: it may be about another family.'
    if trouble.named is not None:
        return f"The {trouble.named.about} of {what} names {one_line(trouble.named.called)}, who has no permission to be named."
    if trouble.broken is not None:
        return f"{what} {_BROKEN[trouble.broken.rule]}."
    return f"{who or what} {_AGAINST[trouble.kind]}."


def days_to_words(on: date, weeks: int, today: date) -> str:
    """How far a recital is: `in 3 weeks, Sat, December 19`; `today`."""
    if on == today:
        return "today"
    return f"in {counted(weeks, 'week')}, {near_date(on, today)}"


def public_words(row: ProgramRow) -> str:
    """Who plays what in a number, as papers say it: `Ilse  The Old Mill`; without a permission `a student`."""
    names = dict.fromkeys(one_line(each.shown_as) for each in row.performers)
    return f"{listed([*names])}  {one_line(row.shared.piece)}"


def troubles_words(troubles: Iterable[RecitalTrouble], home: TeacherClock) -> tuple[str, ...]:
    """What stands against a recital, in sentences; those who may not be seen are named in one."""
    troubles = [*troubles]
    unseen = [each for each in troubles if each.kind is AgainstRecital.NOT_SEEN]
    names = dict.fromkeys(one_line(each.performer.called) for each in unseen if each.performer is not None)
    several = (f"{listed([*names])} have no permission to be seen in a recital.",) if len(names) > 1 else ()
    rest = [each for each in troubles if not several or each.kind is not AgainstRecital.NOT_SEEN]
    return (*(trouble_words(each, home) for each in rest), *several)


def noted_words(found: Readiness) -> Iterable[str]:
    """What was noted of an item, each with its date: `by heart yes (Tue, December 1)`, `costume not said`."""
    for each in found.noted:
        on = f" ({short_date(each.on)})" if each.on is not None and each.answer is not NotedAnswer.NOT_SAID else ""
        yield f"{each.what} {each.answer}{on}"


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."


def _against_whole(trouble: RecitalTrouble, home: TeacherClock) -> str | None:
    """What stands against a family or the recital; None for what is about a number."""
    if trouble.turn is not None:
        return _turned(trouble.turn, home)
    match trouble.kind:
        case AgainstRecital.NIGHT:
            return _night(trouble, home)
        case AgainstRecital.OVER_LIMIT:
            return f"The recital is {length_words(trouble.seconds)} over its limit."
        case AgainstRecital.CLOSED:
            return "The day is in a break of the studio."
        case _:
            return None


def _turned(turn: ClockTurn, home: TeacherClock) -> str:
    """Says what a clock change does to the start. RFC 5545 3.3.5 decides which of two moments it is."""
    place, at = city(turn.zone), clock_time(turn.local, home.hours)
    on = short_date((turn.typed or turn.local).date())
    match turn.hour:
        case TurnedHour.SKIPPED:
            typed = clock_time(turn.typed or turn.local, home.hours)
            return f"{typed} does not exist in {place} on {on}: the clock skips it. The start is at {at}."
        case TurnedHour.FIRST | TurnedHour.SECOND:
            which = "first" if turn.hour is TurnedHour.FIRST else "second"
            return f"{at} comes twice in {place} on {on}. The start is at the {which} of the two."
        case TurnedHour.OTHER:
            return f"The clock changes in {place} on {on}. The start is at {at} there."
        case _ as never:
            assert_never(never)


def _night(trouble: RecitalTrouble, home: TeacherClock) -> str:
    if trouble.family is None or trouble.local is None:
        return ""
    at = f"{WEEKDAYS[trouble.local.weekday()][:3]} {clock_time(trouble.local, home.hours)}"
    place = city(zone_at(trouble.family.zone, trouble.local))
    return f"It is night for the {one_line(trouble.family.name)} family: {at} in {place}."


def _rows(program: RecitalProgram, home: TeacherClock) -> list[tuple[str, ...]]:
    recital, times = program.recital, program.times
    rows = [
        (
            str(row.number),
            exact_time(row.time.starts_at, home),
            _length(row),
            row_names(row),
            one_line(" and ".join(dict.fromkeys(each.instrument for each in row.items if each.instrument))),
            one_line(row.shared.piece),
        )
        for row in program.rows
    ]
    opening = ("", exact_time(program.starts_at, home), length_words(recital.opening_seconds), "welcome", "", "")
    closing = ("", exact_time(times.closing_at, home), length_words(recital.closing_seconds), "thanks", "", "")
    return [
        *([opening] if recital.opening_seconds else []),
        *rows,
        *([closing] if recital.closing_seconds else []),
    ]


def _length(row: ProgramRow) -> str:
    seconds = row.shared.seconds
    return "?" if seconds is None else f"{'~' if row.shared.is_computed else ''}{length_words(seconds)}"
