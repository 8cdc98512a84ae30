"""What papers say of a recital: the program that all families get, and what a family gets of its own, as values on its clock.

The program has nothing but what anybody may read. Costume, props, how one enters, the link, and when to be there are on
the sheet of the own family alone.
"""

from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta
from itertools import pairwise

from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.changes.recital import Recital, RecitalId, RecitalItemId
from cockpit.studio.clocks.moments import Zone, local_time, zone_at
from cockpit.studio.people.people import Family
from cockpit.studio.post.letters import TimeThere
from cockpit.studio.recital.names import company_for, is_track
from cockpit.studio.recital.program import Performer, ProgramRow, RecitalProgram, begins_at
from cockpit.studio.values import Value

EARLIER = timedelta(minutes=15)
"""How long before the recital a family is to be there; common practice, no source."""
_WEEK_BEFORE = 7  # days within which another time of the clock would mislead whoever goes by the weekly lesson


class PublicItem(Value):
    """A number as all may read it. A name that nobody said may be shown is None; the program says "a student" then."""

    number: int
    names: tuple[str | None, ...]
    instrument: str | None
    piece: str
    composer: str | None
    story: str | None


class PublicProgram(Value):
    """The program that all get; only `starts`, on the reader's clock, differs between them."""

    name: str
    theme: str | None
    starts: TimeThere
    is_online: bool
    place: str | None
    items: tuple[PublicItem, ...]


class OwnItem(Value):
    """What a family is told of a number that its own student plays.

    `starts` is None where the length of a number before it is not known. `partners` are called as on the program, and
    `with_whom` is what she typed of somebody in the same room.
    """

    number: int
    student: str
    piece: str
    composer: str | None
    instrument: str | None
    starts: TimeThere | None
    has_track: bool
    with_whom: str | None
    partners: tuple[str | None, ...]
    enters: str | None
    costume: str | None
    props: str | None
    story: str | None
    goal: Tempo | None


class CalendarDay(Value):
    """A recital or a rehearsal for a calendar: when it starts (UTC), how long it is, and where to call."""

    id: RecitalId
    starts_at: datetime
    minutes: int
    link: str | None
    is_rehearsal: bool


class RehearsalTold(Value):
    """A rehearsal, as a family is told of it."""

    starts: TimeThere
    link: str | None
    place: str | None


class FamilyProgram(Value):
    """All that one family gets: its own sheet, and the program.

    `held` is the start where the recital is held, known where its date is another one than the family's. `changed_on` is the
    day of the week before on which the clock of the family changes.
    """

    family: Family
    program: PublicProgram
    be_there: TimeThere
    link: str | None
    own: tuple[OwnItem, ...]
    rehearsals: tuple[RehearsalTold, ...]
    held: TimeThere | None
    changed_on: date | None

    @property
    def students(self) -> tuple[str, ...]:
        """Those of the family who play, each once, in the order of the program."""
        return tuple(dict.fromkeys(each.student for each in self.own))


def there(at: datetime, zone: Zone) -> TimeThere:
    """A UTC moment as a clock shows it."""
    return TimeThere(at=local_time(at, zone).replace(tzinfo=None), zone=zone_at(zone, at))


def public_program(program: RecitalProgram, zone: Zone) -> PublicProgram:
    """The program on one clock."""
    recital = program.recital
    return PublicProgram(
        name=recital.name,
        theme=recital.theme,
        starts=there(program.starts_at, zone),
        is_online=recital.is_online,
        place=recital.place,
        items=tuple(map(_public, program.rows)),
    )


def family_program(
    program: RecitalProgram, family: Family, goals: Mapping[RecitalItemId, Tempo], strangers: Iterable[str]
) -> FamilyProgram:
    """What one family gets; `goals` are tempos to be reached, `strangers` the names of other families and of their students."""
    starts_at, zone = program.starts_at, family.zone
    others = frozenset(strangers)
    unknown = min((row.number for row in program.rows if row.shared.seconds is None), default=len(program.rows))
    there_now, held = there(starts_at, zone), there(starts_at, program.recital.zone)
    return FamilyProgram(
        family=family,
        program=public_program(program, zone),
        be_there=there(starts_at - EARLIER, zone),
        link=program.recital.link,
        own=tuple(
            _own(row, each, goals.get(each.item.id), others, is_timed=row.number <= unknown)
            for row in program.rows
            for each in row.performers
            if each.family.id == family.id
        ),
        rehearsals=tuple(_rehearsal(each, zone) for each in program.rehearsals),
        held=held if held.at.date() != there_now.at.date() else None,
        changed_on=_changed_on(starts_at, zone),
    )


def calendar_days(program: RecitalProgram) -> tuple[CalendarDay, ...]:
    """The recital and its rehearsals; each is as long as the limit that she set, or as all of it takes."""
    takes = max(-(-program.times.total // 60), 1)
    recitals = (program.recital, *program.rehearsals)
    return tuple(
        CalendarDay(
            id=each.id,
            starts_at=begins_at(each),
            minutes=each.minutes_limit or takes,
            link=each.link,
            is_rehearsal=each.is_rehearsal,
        )
        for each in recitals
    )


def _public(row: ProgramRow) -> PublicItem:
    shared = row.shared
    instruments = dict.fromkeys(each.instrument for each in row.items if each.instrument)
    return PublicItem(
        number=row.number,
        names=tuple(map(_shown_as, row.performers)),
        instrument=", ".join(instruments) or None,
        piece=shared.piece,
        composer=shared.composer,
        story=shared.story,
    )


def _shown_as(performer: Performer) -> str | None:
    return performer.shown_as if performer.item.shown_as or performer.is_named else None


def _own(
    row: ProgramRow, performer: Performer, goal: Tempo | None, others: frozenset[str], *, is_timed: bool
) -> OwnItem:
    item = performer.item
    partners = [each for each in row.performers if each.item.id != item.id]
    is_shared = any(each.family.id != performer.family.id for each in partners)
    return OwnItem(
        number=row.number,
        student=performer.called,
        piece=item.piece,
        composer=item.composer,
        instrument=item.instrument,
        starts=there(row.time.starts_at, performer.family.zone) if is_timed else None,
        has_track=is_track(item),
        with_whom=company_for(item, others, is_shared=is_shared),
        partners=tuple(each.called if each.family.id == performer.family.id else _shown_as(each) for each in partners),
        enters=item.enters,
        costume=item.costume,
        props=item.props,
        story=item.story,
        goal=goal,
    )


def _rehearsal(rehearsal: Recital, zone: Zone) -> RehearsalTold:
    return RehearsalTold(starts=there(begins_at(rehearsal), zone), link=rehearsal.link, place=rehearsal.place)


def _changed_on(starts_at: datetime, zone: Zone) -> date | None:
    """The day by which the clock has changed in the week before; None where it has not, or the family has moved."""
    locals_ = [local_time(starts_at - timedelta(days=ago), zone) for ago in range(_WEEK_BEFORE + 1)]
    for later, earlier in pairwise(locals_):
        if later.utcoffset() != earlier.utcoffset():
            return later.date() if later.tzinfo == earlier.tzinfo else None
    return None
