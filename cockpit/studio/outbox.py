"""The outbox: what goes next, what must wait for what, and what it all comes to in words."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime

from cockpit.studio.delivery import Answer, Delivery
from cockpit.studio.outgoing import Fate, Outgoing, settled
from cockpit.studio.ways import Way
from cockpit.studio.words import possessive

_BETWEEN = frozenset({Fate.GOING, Fate.UNSURE})


def next_to_go(items: Sequence[Outgoing], now: datetime, *, one_mail_a_day: bool) -> tuple[Outgoing, ...]:
    """What is handed over next, in the order in which it was put in; nothing while something is going.

    Usually one; where a family gets one mail a day, everything that waits for the same address. A newer version waits
    until nobody is in doubt about the one before it.
    """
    if any(item.fate is Fate.GOING for item in items):
        return ()
    in_doubt = {(item.lesson_id, item.way, item.address) for item in items if item.fate in _BETWEEN}
    ready = [
        item for item in items if item.fate is Fate.WAITING and (item.lesson_id, item.way, item.address) not in in_doubt
    ]
    first = next((item for item in ready if item.not_before <= now), None)
    if first is None:
        return ()
    if first.way is not Way.MAIL or not one_mail_a_day:
        return (first,)
    return tuple(item for item in ready if _place(item) == _place(first))


def after_delivery(
    parcel: Sequence[Outgoing], others: Iterable[Outgoing], delivery: Delivery, now: datetime, chance: float
) -> list[tuple[Outgoing, Outgoing]]:
    """What an attempt comes to, as records before and after: for the parcel, and for `others` where the way is shut.

    Where nobody was there to take it, everything on this way waits as long, so that it goes in order afterwards and
    nothing is tried in vain; where the server refused the account, nothing else is tried with it.
    """
    changed = [(item, settled(item, delivery, now, chance)) for item in parcel]
    if not delivery.is_way_shut:
        return changed
    _, first = changed[0]
    own = {item.id for item in parcel}
    for other in others:
        if other.id in own or other.way is not first.way or other.fate is not Fate.WAITING:
            continue
        if delivery.answer is Answer.LATER:
            after = replace(other, not_before=max(other.not_before, first.not_before), reason=first.reason)
        else:
            after = replace(other, fate=first.fate, settled_at=first.settled_at, reason=first.reason)
        changed.append((other, after))
    return changed


def outbox_words(fates: Iterable[Fate]) -> str:
    """What the outbox still has to do: `2 waiting, 1 refused`; empty where nothing is open."""
    counts = Counter(_WORDS[fate] for fate in fates if fate in _WORDS)
    return ", ".join(f"{counts[word]} {word}" for word in ("in doubt", "refused", "waiting") if counts[word])


def worst(fates: Iterable[Fate]) -> Fate | None:
    """The fate of several that needs her most; None where all is done."""
    return min((fate for fate in fates if fate in _WORDS), key=list(_WORDS).index, default=None)


def not_out(student: str, fates: Iterable[Fate]) -> str | None:
    """What keeps a lesson's notes from having gone out, as a sentence without its end; None where nothing does."""
    match worst(fates):
        case Fate.UNSURE:
            return f"Did {possessive(student)} notes arrive? The outbox asks"
        case Fate.REFUSED:
            return f"{possessive(student)} notes were refused: see the outbox"
        case Fate.GOING | Fate.WAITING:
            return f"{possessive(student)} notes still wait in the outbox"
        case _:
            return None


_WORDS = {Fate.UNSURE: "in doubt", Fate.REFUSED: "refused", Fate.GOING: "waiting", Fate.WAITING: "waiting"}


def _place(item: Outgoing) -> tuple[object, ...]:
    return item.family_id, item.way, item.address
