"""What goes next out of the outbox, complete and recorded beforehand; and what came of it."""

from collections.abc import Callable
from datetime import datetime, timedelta

from cockpit.desk.lookup import addressee_of, addresses_at, taught_on
from cockpit.desk.ports import Clock, PostPrinter, Reading, Sender
from cockpit.desk.post.attempt import Attempt
from cockpit.desk.steps import Steps
from cockpit.studio.day.posting import NO_ADDRESS, ways_of
from cockpit.studio.errors import CockpitError
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.people.people import Guardian
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, SendingRules, spoken_channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outbox import SendingOrder, after_delivery, is_news_to_go, next_to_go
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, OutgoingId, attempted, left_going
from cockpit.studio.post.parcel import Document, Parcel
from cockpit.studio.practice.notes import safe_name

_LONGEST_NAME = 60


class Dispatch:
    """Makes parcels of what waits, at most one at a time. `chance` gives a number in [0, 1) for the length of a gap."""

    def __init__(
        self,
        reading: Reading,
        steps: Steps,
        clock: Clock,
        printer: PostPrinter,
        rules: SendingRules,
        chance: Callable[[], float],
    ) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._printer = printer
        self._rules = rules
        self._chance = chance

    def recover(self) -> None:
        """Settles what was going when the program ended: asked about, or done again where that harms nothing."""
        if not self._steps.can_write:
            return
        self._steps.record(
            *((item, left_going(item)) for item in self._reading.open_outgoing() if item.fate is DeliveryStatus.GOING)
        )

    def due_at(self) -> datetime | None:
        """When the time of something that waits comes next, UTC; None where none does.

        What is due already and does not go waits for something else than time; but of news for many the next one.
        """
        times = (self._reading.next_outgoing_at(self._clock.now()), self.news_from())
        return min(filter(None, times), default=None)

    def next_parcel(
        self, early: frozenset[OutgoingId] = frozenset(), tried: frozenset[OutgoingId] = frozenset()
    ) -> Parcel | None:
        """What is handed over now: the attempt is on the disk when this returns. None where nothing is due.

        What is in `early` does not wait for undo; what is in `tried` waits for another run.
        """
        if not self._steps.can_write:
            return None
        turn = SendingOrder(
            now=self._clock.now(),
            news_from=self.news_from(),
            undo=timedelta(seconds=self._rules.wait_seconds),
            one_mail_a_day=self._rules.one_mail_a_day,
            early=early,
            tried=tried,
        )
        while chosen := next_to_go(self._reading.open_outgoing(), turn):
            parcel = self._made_up(chosen, turn.now)
            if parcel is not None:
                return parcel
        return None

    def hand_over(
        self, sender: Sender, *, at_once: bool = False, seconds_left: Callable[[], float | None] = lambda: None
    ) -> None:
        """Hands over everything that is due, one after another, each entry once, and waits for each.

        `at_once` does not wait for undo: what has never been tried goes too, as long as its way is not shut.
        `seconds_left` says how long all of it may still take, or None; an attempt that is made then is given up.
        """
        untried = {item.id: item.way for item in self._reading.open_outgoing() if not item.attempts}
        early = frozenset(untried) if at_once else frozenset()
        tried: frozenset[OutgoingId] = frozenset()
        while seconds_left() != 0 and (parcel := self.next_parcel(early, tried)) is not None:
            delivery = Attempt(sender, parcel).wait(seconds_left())
            self.settle(parcel, delivery)
            tried |= {item.id for item in parcel.items}
            if delivery.is_channel_shut:
                early = frozenset(number for number in early if untried[number] is not parcel.way)

    def news_from(self) -> datetime | None:
        """When the next mail with news for many may go (UTC), by the rate of the account; None where none waits, or it may go now."""
        account = self._rules.account
        if account is None or not any(map(is_news_to_go, self._reading.open_outgoing())):
            return None
        now, last = self._clock.now(), self._reading.last_news_at()
        gap = timedelta(minutes=1) / account.mails_a_minute
        return last + gap if last is not None and now < last + gap <= now + gap else None

    def settle(self, parcel: Parcel, delivery: Delivery) -> None:
        """Keeps what came of an attempt."""
        others = [item for item in self._reading.open_outgoing() if item.fate is DeliveryStatus.WAITING]
        self._steps.record(*after_delivery(parcel.items, others, delivery, self._clock.now(), self._chance()))

    def _made_up(self, chosen: tuple[Outgoing, ...], now: datetime) -> Parcel | None:
        """The parcel of some entries, with their attempt recorded; None where it may not go, which is recorded too."""
        first = chosen[0]
        why_not = self._why_not(first)
        if why_not is not None:
            self._steps.record(*after_delivery(chosen, (), Delivery(answer=Answer.NEVER, reason=why_not), now, 0))
            return None
        uid, _ = self._reading.calendar_edition()
        message_id = self._printer.message_id(chosen, uid) if first.way is Channel.MAIL else None
        going = tuple(attempted(item, message_id) for item in chosen)
        try:
            parcel = Parcel(items=going, documents=self._documents(going, now))
        except CockpitError as fault:
            self._steps.record(*after_delivery(chosen, (), Delivery(answer=Answer.NEVER, reason=str(fault)), now, 0))
            return None
        self._steps.record(*zip(chosen, going, strict=True))
        return parcel

    def _why_not(self, item: Outgoing) -> str | None:
        """Why something may not go by what the roster, or the inquiry, says now; None where it may."""
        to = addressee_of(self._reading, item)
        if item.way not in ways_of(to, self._rules):
            way = spoken_channel(item.way)
            return (
                f"answers no longer go by {way}"
                if isinstance(to, Inquiry)
                else f"the family no longer gets notes by {way}"
            )
        if item.way not in TO_AN_ADDRESS or item.address in addresses_at(self._reading, to, item.gets):
            return None
        if isinstance(to, Inquiry):
            return f"{item.address} is no longer the address of this inquiry"
        if not item.address:
            return NO_ADDRESS
        is_known = any(each.email == item.address for each in self._reading.of_family(Guardian, to.id))
        return f"{item.address} {f'no longer gets {item.gets}' if is_known else 'is no longer in the roster'}"

    def _documents(self, items: tuple[Outgoing, ...], now: datetime) -> tuple[Document, ...]:
        first = items[0]
        match first.way:
            case Channel.MAIL:
                message = self._printer.message(items, taught_on(self._reading, first), self._references(items), now)
                return (Document(name="", content=message),)
            case Channel.DRAFT:
                return (
                    Document(
                        name=draft_name(self._reading, first),
                        content=self._printer.draft(first, taught_on(self._reading, first), now),
                    ),
                )
            case _:
                name = _document_name(self._reading, first)
                sheet = self._printer.sheet(first).encode()
                return Document(name=f"{name}.html", content=sheet), Document(
                    name=f"{name}.md", content=first.text.encode()
                )

    def _references(self, items: tuple[Outgoing, ...]) -> tuple[str, ...]:
        """The earlier mails that these take the place of."""
        found = [
            each.message_id
            for item in items
            for each in self._reading.outgoing_about([item.about])
            if each.place == item.place
            and each.version < item.version
            and each.fate in {DeliveryStatus.SENT, DeliveryStatus.UNSURE}
            and each.message_id is not None
        ]
        return tuple(dict.fromkeys(found))


def draft_name(reading: Reading, item: Outgoing) -> str:
    """Where the draft of an entry lies below the folder of drafts; one for each guardian, where there are several."""
    whose = (
        f", {safe_name(item.address)}" if len(addresses_at(reading, addressee_of(reading, item), item.gets)) > 1 else ""
    )
    return f"{_document_name(reading, item)}{whose}.eml"


def _document_name(reading: Reading, item: Outgoing) -> str:
    """Where the lesson's documents lie below a folder: as in the studio folder."""
    of_lesson = reading.exports([item.lesson_id]) if item.lesson_id is not None else {}
    for export in of_lesson.values():
        return export.path.removeprefix("notes/").removesuffix(".md")
    to = addressee_of(reading, item)
    if isinstance(to, Inquiry):
        return f"{safe_name(item.student[:_LONGEST_NAME])} {item.about}"
    return f"{to.folder or safe_name(to.name)}/{safe_name(f'{item.title} {item.about}')}"
