"""What goes out when a lesson is finished, or a letter is written: one version to each address on each of the ways there."""

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime

from cockpit.studio.changes.records import Edit
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Family
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, SendingRules, read_channels
from cockpit.studio.post.outgoing import (
    DeliveryStatus,
    Outgoing,
    OutgoingId,
    Paper,
    papers_called,
    withdrawn,
)
from cockpit.studio.values import Value, replace

_MAY_BE_THERE = frozenset({DeliveryStatus.GOING, DeliveryStatus.UNSURE, DeliveryStatus.SENT})
NO_ADDRESS = "the roster has no email address for this family's notes"
Destination = tuple[Channel, str]
"""A way on which a paper goes out, and the address that it goes to; an empty one where the way has none."""
_NOT_YET = frozenset({DeliveryStatus.WAITING, DeliveryStatus.REFUSED})


class FinalNotes(Value):
    """A lesson's practice notes in every form, made final. `body` is that of the page; `next_lesson` is iCalendar."""

    title: str
    text: str
    markdown: str
    body: str
    language: str
    next_lesson: str | None = None


class Letter(Value):
    """A letter, a progress sheet, or a program to one family in its language, or the answer to an inquiry: what it is called, and what it says.

    `about` are the students whom it is about; an answer has there who asked. `calendar` is an iCalendar text that goes along.
    """

    paper: Paper
    to: Family | Inquiry
    about: str
    title: str
    text: str
    page: str
    language: str
    calendar: str | None = None

    @property
    def called(self) -> str:
        """What it is, in a sentence: `letter for Ilse`, `answer to Ana Bell`."""
        return papers_called(self.paper, self.about)


def letter_out(
    letter: Letter,
    places: Sequence[Destination],
    times: tuple[datetime, datetime],
    new_id: Callable[[], int],
    about: str = "",
) -> tuple[Outgoing, ...]:
    """What goes to each of the `destinations` of a letter; where there are none, what she is to copy herself.

    `times` are now and the moment before which nothing goes, UTC. All of it is `about` one letter, or one step of an
    inquiry.
    """
    ids = [OutgoingId(new_id()) for _ in places or ("copied",)]
    to = letter.to
    return tuple(
        _or_lost(
            Outgoing(
                id=item_id,
                paper=letter.paper,
                about=about or f"letter-{ids[0]}",
                family_id=to.id if isinstance(to, Family) else None,
                inquiry_id=to.id if isinstance(to, Inquiry) else None,
                version=1,
                way=way,
                address=address,
                student=letter.about,
                title=letter.title,
                text=letter.text,
                page=letter.page,
                language=letter.language,
                next_lesson=letter.calendar,
                is_update=False,
                queued_at=times[0],
                not_before=times[1],
            )
        )
        for item_id, (way, address) in zip(ids, places or [(Channel.CLIPBOARD, "")], strict=True)
    )


def as_next_version(item: Outgoing, earlier: Iterable[Outgoing]) -> Outgoing:
    """A paper that may have gone to its address before, as the version that follows those `earlier` ones."""
    before = [each for each in earlier if each.way is item.way and each.address in {item.address, ""}]
    return replace(
        item,
        version=max((each.version for each in before), default=0) + 1,
        is_update=any(each.fate in _MAY_BE_THERE for each in before),
    )


def last_there(place: Destination, earlier: Sequence[Outgoing]) -> Outgoing | None:
    """Finds the last version of a paper that an address has, may have, or will get. None where there is none."""
    before = (each for each in reversed(earlier) if (each.way, each.address) == place)
    return next((each for each in before if each.fate in {*_MAY_BE_THERE, DeliveryStatus.WAITING}), None)


def destinations(ways: Iterable[Channel], addresses: Sequence[str]) -> list[Destination]:
    """Where a paper goes on a family's ways to an address: to each of its addresses, or to none, which is refused."""
    known = frozenset(ways)
    return [(way, address) for way in TO_AN_ADDRESS if way in known for address in addresses or ("",)]


def destinations_of_notes(ways: frozenset[Channel], addresses: Sequence[str]) -> list[Destination]:
    """Where the notes of a lesson go on their ways: into the folder, and to each of the family's addresses."""
    return [*([(Channel.FOLDER, "")] if Channel.FOLDER in ways else []), *destinations(ways, addresses)]


def ways_of(to: Family | Inquiry, rules: SendingRules) -> frozenset[Channel]:
    """How a family's notes go out: as the roster says, else as the studio does; so does an answer to an inquiry."""
    return rules.ways if isinstance(to, Inquiry) or to.send_by is None else read_channels(to.send_by)


def ways_of_notes(booking: ScheduledLesson, rules: SendingRules) -> frozenset[Channel]:
    """How the notes of a lesson go out: as its family's do, but not at all if it was finished in a rehearsal."""
    return frozenset() if booking.lesson.is_rehearsed else ways_of(booking.family, rules)


def would_be(
    booking: ScheduledLesson,
    notes: FinalNotes,
    places: Iterable[Destination],
    earlier: Iterable[Outgoing],
    times: tuple[datetime, datetime],
) -> tuple[Outgoing, ...]:
    """What goes to each of the `destinations_of_notes`, still without a number of its own.

    `earlier` is what went out of this lesson before, or is to; `times` are now and the moment before which nothing
    goes, UTC.
    """
    earlier = list(earlier)
    return tuple(_fresh(booking, notes, each, earlier, times) for each in places)


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
        has_it = there is not None and is_same(there, item)
        if not has_it and any(is_same(each, item) and each.address == item.address for each in still[-1:]):
            continue
        gone |= {old.id: Edit(before=old, after=withdrawn(old, now, old.superseded)) for old in still}
        if not has_it:
            added.append(Edit(before=None, after=replace(item, id=OutgoingId(new_id()))))
    return (*gone.values(), *added)


def taken_back(earlier: Iterable[Outgoing], now: datetime, reason: str = "the lesson was reopened") -> tuple[Edit, ...]:
    """The edits that take out what has not gone of a lesson that is opened again, or not taught after all; or of an inquiry."""
    return tuple(Edit(before=old, after=withdrawn(old, now, reason)) for old in earlier if old.fate in _NOT_YET)


def _fresh(
    booking: ScheduledLesson,
    notes: FinalNotes,
    destination: Destination,
    earlier: Sequence[Outgoing],
    times: tuple[datetime, datetime],
) -> Outgoing:
    way, address = destination
    item = Outgoing(
        id=OutgoingId(0),
        about=booking.lesson.id,
        lesson_id=booking.lesson.id,
        family_id=booking.family.id,
        version=1,
        way=way,
        address=address,
        student=booking.student.name,
        title=notes.title,
        text=notes.markdown if way is Channel.FOLDER else notes.text,
        page=notes.body,
        language=notes.language,
        next_lesson=notes.next_lesson if way is not Channel.FOLDER else None,
        is_update=False,
        queued_at=times[0],
        not_before=times[1],
    )
    return _or_lost(as_next_version(item, earlier))


def _or_lost(item: Outgoing) -> Outgoing:
    """A paper that is for an address is refused at once where there is none."""
    if item.way not in TO_AN_ADDRESS or item.address:
        return item
    return replace(item, fate=DeliveryStatus.REFUSED, settled_at=item.queued_at, reason=NO_ADDRESS)


def is_same(one: Outgoing, other: Outgoing) -> bool:
    """Whether two versions say the same."""
    return (one.text, one.page) == (other.text, other.page)
