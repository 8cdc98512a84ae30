"""What goes out to families: each paper to each address once, and what became of it."""

from collections.abc import Iterable
from datetime import datetime
from enum import StrEnum
from typing import NewType, assert_never

from cockpit.studio.errors import Refused
from cockpit.studio.inquiries.ids import InquiryId, InquiryStepId
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import FamilyId, Gets
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery, gap_before
from cockpit.studio.values import Value, replace

OutgoingId = NewType("OutgoingId", int)


EMPTIED = "its words named a family that was deleted"
"""Why an entry is empty: its words were deleted, and only the record that it was sent is kept."""

REHEARSED = "written in a rehearsal, which sends nothing"
"""Why an entry was withdrawn at once: it is never sent, not even when the studio is opened without --at."""


class Paper(StrEnum):
    """What goes out: notes of a lesson, a letter about times, an answer to an inquiry, a progress sheet, news for many, or the papers of a recital."""

    NOTES = "notes"
    LETTER = "letter"
    REPLY = "reply"
    REPORT = "report"
    NEWS = "news"
    PROGRAM = "program"


_CALLED = {Paper.REPORT: "progress sheet", Paper.NEWS: "letter"}


class DeliveryStatus(StrEnum):
    """What became of something that goes out.

    `GOING` stands in the database while an attempt is made: found there at an opening, nobody knows how it ended.
    """

    WAITING = "waiting"
    GOING = "going"
    UNSURE = "unsure"
    SENT = "sent"
    REFUSED = "refused"
    WITHDRAWN = "withdrawn"


_THEY_ARE = {DeliveryStatus.GOING: "being sent", DeliveryStatus.UNSURE: "not confirmed"}
_OPEN = (
    DeliveryStatus.UNSURE,
    DeliveryStatus.REFUSED,
    DeliveryStatus.GOING,
    DeliveryStatus.WAITING,
)  # what needs her most stands first


class Outgoing(Value):
    """One version of a paper on one way to one address. Moments are UTC.

    It is for a family, or an answer to an inquiry: one of `family_id` and `inquiry_id` is known, and never both.
    `about` is what its versions are of: the lesson of practice notes (which `lesson_id` is too), a letter by a name of its
    own, or the step of an inquiry that an answer is. `student` may be several where a letter is about them, and is who
    asked where it is an answer. `text` is the plain text for a mail and Markdown for a folder; `page` is the body of the page, without its frame;
    `next_lesson` is an iCalendar text. Nothing in it is more than the family may see. `address` is empty on the way
    to a folder. `version` counts from 1; `is_update` says that the family has an earlier one, or may have.
    `way` (its channel) and `fate` (its status) are named as their columns are, and as a family's export has them.
    """

    id: OutgoingId
    paper: Paper = Paper.NOTES
    about: str
    lesson_id: LessonId | None = None
    family_id: FamilyId | None = None
    inquiry_id: InquiryId | None = None
    version: int
    way: Channel
    address: str
    student: str
    title: str
    text: str
    page: str
    language: str
    next_lesson: str | None
    is_update: bool
    queued_at: datetime
    not_before: datetime
    fate: DeliveryStatus = DeliveryStatus.WAITING
    attempts: int = 0
    settled_at: datetime | None = None
    reason: str | None = None
    message_id: str | None = None

    @property
    def place(self) -> tuple[Paper, str, Channel, str]:
        """What its versions have in common."""
        return self.paper, self.about, self.way, self.address

    @property
    def whom(self) -> tuple[FamilyId | None, InquiryId | None]:
        """Whom it is for: a family, or somebody who asks about lessons."""
        return self.family_id, self.inquiry_id

    @property
    def gets(self) -> Gets:
        """What a guardian must get to be sent this."""
        return Gets.NEWS if self.paper is Paper.NEWS else Gets.NOTES

    @property
    def called(self) -> str:
        """What it is, in a sentence: `notes for Ilse`, `letter for Ilse`, `answer to Ana Bell`."""
        return papers_called(self.paper, self.student)

    @property
    def superseded(self) -> str:
        """That a newer version took its place, as a reason."""
        return "replaced by newer notes" if self.paper is Paper.NOTES else "replaced by a newer one"

    def named(self, what: str) -> str:
        """A sentence about it, without its stop: `The notes for Ilse are refused`."""
        return f"The {self.called} {'are' if self.paper is Paper.NOTES else 'is'} {what}"

    @property
    def is_emptied(self) -> bool:
        """Whether its words were deleted, with a family that they named."""
        return not self.text and not self.page

    @property
    def is_open(self) -> bool:
        """Whether something is still to come of it, by itself or by the teacher."""
        return self.fate in _OPEN


def answer_name(step: InquiryStepId) -> str:
    """What an answer to an inquiry is about: the step with it that she took."""
    return f"answer-{step}"


