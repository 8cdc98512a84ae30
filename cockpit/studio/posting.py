"""Which notes go out when a lesson is finished: one version to each address on each of the family's ways."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from cockpit.studio.booking import Booking
from cockpit.studio.outgoing import Fate, Outgoing, OutgoingId, withdrawn
from cockpit.studio.people import Family
from cockpit.studio.records import Edit
from cockpit.studio.ways import TO_AN_ADDRESS, SendingRules, Way, read_ways

_MAY_BE_THERE = frozenset({Fate.GOING, Fate.UNSURE, Fate.SENT})
_NO_ADDRESS = "the roster has no e-mail address for this family"
_SUPERSEDED = "newer notes took their place"


@dataclass(frozen=True, slots=True, kw_only=True)
class FinalNotes:
    """A lesson's practice notes in every form, made final. `body` is that of the page; `next_lesson` is iCalendar."""

    title: str
    text: str
    markdown: str
    body: str
    language: str
    next_lesson: str | None = None


def ways_of(family: Family, rules: SendingRules) -> frozenset[Way]:
    """How a family's notes go out: as the roster says, else as the studio does."""
    return rules.ways if family.send_by is None else read_ways(family.send_by)


def would_be(
    booking: Booking,
    notes: FinalNotes,
    rules: SendingRules,
    earlier: Iterable[Outgoing],
    times: tuple[datetime, datetime],
) -> tuple[Outgoing, ...]:
    """What goes to each address on each way, still without a number of its own.

    `earlier` is what went out of this lesson before, or is to; `times` are now and the moment before which nothing
    goes, UTC.
    """
    earlier = list(earlier)
    return tuple(_fresh(booking, notes, each, earlier, times) for each in _destinations(booking.family, rules))


def posted(
    fresh: Iterable[Outgoing], earlier: Sequence[Outgoing], now: datetime, new_id: Callable[[], int]
) -> tuple[Edit, ...]:
    """The edits that put notes into the outbox; none for an address that has these very notes, or is to get them.

    What still waits of an earlier version is withdrawn: the family gets the newest only.
    """
    edits: list[Edit] = []
    for item in fresh:
        before = [each for each in earlier if (each.way, each.address) == (item.way, item.address)]
        if _has_it(before, item):
            continue
        edits += [
            Edit(before=old, after=withdrawn(old, now, _SUPERSEDED))
            for old in before
            if old.fate in {Fate.WAITING, Fate.REFUSED}
        ]
        edits.append(Edit(before=None, after=replace(item, id=OutgoingId(new_id()))))
    return tuple(edits)


def _destinations(family: Family, rules: SendingRules) -> Iterator[tuple[Way, str]]:
    ways = ways_of(family, rules)
    if Way.FOLDER in ways:
        yield Way.FOLDER, ""
    for way in TO_AN_ADDRESS:
        if way in ways:
            yield from ((way, address) for address in family.addresses or ("",))


def _fresh(
    booking: Booking,
    notes: FinalNotes,
    destination: tuple[Way, str],
    earlier: Sequence[Outgoing],
    times: tuple[datetime, datetime],
) -> Outgoing:
    way, address = destination
    before = [each for each in earlier if (each.way, each.address) == destination]
    is_lost = way in TO_AN_ADDRESS and not address
    return Outgoing(
        id=OutgoingId(0),
        lesson_id=booking.lesson.id,
        family_id=booking.family.id,
        version=max((each.version for each in before), default=0) + 1,
        way=way,
        address=address,
        student=booking.student.name,
        title=notes.title,
        text=notes.markdown if way is Way.FOLDER else notes.text,
        page=notes.body,
        language=notes.language,
        next_lesson=notes.next_lesson if way is not Way.FOLDER else None,
        is_update=any(each.fate in _MAY_BE_THERE for each in before),
        queued_at=times[0],
        not_before=times[1],
        fate=Fate.REFUSED if is_lost else Fate.WAITING,
        settled_at=times[0] if is_lost else None,
        reason=_NO_ADDRESS if is_lost else None,
    )


def _has_it(before: Sequence[Outgoing], fresh: Outgoing) -> bool:
    last = next((each for each in reversed(before) if each.fate is not Fate.WITHDRAWN), None)
    return last is not None and (last.text, last.page) == (fresh.text, fresh.page)
