"""Which notes go out when a lesson is finished: one version to each address on each of the family's ways."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from cockpit.studio.changes.records import Edit
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Family
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, SendingRules, read_channels
from cockpit.studio.post.outgoing import SUPERSEDED, DeliveryStatus, Outgoing, OutgoingId, withdrawn

_MAY_BE_THERE = frozenset({DeliveryStatus.GOING, DeliveryStatus.UNSURE, DeliveryStatus.SENT})
NO_ADDRESS = "the roster has no email address for this family"
_NOT_YET = frozenset({DeliveryStatus.WAITING, DeliveryStatus.REFUSED})


@dataclass(frozen=True, slots=True, kw_only=True)
class FinalNotes:
    """A lesson's practice notes in every form, made final. `body` is that of the page; `next_lesson` is iCalendar."""

    title: str
    text: str
    markdown: str
    body: str
    language: str
    next_lesson: str | None = None


def ways_of(family: Family, rules: SendingRules) -> frozenset[Channel]:
    """How a family's notes go out: as the roster says, else as the studio does."""
    return rules.ways if family.send_by is None else read_channels(family.send_by)


def ways_of_notes(booking: ScheduledLesson, rules: SendingRules) -> frozenset[Channel]:
    """How the notes of a lesson go out: as its family's do, but not at all if it was finished in a rehearsal."""
    return frozenset() if booking.lesson.is_rehearsed else ways_of(booking.family, rules)


def would_be(
    booking: ScheduledLesson,
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
    return tuple(_fresh(booking, notes, each, earlier, times) for each in _destinations(booking, rules))


def posted(
    fresh: Iterable[Outgoing], earlier: Sequence[Outgoing], now: datetime, new_id: Callable[[], int]
) -> tuple[Edit, ...]:
    """The edits that put notes into the outbox; none for an address that has these very notes, or is to get them.

    What still waits of an earlier version is withdrawn, also where it had no address: the family gets the newest only,
    and nothing where that is what it has already.
    """
    gone: dict[OutgoingId, Edit] = {}
    added: list[Edit] = []
    for item in fresh:
        before = [each for each in earlier if each.way is item.way and each.address in {item.address, ""}]
        still = [each for each in before if each.fate in _NOT_YET]
        there = next((each for each in reversed(before) if each.fate in _MAY_BE_THERE), None)
        has_it = there is not None and _is_same(there, item)
        if not has_it and any(_is_same(each, item) and each.address == item.address for each in still[-1:]):
            continue
        gone |= {old.id: Edit(before=old, after=withdrawn(old, now, SUPERSEDED)) for old in still}
        if not has_it:
            added.append(Edit(before=None, after=replace(item, id=OutgoingId(new_id()))))
    return (*gone.values(), *added)


def taken_back(earlier: Iterable[Outgoing], now: datetime) -> tuple[Edit, ...]:
    """The edits that take out what has not gone of a lesson that is opened again, or was not taught after all."""
    return tuple(
        Edit(before=old, after=withdrawn(old, now, "the lesson was reopened"))
        for old in earlier
        if old.fate in _NOT_YET
    )


def _destinations(booking: ScheduledLesson, rules: SendingRules) -> Iterator[tuple[Channel, str]]:
    ways = ways_of_notes(booking, rules)
    if Channel.FOLDER in ways:
        yield Channel.FOLDER, ""
    for way in TO_AN_ADDRESS:
        if way in ways:
            yield from ((way, address) for address in booking.family.addresses or ("",))


def _fresh(
    booking: ScheduledLesson,
    notes: FinalNotes,
    destination: tuple[Channel, str],
    earlier: Sequence[Outgoing],
    times: tuple[datetime, datetime],
) -> Outgoing:
    way, address = destination
    before = [each for each in earlier if each.way is way and each.address in {address, ""}]
    is_lost = way in TO_AN_ADDRESS and not address
    return Outgoing(
        id=OutgoingId(0),
        about=booking.lesson.id,
        lesson_id=booking.lesson.id,
        family_id=booking.family.id,
        version=max((each.version for each in before), default=0) + 1,
        way=way,
        address=address,
        student=booking.student.name,
        title=notes.title,
        text=notes.markdown if way is Channel.FOLDER else notes.text,
        page=notes.body,
        language=notes.language,
        next_lesson=notes.next_lesson if way is not Channel.FOLDER else None,
        is_update=any(each.fate in _MAY_BE_THERE for each in before),
        queued_at=times[0],
        not_before=times[1],
        fate=DeliveryStatus.REFUSED if is_lost else DeliveryStatus.WAITING,
        settled_at=times[0] if is_lost else None,
        reason=NO_ADDRESS if is_lost else None,
    )


def _is_same(one: Outgoing, other: Outgoing) -> bool:
    return (one.text, one.page) == (other.text, other.page)