def papers_called(paper: Paper, whom: str) -> str:
    """Papers of a kind for somebody, in a sentence."""
    return f"answer to {whom}" if paper is Paper.REPLY else f"{_CALLED.get(paper, paper)} for {whom}"


def is_to_copy(item: Outgoing) -> bool:
    """Whether it waits for her to copy it: the family gets neither email nor drafts."""
    return item.way is Channel.CLIPBOARD and item.fate is DeliveryStatus.WAITING


def they_are(status: DeliveryStatus) -> str:
    """What notes are, in a sentence: `being sent`, `refused`."""
    return _THEY_ARE.get(status, str(status))


def most_urgent(fates: Iterable[tuple[str, DeliveryStatus]]) -> dict[str, DeliveryStatus]:
    """Of the fates of what papers are about that which needs her most; that of which all is settled is left out."""
    still = [each for each in fates if each[1] in _OPEN]
    return dict(sorted(still, key=lambda each: _OPEN.index(each[1]), reverse=True))


def attempted(item: Outgoing, message_id: str | None) -> Outgoing:
    """The record of an attempt, which is kept before the attempt is made.

    Raises:
        Refused: it does not wait.
    """
    if item.fate is not DeliveryStatus.WAITING:
        raise Refused(f"{item.named(they_are(item.fate))}, not waiting.")
    return replace(item, fate=DeliveryStatus.GOING, attempts=item.attempts + 1, message_id=message_id, reason=None)


def settled(item: Outgoing, delivery: Delivery, now: datetime, chance: float) -> Outgoing:
    """The record after an attempt: gone, waiting for its time, or waiting for her. `chance` is in [0, 1)."""
    after = replace(item, reason=delivery.reason or None)
    match delivery.answer:
        case Answer.TAKEN:
            return replace(after, fate=DeliveryStatus.SENT, settled_at=now)
        case Answer.NEVER:
            return replace(after, fate=DeliveryStatus.REFUSED, settled_at=now)
        case Answer.UNKNOWN:
            return replace(after, fate=DeliveryStatus.UNSURE)
        case Answer.LATER:
            gap = gap_before(item.attempts, chance)
            # It was put in before now, whatever the clock said then: from now on its waits are by this clock.
            return replace(after, fate=DeliveryStatus.WAITING, queued_at=min(item.queued_at, now), not_before=now + gap)
        case _ as never:
            assert_never(never)


def rehearsed(item: Outgoing) -> Outgoing:
    """What is put into the outbox in a rehearsal: it is there to be read, and never goes."""
    return replace(item, fate=DeliveryStatus.WITHDRAWN, settled_at=item.queued_at, reason=REHEARSED)


def left_going(item: Outgoing) -> Outgoing:
    """The record of an attempt that was still being made when the program ended.

    A draft or a document in a folder is simply written again; of a mail nobody knows whether the server took it.
    """
    if item.way is Channel.MAIL:
        return replace(item, fate=DeliveryStatus.UNSURE, reason="the cockpit closed while it was sending them")
    return replace(item, fate=DeliveryStatus.WAITING)


def tried_again(item: Outgoing, now: datetime) -> Outgoing:
    """What is sent again because the teacher wants it, at once.

    Raises:
        Refused: it was sent, is going just now, has no words any more, or was written in a rehearsal.
    """
    _check_not_gone(item)
    if item.reason == REHEARSED:
        raise Refused(f"{item.named(REHEARSED)}. Put a new one out.")
    if item.is_emptied:
        raise Refused(f"{item.named('empty')}: {EMPTIED}. Put a new one out.")
    return replace(item, fate=DeliveryStatus.WAITING, not_before=now, settled_at=None, reason=None)


def withdrawn(item: Outgoing, now: datetime, reason: str | None = None) -> Outgoing:
    """What does not go out after all.

    Raises:
        Refused: it went out, or is going just now.
    """
    _check_not_gone(item)
    return replace(item, fate=DeliveryStatus.WITHDRAWN, settled_at=now, reason=reason)


def taken_as_sent(item: Outgoing, now: datetime) -> Outgoing:
    """What the teacher knows to have arrived.

    Raises:
        Refused: nobody is in doubt about it.
    """
    if item.fate is not DeliveryStatus.UNSURE:
        raise Refused(f"{item.named(they_are(item.fate))}. There is nothing to confirm.")
    return replace(item, fate=DeliveryStatus.SENT, settled_at=now)


def _check_not_gone(item: Outgoing) -> None:
    if item.fate in {DeliveryStatus.SENT, DeliveryStatus.GOING}:
        raise Refused(f"{item.named('already sent' if item.fate is DeliveryStatus.SENT else 'being sent')}.")
