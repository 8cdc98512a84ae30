"""The lines of what lies ahead."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, timedelta
from itertools import zip_longest

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.calendar.ahead import MakeUpOwed, Outlook
from cockpit.screens.look.show import BREAK, CHANGES, NEEDS_HER, NOT, NOW, OPEN, WIDEST, cut, hung, placed, role
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.calendar.clock_changes import ChangeAhead, Shift
from cockpit.studio.calendar.collisions import Group
from cockpit.studio.calendar.seats import LENGTHS, DaySeats
from cockpit.studio.clocks.moments import WEEK, WEEKDAYS, Zone
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import (
    MONTHS,
    city,
    counted,
    listed,
    long_date,
    near_date,
    near_days,
)
from cockpit.studio.lessons.breaks import Pause, TimeOff, is_for_all
from cockpit.studio.lessons.calls import OwedMinutes
from cockpit.studio.lessons.lesson import Lesson, Outcome
from cockpit.studio.lessons.policy import BeyondLimit
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.people.permissions import Permission, said_words
from cockpit.studio.roster.long_ended import LongEnded
from cockpit.studio.values import Value
from cockpit.wording.clock_changes import shift_readings, shift_words
from cockpit.wording.problems import days_ahead, group_sentence, problem_columns

_SHORTEST_WEEK = 3
_ABSENCES = {
    Outcome.ABSENT: "absence",
    Outcome.CANCELLED_LATE: "late cancellation",
    Outcome.CANCELLED: "cancellation in time",
    Outcome.CALLED_OFF: "lesson called off",
}
_NTH = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_LONGEST_NAME = 18
_YEARS_SAID_FROM = 24  # months
_NARROWEST_WHAT = 28  # columns below which a problem is a sentence


class TroubleColumns(Value):
    """Where the columns of all problems stand: the date with the time below it, whose lesson, and what is wrong with it."""

    name: int
    what: int

    @classmethod
    def of(cls, groups: Iterable[Group], home: TeacherClock, today: date) -> "TroubleColumns":
        """As wide as the widest of each; a long name is cut."""
        found = [problem_columns(group, home, today)[:3] for group in groups]
        date_, time, name = (max(map(cell_len, column), default=0) for column in zip(*found, strict=True))
        at_name = 2 + max(date_, time) + 2
        return cls(name=at_name, what=at_name + min(name, _LONGEST_NAME) + 2)


def trouble_row(
    group: Group,
    free: Sequence[datetime],
    home: TeacherClock,
    today: date,
    width: int,
    columns: TroubleColumns | None = None,
) -> Content:
    """What goes wrong, and times (UTC) that would suit: in columns, or as a sentence where these do not fit."""
    lines = _sentence(group, home, today, width) if columns is None else _in_columns(group, home, today, width, columns)
    if free:
        family = (group.first.other or group.first.booking).family
        times = _free(free, home, family.zone, today)
        said, at = (f"free  {times}", 2) if columns is None else (times, columns.what)
        first, *rest = hung(Content.styled(said, role("quiet")), width - at)
        label = (2, "", "") if columns is None else (columns.name, "free", role("quiet"))
        lines += [placed(at, label) + first, *(Content(" " * at) + line for line in rest)]
    return Content("\n").join(lines)


def _sentence(group: Group, home: TeacherClock, today: date, width: int) -> list[Content]:
    said = Content.assemble((f"{NEEDS_HER} ", role("warning", "bold")), group_sentence(group, home, today))
    return hung(said, width)


def _in_columns(group: Group, home: TeacherClock, today: date, width: int, columns: TroubleColumns) -> list[Content]:
    day, at, name, facts = problem_columns(group, home, today)
    room = width - columns.what
    wrong, more = Content.styled(facts[0], role("text")), Content.styled("   ".join(facts[1:]), role("quiet"))
    beside = wrong + "   " + more if more else wrong
    said = [beside] if beside.cell_length <= room else [*hung(wrong, room), *hung(more, room)]
    heads = [
        placed(
            columns.what,
            (0, NEEDS_HER, role("warning", "bold")),
            (2, day, role("warning", "bold")),
            (columns.name, cut(name, columns.what - columns.name - 2), role("text", "bold")),
        ),
        placed(columns.what, (2, at, role("quiet"))),
    ]
    blank = Content(" " * columns.what)
    return [head + line for head, line in zip_longest(heads, filter(None, said), fillvalue=blank)]


def _free(free: Sequence[datetime], home: TeacherClock, family_zone: Zone, today: date) -> str:
    """The times day by day: `Tue 16 March 3:30 pm (8:30 pm London), 3:15 pm (8:15 pm London)`."""
    said: list[str] = []
    day = None
    for starts_at in free:
        on = home.date_of(starts_at)
        when = "" if on == day else f"{near_date(on, today)} "
        day = on
        said.append(f"{when}{home.both(starts_at, family_zone)}")
    return ", ".join(said)


def change_row(ahead: ChangeAhead, hours: int) -> Content:
    """Whose clocks change, and on which day of the place that changes; of her own, if it is among them. And who moves."""
    places = ", ".join(dict.fromkeys(city(change.zone) for change in ahead.clocks))
    yours = "" if ahead.own is None else " (yours, too)" if ahead.others else " (yours)"
    moves = [f"{move.family.name} family to {city(move.change.zone)}" for move in ahead.moves]
    said = ", ".join(filter(None, [f"{places}{yours}", *moves]))
    told = [each for move in ahead.moves for each in move.kept]
    others = ahead.unaffected - {each.standing_time_id for each in told}
    lines = [shift_words(each, hours) for each in told]
    if others or not told:
        lines.append(f"{counted(len(others), 'lesson')} not affected")
    below = "".join(f"\n    {line}" for line in lines)
    return Content.assemble(
        (f"{CHANGES} ", ""), (long_date(ahead.changed_on), "bold"), f"  {said}", (below, role("quiet"))
    )


def shift_row(shift: Shift, hours: int, today: date) -> Content:
    """A lesson that shifts: from what to what, on both clocks."""
    return Content.assemble(
        "  ",
        (shift.title, "bold"),
        f" from {near_date(shift.after.ours.date(), today)}",
        (f"\n    {_both(shift, hours)}", role("quiet")),
    )


def _both(shift: Shift, hours: int) -> str:
    return "   ".join(f"{name} {' → '.join(readings)}" for name, readings in shift_readings(shift, hours))


def owed_row(owed: MakeUpOwed, people: People, home: TeacherClock, today: date) -> Content:
    """A lesson to be made up, until when that is promised, and below it whether it is one too many."""
    row = _made_up_row(OPEN, owed.lesson, people, home, today) + _expiry(owed, today)
    if owed.beyond is None:
        return row
    return row + Content.styled(f"\n  {NEEDS_HER} {_beyond_words(owed.beyond, today)}", role("warning", "bold"))


def _beyond_words(beyond: BeyondLimit, today: date) -> str:
    """That a make-up is one too many: `third this term: your policy has two`, or `second absence this term: ... one`."""
    nth = _NTH[beyond.nth - 1] if beyond.nth <= len(_NTH) else f"number {beyond.nth}"
    most = _NUMBERS[beyond.most - 1] if beyond.most <= len(_NUMBERS) else str(beyond.most)
    term = "this term" if beyond.is_now else f"of the term from {near_date(beyond.term, today)}"
    what = f" {_ABSENCES[beyond.outcome]}" if beyond.outcome is not None else ""
    return f"{nth}{what} {term}: your policy has {most}"


def _made_up_row(sign: str, lesson: Lesson, people: People, home: TeacherClock, today: date) -> Content:
    on = home.date_of(lesson.starts_at)
    name = (people.students[lesson.student_id].name, "bold")
    return Content.assemble((f"{sign} ", ""), name, f"  {lesson.minutes} min for {near_date(on, today)}")


def _expiry(owed: MakeUpOwed, today: date) -> Content:
    """Until when it is promised: `expires Fri, February 12, in 21 days`."""
    expires_on = owed.expires_on
    if expires_on is None:
        return Content("")
    days = (expires_on - today).days
    when = f"in {counted(days, 'day')}" if days > 0 else "today" if days == 0 else f"{counted(-days, 'day')} ago"
    said = f"  expire{'s' if days >= 0 else 'd'} {near_date(expires_on, today)}, {when}"
    return Content.styled(said, role("quiet") if days >= 0 else role("warning", "bold"))


def minutes_row(owed: OwedMinutes, home: TeacherClock, today: date, width: int) -> Content:
    """Minutes that a student is owed for lost calls, and the days on which they were lost."""
    days = listed([near_date(home.date_of(lesson.starts_at), today) for lesson in owed.lost.lessons])
    said = Content.assemble((f"{OPEN} ", ""), (owed.student.name, "bold"), f"  {owed.minutes} min lost on {days}")
    return Content("\n").join(hung(said, width))


def permission_row(permission: Permission, people: People, today: date, width: int) -> Content:
    """What may be shown of a student no longer than through a day soon."""
    days = ((permission.until_on or today) - today).days
    when = f"in {counted(days, 'day')}" if days else "today"
    name = people.students[permission.student_id].name
    said = Content.assemble(
        (f"{OPEN} ", ""), (name, "bold"), f"  {said_words(permission.said)}", (f"  {when}", role("quiet"))
    )
    return Content("\n").join(hung(said, width))


def ended_row(ended: LongEnded, today: date, width: int) -> Content:
    """A family that ended long ago, and the commands that save and delete what is known of it."""
    names = listed([each.name for each in ended.students])
    said = Content.assemble(
        (f"{OPEN} ", ""),
        (names, "bold"),
        f"  ended {long_date(ended.ended_on)}",
        (f"  {_ago(ended.ended_on, today)}", role("quiet")),
    )
    command = f'cockpit family "{ended.family.name}"'
    below = (f"{command} --export FILE.zip  saves all of it", f"{command} --forget  deletes it")
    lines = (line for each in below for line in hung(Content.styled(each, role("quiet")), width - 2))
    return Content("\n").join([*hung(said, width), *(Content("  ") + line for line in lines)])


def _ago(on: date, today: date) -> str:
    months = (today.year - on.year) * 12 + today.month - on.month - (today.day < on.day)
    return f"{counted(months // 12, 'year') if months >= _YEARS_SAID_FROM else counted(months, 'month')} ago"


def break_row(each: TimeOff, people: People, today: date, width: int) -> Content:
    """Days without lessons, as they are called on a date."""
    if isinstance(each, Pause):
        return Content("\n").join(line for row in _pause_rows(each, people, today) for line in hung(row, width))
    days = near_days(each.from_on, each.until_on, today)
    whose = "" if each.family_id is None else f"family {people.families[each.family_id].name}  "
    return Content.assemble((f"{BREAK} ", role("quiet")), (days, "bold"), f"  {whose}{each.reason}")


def _pause_rows(pause: Pause, people: People, today: date) -> Iterator[Content]:
    """Who pauses, and below it, where nobody knows until when, from which day on to ask."""
    name = people.students[pause.student_id].name
    days = f"from {near_date(pause.from_on, today)}"
    if pause.until_on is not None:
        days = near_days(pause.from_on, pause.until_on, today)
    what = "time kept" if pause.keeps_time else "time free"
    yield Content.assemble(
        (f"{BREAK} ", role("quiet")), (f"{name} paused {days}", "bold"), f"  {what}  {pause.reason}".rstrip()
    )
    if pause.ask_on is not None and pause.ask_on <= today:
        yield Content.styled(f"{NEEDS_HER} ask whether {name} comes back", role("warning", "bold"))
    elif pause.ask_on is not None:
        yield Content.styled(f"  ask from {near_date(pause.ask_on, today)} on whether {name} comes back", role("quiet"))


def seats_row(day: DaySeats, home: TeacherClock, width: int) -> Content:
    """How many lessons of each length still fit on a weekday, and below it where: `Tue  3 of 30  0 of 45  0 of 60`."""
    counts = "  ".join(f"{seats:>2} of {minutes}" for seats, minutes in zip(day.seats, LENGTHS, strict=True))
    said = Content.assemble("  ", (WEEKDAYS[day.on.weekday()][:3], "bold"), f"  {counts}")
    spans = ", ".join(_span(begins, ends, home) for begins, ends in day.spans)
    free = hung(Content.styled(f"free {spans}" if spans else "nothing free", role("quiet")), width - 7)
    return Content("\n").join([said, *(Content(" " * 7) + line for line in free)])


def _span(begins: datetime, ends: datetime, home: TeacherClock) -> str:
    """A stretch of a day with its half of the day once: `2:00 to 2:30 pm`."""
    digits, half = home.time_and_half(begins)
    is_same = half == home.time_and_half(ends)[1]
    return f"{digits if is_same else home.time(begins)} to {home.time(ends)}"


def ahead_options(outlook: Outlook, home: TeacherClock, width: int) -> list[Option]:
    """The line of the weeks, and the groups that have anything; ids are the kind and a number."""
    today, people = outlook.today, outlook.people
    quiet = role("quiet")
    troubles = len(outlook.troubles) + outlook.later
    problems = f"scheduling problems in {days_ahead(outlook.days)}"
    accepted = [
        Option(_left_as_is(each, home, today, width), id=f"accepted:{number}")
        for number, each in enumerate(outlook.accepted)
    ]
    owed = [Option(owed_row(one, people, home, today), id=f"owed:{n}") for n, one in enumerate(outlook.owed)]
    let_go = [
        Option(_made_up_row(NOT, one, people, home, today), id=f"let_go:{n}") for n, one in enumerate(outlook.let_go)
    ]
    minutes = [
        Option(minutes_row(each, home, today, width), id=f"minutes:{n}") for n, each in enumerate(outlook.owed_minutes)
    ]
    breaks = [Option(break_row(each, people, today, width), id=f"break:{n}") for n, each in enumerate(outlook.breaks)]
    ending = [
        Option(permission_row(each, people, today, width), id=f"permission:{n}")
        for n, each in enumerate(outlook.permissions)
    ]
    ended = [Option(ended_row(each, today, width), id=f"ended:{n}") for n, each in enumerate(outlook.ended)]
    seats = [Option(seats_row(each, home, width), id=f"seats:{n}") for n, each in enumerate(outlook.seats)]
    groups = (
        (problems, troubles, _troubles(outlook, home, width)),
        ("left as is, x to undo", len(accepted), accepted),
        ("clock changes, w to write to families", len(outlook.changes), _changes(outlook, home)),
        ("make-ups owed, enter books, x lets go", len(owed), owed),
        ("make-ups let go, x to owe them again", len(let_go), let_go),
        ("minutes of lost calls owed, enter to settle", len(minutes), minutes),
        ("permissions that end soon", len(ending), ending),
        ("ended long ago: export or delete, x keeps", len(ended), ended),
        ("seats for weekly lessons, by minutes", sum(each.seats[0] for each in outlook.seats), seats),
        ("breaks and pauses, delete to remove one", len(breaks), breaks),
    )
    options = [Option(row, disabled=True) for row in weeks_line(outlook, home, width)]
    if not troubles:
        options.append(group(f"no {problems}", width))
    for words, count, rows in groups:
        options += [group(words, width, count), *rows] if rows else []
    if not outlook.changes:
        said = f"\n{CHANGES} No clock changes in the next {outlook.weeks} weeks"
        options.append(Option(Content.styled(said, quiet), disabled=True))
    return options


def _troubles(outlook: Outlook, home: TeacherClock, width: int) -> list[Option]:
    columns = TroubleColumns.of(outlook.troubles, home, outlook.today) if outlook.troubles else None
    if columns is not None and columns.what + _NARROWEST_WHAT > width:
        columns = None
    options = [
        Option(trouble_row(trouble, outlook.free[number], home, outlook.today, width, columns), id=f"trouble:{number}")
        for number, trouble in enumerate(outlook.troubles)
    ]
    more = Content.styled(f"  and {outlook.later} more later", role("quiet"))
    return [*options, Option(more, disabled=True)] if outlook.later else options


def _left_as_is(accepted: Group, home: TeacherClock, today: date, width: int) -> Content:
    said = Content.styled(f"{OPEN} {group_sentence(accepted, home, today)}", role("quiet"))
    return Content("\n").join(hung(said, width))


def _changes(outlook: Outlook, home: TeacherClock) -> list[Option]:
    options: list[Option] = []
    for number, ahead in enumerate(outlook.changes):
        options.append(Option(change_row(ahead, home.hours), id=f"change:{number}"))
        options += [
            Option(shift_row(shift, home.hours, outlook.today), id=f"shift:{number}.{place}")
            for place, shift in enumerate(ahead.shifts)
        ]
    return options


def weeks_line(outlook: Outlook, home: TeacherClock, width: int) -> list[Content]:
    """The weeks ahead as a line of music: each week's Monday above it, breaks hatched, and below it what happens there."""
    monday, quiet = outlook.today - timedelta(days=outlook.today.weekday()), role("quiet")
    week = max(_SHORTEST_WEEK, (min(width, WIDEST) - 3) // outlook.weeks)

    def at(on: date) -> int:
        return 1 + (on - monday).days * week // 7

    ends = at(monday + WEEK * outlook.weeks)
    mondays = [monday + WEEK * number for number in range(outlook.weeks)]
    firsts = [on for place, on in enumerate(mondays) if not place or on.month != mondays[place - 1].month]
    drawn = ["┼" if column in {at(on) for on in mondays} else "─" for column in range(ends)]
    for each in outlook.breaks:
        for column in range(max(0, at(each.from_on)), min(ends, at(each.last_on) + 1)) if is_for_all(each) else ():
            drawn[column] = BREAK
    now = at(outlook.today)
    drawn[0], drawn[now] = "┠", NOW
    # A month that has no room for its name, and a blank behind it, gives way to the next one.
    named = [on for on, following in zip_longest(firsts, firsts[1:]) if following is None or at(following) > at(on) + 3]
    return [
        placed(width, *((at(on), MONTHS[on.month - 1][:3].upper(), quiet) for on in named)),
        placed(width, *((at(on), str(on.day), quiet) for on in mondays)),
        placed(
            width,
            (0, "".join(drawn[:now]), role("line")),
            (now, NOW, role("clock_running")),
            (now + 1, "".join(drawn[now + 1 :]), role("line")),
            (ends, "┤┃", quiet),
        ),
        placed(width, *((at(on), *sign) for on, sign in _signs(outlook, home).items() if 0 < at(on) < ends)),
    ]


def _signs(outlook: Outlook, home: TeacherClock) -> dict[date, tuple[str, str]]:
    """A sign for each day: a make-up that is owed, clocks that change, what needs her. Of several a later kind goes first."""
    findings = [each for trouble in outlook.troubles for each in trouble.findings]
    return {
        **{home.date_of(each.lesson.starts_at): (OPEN, role("text")) for each in outlook.owed},
        **{ahead.changed_on: (CHANGES, role("text")) for ahead in outlook.changes},
        **{home.date_of(each.booking.lesson.starts_at): (NEEDS_HER, role("warning", "bold")) for each in findings},
    }
