"""The outbox: what goes next, what must wait for what, and what an attempt comes to."""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta

from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import (
    DeliveryStatus,
    Outgoing,
    OutgoingId,
    Paper,
    is_to_copy,
    settled,
    withdrawn,
)
from cockpit.studio.values import Value, replace

_WRONG_CLOCK = timedelta(minutes=5)
_LONGEST_WAIT = timedelta(days=2)  # one mail a day is held through the family's last lesson of that day


class SendingOrder(Value):
    """By what is decided who goes next: the moment (UTC), the time for undo, and whether a family gets one mail a day.

    News for many goes from `news_from` on, whoever is early. `early` are entries that need not wait for undo any more; those in `tried` had their attempt in this run.
    """

    now: datetime
    undo: timedelta = timedelta()
    one_mail_a_day: bool = False
    early: frozenset[OutgoingId] = frozenset()
    tried: frozenset[OutgoingId] = frozenset()
    news_from: datetime | None = None

    def is_due(self, item: Outgoing) -> bool:
        """Whether its time has come; a wait that begins in the future was set by a clock that was wrong."""
        if self.news_from is not None and is_news_to_go(item):
            return False
        waits_since = max(item.queued_at, item.not_before - _LONGEST_WAIT)
        return item.not_before <= self.now or item.id in self.early or waits_since - self.now > _WRONG_CLOCK

    def holds_up(self, item: Outgoing) -> bool:
        """Whether others wait for it that go in the same mail: its finish can be undone, or its next attempt is later."""
        is_for_undo = item.not_before - item.queued_at <= self.undo
        return not self.is_due(item) and (item.attempts > 0 or is_for_undo)


def next_to_go(items: Sequence[Outgoing], turn: SendingOrder) -> tuple[Outgoing, ...]:
    """What is handed over next, in the order in which it was put in; nothing while something is going.

    Usually one; where a family gets one mail a day, everything that waits for the same address, once none of it can
    be undone any more or waits for its next attempt. A newer version waits until nobody is in doubt about the one before it.
    """
    if any(item.fate is DeliveryStatus.GOING for item in items):
        return ()
    in_doubt = {item.place for item in items if item.fate is DeliveryStatus.UNSURE}
    ready = [
        item
        for item in items
        if item.fate is DeliveryStatus.WAITING
        and not is_to_copy(item)
        and item.place not in in_doubt
        and item.id not in turn.tried
    ]
    for first in filter(turn.is_due, ready):
        if first.way is not Channel.MAIL or first.paper is not Paper.NOTES or not turn.one_mail_a_day:
            return (first,)
        together = tuple(item for item in ready if _mailbox(item) == _mailbox(first))
        if not any(map(turn.holds_up, together)):
            return together
    return ()


def after_delivery(
    parcel: Sequence[Outgoing], others: Iterable[Outgoing], delivery: Delivery, now: datetime, chance: float
) -> list[tuple[Outgoing, Outgoing]]:
    """What an attempt comes to, as records before and after: for the parcel, and for `others` where the way is shut.

    What did not go and has a newer version by now is withdrawn. Where nobody was there to take it, everything on this
    way waits as long, so that it goes in order afterwards and nothing is tried in vain; where the server refused the
    account, nothing else is tried with it.
    """
    others = [other for other in others if other.id not in {item.id for item in parcel}]
    changed = [(item, _after(item, others, delivery, now, chance)) for item in parcel]
    if not delivery.is_channel_shut:
        return changed
    first = settled(parcel[0], delivery, now, chance)
    for other in others:
        if other.way is not first.way or other.fate is not DeliveryStatus.WAITING:
            continue
        if delivery.answer is Answer.LATER:
            not_before = max(other.not_before, first.not_before)
            after = replace(other, queued_at=min(other.queued_at, now), not_before=not_before, reason=first.reason)
        else:
            after = replace(other, fate=first.fate, settled_at=first.settled_at, reason=first.reason)
        changed.append((other, after))
    return changed


def is_news_to_go(item: Outgoing) -> bool:
    """Whether it is a mail that goes to many, which waits: an account takes so many mails a minute."""
    is_for_many = item.paper in {Paper.NEWS, Paper.PROGRAM}
    return is_for_many and (item.way, item.fate) == (Channel.MAIL, DeliveryStatus.WAITING)


def has_newer(item: Outgoing, others: Iterable[Outgoing]) -> bool:
    """Whether a newer version of it went out, or is to."""
    return any(
        other.place == item.place and other.version > item.version and other.fate is not DeliveryStatus.WITHDRAWN
        for other in others
    )


def _after(item: Outgoing, others: Iterable[Outgoing], delivery: Delivery, now: datetime, chance: float) -> Outgoing:
    after = settled(item, delivery, now, chance)
    if delivery.answer in {Answer.LATER, Answer.NEVER} and has_newer(item, others):
        return withdrawn(after, now, item.superseded)
    return after


def _mailbox(item: Outgoing) -> tuple[object, ...]:
    return item.paper, item.whom, item.way, item.address
