"""A recital as it will be: who plays what and when, on which clock, and what stands against it; all of it as values."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from enum import StrEnum
from itertools import groupby

from cockpit.studio.calendar.collisions import fits_day
from cockpit.studio.changes.recital import PinnedTo, Recital, RecitalItem, RecitalItemId
from cockpit.studio.clocks.moments import local_time, moment
from cockpit.studio.lessons.breaks import Pause, TimeOff
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, first_name
from cockpit.studio.people.permissions import Permission, Shown, allowed
from cockpit.studio.preferences import Preferences
from cockpit.studio.recital.clock_turns import ClockTurn, clock_turns
from cockpit.studio.recital.names import (
    NameInWords,
    Unnamed,
    company_for,
    is_track,
    names_by_family,
    names_in_words,
    strangers_to,
    unnamed,
)
from cockpit.studio.recital.order import (
    BrokenRule,
    ItemKey,
    ItemToPlace,
    OrderRules,
    Pin,
    broken_rules,
    drafted_order,
)
from cockpit.studio.recital.timing import ItemTime, RecitalFrame, RecitalTimes, recital_times
from cockpit.studio.values import Value

SOMEBODY = "a student"
"""How one is called on papers of whom nobody said that others may see the name."""


class Performer(Value):
    """A student with what that student plays. `called` is for the teacher, `shown_as` for papers.

    `is_named` says whether the name may be shown.
    """

    item: RecitalItem
    student: Student
    family: Family
    called: str
    shown_as: str
    is_named: bool = False


class ProgramRow(Value):
    """One number of a recital: those who play together, and when (UTC). Without a known length it lasts no time here.

    `shared` is the item of the first of them, which says what is common to all: the piece, its length, the story.
    """

    number: int
    performers: tuple[Performer, ...]
    time: ItemTime

    @property
    def shared(self) -> RecitalItem:
        """What all who play have in common."""
        return self.performers[0].item

    @property
    def items(self) -> tuple[RecitalItem, ...]:
        """The items of all who play."""
        return tuple(each.item for each in self.performers)


class AgainstRecital(StrEnum):
    """What stands against an item, a family, or the recital."""

    ENDED = "has ended"
    PAUSED = "is paused"
    ON_BREAK = "is on a break"
    NOT_SEEN = "may not be seen"
    NO_LENGTH = "has no length"
    ORDER = "order"
    NIGHT = "is in the night"
    OVER_LIMIT = "is over the limit"
    CLOSED = "is in a break of the studio"
    NAMES = "names a student"
    CLOCK = "is on a day of a clock change"
    COMPANY = "says with whom one plays, and no sheet does"


class RecitalTrouble(Value):
    """One thing that stands against a recital, told and never acted on.

    It is of a row, of a family whose clock shows `local` when the recital begins, or of the whole; `seconds` are those over
    the limit, `because` the break or pause, `broken` what the order breaks, `named` who is named and may not be, `turn` the clock that changes on that day.
    """

    kind: AgainstRecital
    row: ProgramRow | None = None
    performer: Performer | None = None
    family: Family | None = None
    local: datetime | None = None
    seconds: int = 0
    because: TimeOff | None = None
    broken: BrokenRule | None = None
    named: NameInWords | None = None
    turn: ClockTurn | None = None


class RecitalProgram(Value):
    """A recital at a moment. `starts_at` is UTC. `rehearsals` and further `sittings` are those of it, by date."""

    recital: Recital
    starts_at: datetime
    rows: tuple[ProgramRow, ...]
    times: RecitalTimes
    troubles: tuple[RecitalTrouble, ...]
    rehearsals: tuple[Recital, ...] = ()
    sittings: tuple[Recital, ...] = ()

    @property
    def families(self) -> tuple[Family, ...]:
        """The families that have somebody in it, each once, in order."""
        found = {each.family.id: each.family for row in self.rows for each in row.performers}
        return tuple(found.values())


class RecitalPeople(Value):
    """What is known of those who play."""

    students: Mapping[StudentId, Student]
    families: Mapping[FamilyId, Family]
    permissions: tuple[Permission, ...]
    time_off: tuple[TimeOff, ...]
    times: tuple[StandingTime, ...]


def begins_at(recital: Recital) -> datetime:
    """The UTC moment at which a recital begins; a time that its zone skips or repeats is read as RFC 5545 says."""
    return moment(datetime.combine(recital.held_on, recital.at), recital.zone)


def frame_of(recital: Recital) -> RecitalFrame:
    """What lies around the items of a recital."""
    return RecitalFrame(
        starts_at=begins_at(recital),
        changeover=recital.changeover,
        opening=recital.opening_seconds,
        closing=recital.closing_seconds,
        minutes_limit=recital.minutes_limit,
    )


def program_of(
    recital: Recital, items: Iterable[RecitalItem], people: RecitalPeople, preferences: Preferences
) -> RecitalProgram:
    """A recital with its items, in order, and what stands against it."""
    together = numbers_of(items)
    frame = frame_of(recital)
    times = recital_times([_seconds(each) for each in together], frame)
    rows = tuple(
        ProgramRow(number=number, performers=tuple(_performer(each, recital, people) for each in group), time=at)
        for number, (group, at) in enumerate(zip(together, times.items, strict=True), start=1)
    )
    program = RecitalProgram(recital=recital, starts_at=frame.starts_at, rows=rows, times=times, troubles=())
    return _with_troubles(program, people, preferences)


def numbers_of(items: Iterable[RecitalItem]) -> list[tuple[RecitalItem, ...]]:
    """The items in order, those that are played together as one."""
    ordered = sorted(items, key=lambda each: (each.position, each.id))
    return [tuple(group) for _, group in groupby(ordered, key=lambda each: each.position)]


def drafted(program: RecitalProgram) -> tuple[ProgramRow, ...]:
    """The rows of a recital in the order that is drafted."""
    rows = {row.shared.id: row for row in program.rows}
    order = drafted_order([_to_place(row, program) for row in program.rows], _rules(program))
    return tuple(rows[RecitalItemId(each.key)] for each in order)


def shown_name(student: Student, family: Family, permissions: Iterable[Permission], on: date) -> str:
    """How a student is called on papers by default: by the first name, where it may be shown on a day."""
    said = [each for each in permissions if each.student_id == student.id]
    return first_name(student, family) if allowed(said, Shown.NAMED, on) else SOMEBODY


def _seconds(group: Sequence[RecitalItem]) -> int:
    return max(each.seconds or 0 for each in group)


def _performer(item: RecitalItem, recital: Recital, people: RecitalPeople) -> Performer:
    student = people.students[item.student_id]
    family = people.families[student.family_id]
    default = shown_name(student, family, people.permissions, recital.held_on)
    return Performer(
        item=item,
        student=student,
        family=family,
        called=first_name(student, family),
        shown_as=item.shown_as or default,
        is_named=default != SOMEBODY,
    )


def _rules(program: RecitalProgram) -> OrderRules:
    opening = timedelta(seconds=program.recital.opening_seconds)
    return OrderRules(begins_at=program.starts_at + opening, changeover=program.recital.changeover)


def _to_place(row: ProgramRow, program: RecitalProgram) -> ItemToPlace:
    first = row.performers[0]
    levels = [each.student.level for each in row.performers if each.student.level is not None]
    return ItemToPlace(
        key=ItemKey(row.shared.id),
        players={each.student.id: each.item.costume or "" for each in row.performers},
        name=first.called,
        instrument=first.item.instrument or "",
        seconds=_seconds(row.items),
        level=levels[0] if levels else None,
        pin=_pin(row.shared, program),
    )


def _pin(item: RecitalItem, program: RecitalProgram) -> Pin | None:
    """The pin of an item, as the rules of the order have it; none where what it names is gone."""
    match item.pin:
        case PinnedTo.FIRST | PinnedTo.LAST:
            return Pin(kind=item.pin)
        case PinnedTo.AFTER:
            keys = [
                ItemKey(row.shared.id) for row in program.rows if item.pinned_after in {each.id for each in row.items}
            ]
            return Pin(kind=PinnedTo.AFTER, after=frozenset(keys)) if keys else None
        case PinnedTo.BEFORE:
            return Pin(kind=PinnedTo.BEFORE, before=_before(item.pinned_before, program.recital))
        case None:
            return None


def _before(at: time | None, recital: Recital) -> datetime | None:
    return moment(datetime.combine(recital.held_on, at), recital.zone) if at is not None else None


def _with_troubles(program: RecitalProgram, people: RecitalPeople, preferences: Preferences) -> RecitalProgram:
    of_rows = (each for row in program.rows for each in _of_row(row, program, people))
    unsaid = unnamed(people.students.values(), people.families, people.permissions, program.recital.held_on)
    names = (each for row in program.rows for each in _names(row, unsaid))
    called = names_by_family(people.students.values(), people.families)
    company = (each for row in program.rows for each in _company(row, called))
    order = [_to_place(row, program) for row in program.rows]
    rows = {row.shared.id: row for row in program.rows}
    of_order = (
        RecitalTrouble(kind=AgainstRecital.ORDER, row=rows[RecitalItemId(each.key)], broken=each)
        for each in broken_rules(order, _rules(program))
    )
    return RecitalProgram(
        recital=program.recital,
        starts_at=program.starts_at,
        rows=program.rows,
        times=program.times,
        troubles=(*of_rows, *names, *company, *of_order, *_of_whole(program, people.time_off, preferences)),
    )


def _of_row(row: ProgramRow, program: RecitalProgram, people: RecitalPeople) -> Iterable[RecitalTrouble]:
    if row.shared.seconds is None:
        yield RecitalTrouble(kind=AgainstRecital.NO_LENGTH, row=row)
    for each in row.performers:
        on = local_time(program.starts_at, each.family.zone).date()
        if _has_ended(each.student, people.times, on):
            yield RecitalTrouble(kind=AgainstRecital.ENDED, row=row, performer=each)
        elif (off := _off(each.student, people.time_off, on)) is not None:
            kind = AgainstRecital.PAUSED if isinstance(off, Pause) else AgainstRecital.ON_BREAK
            yield RecitalTrouble(kind=kind, row=row, performer=each, because=off)
        said = [each_said for each_said in people.permissions if each_said.student_id == each.student.id]
        if not allowed(said, Shown.RECITAL, program.recital.held_on):
            yield RecitalTrouble(kind=AgainstRecital.NOT_SEEN, row=row, performer=each)


def _names(row: ProgramRow, unsaid: Iterable[Unnamed]) -> Iterable[RecitalTrouble]:
    """Names in what is typed of a number, each once: a duet has its story and its title twice."""
    people = tuple(unsaid)
    found = (named for each in row.performers for named in names_in_words(each.item, each.family.id, people))
    for named in dict.fromkeys(found):
        yield RecitalTrouble(kind=AgainstRecital.NAMES, row=row, named=named)


def _company(row: ProgramRow, called: Mapping[FamilyId, Iterable[str]]) -> Iterable[RecitalTrouble]:
    """Tells of each student whose company is on no sheet, since the words may be about another family."""
    is_shared = len({each.family.id for each in row.performers}) > 1
    for each in row.performers:
        if each.item.with_whom is None or is_track(each.item):
            continue
        if company_for(each.item, strangers_to(each.family, called), is_shared=is_shared) is None:
            yield RecitalTrouble(kind=AgainstRecital.COMPANY, row=row, performer=each)


def _has_ended(student: Student, times: Iterable[StandingTime], on: date) -> bool:
    theirs = [each.until_on for each in times if each.student_id == student.id]
    return bool(theirs) and all(until is not None and until < on for until in theirs)


def _off(student: Student, time_off: Iterable[TimeOff], on: date) -> TimeOff | None:
    """The pause of a student, or the break of the own family, that a day lies in; one of the studio is told once."""
    for each in time_off:
        is_own = each.student_id == student.id if isinstance(each, Pause) else each.family_id == student.family_id
        if is_own and each.from_on <= on <= each.last_on:
            return each
    return None


def _of_whole(
    program: RecitalProgram, time_off: Iterable[TimeOff], preferences: Preferences
) -> Iterable[RecitalTrouble]:
    held_on = program.recital.held_on
    for each in time_off:
        if not isinstance(each, Pause) and each.family_id is None and each.from_on <= held_on <= each.last_on:
            yield RecitalTrouble(kind=AgainstRecital.CLOSED, because=each)
    starts_at, ends_at = program.starts_at, program.times.ends_at
    set_to = datetime.combine(held_on, program.recital.at), program.recital.zone
    zones = [preferences.home.zone, *(each.zone for each in program.families)]
    for turn in clock_turns(starts_at, set_to, zones):
        yield RecitalTrouble(kind=AgainstRecital.CLOCK, turn=turn)
    for family in program.families if program.recital.is_online else ():
        if not fits_day(starts_at, ends_at, family.zone, preferences):
            local = local_time(starts_at, family.zone)
            yield RecitalTrouble(kind=AgainstRecital.NIGHT, family=family, local=local)
    if program.times.left is not None and program.times.left < 0:
        yield RecitalTrouble(kind=AgainstRecital.OVER_LIMIT, seconds=-program.times.left)
