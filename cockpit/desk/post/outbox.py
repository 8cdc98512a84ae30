"""The outbox at the desk: what it holds, and what the teacher does about it."""

from datetime import timedelta

from cockpit.desk.lookup import addressee_of, addresses_at, guardians_of
from cockpit.desk.ports import Clock, Folder, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.clocks.words import possessive
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.people.people import Family, FamilyId, Guardian, GuardianId, next_position
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, spoken_channel
from cockpit.studio.post.outgoing import (
    DeliveryStatus,
    Outgoing,
    OutgoingId,
    is_to_copy,
    most_urgent,
    taken_as_sent,
    they_are,
    tried_again,
)
from cockpit.studio.post.outgoing import withdrawn as taken_out
from cockpit.studio.values import replace

_SHOWN_FOR = timedelta(days=14)


class Outbox:
    """What goes out to families, and to those who ask about lessons. None of this is a step for undo: each has its way back here."""

    def __init__(self, reading: Reading, steps: Steps, clock: Clock, folder: Folder) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._folder = folder

    def entries(self) -> tuple[Outgoing, ...]:
        """Everything open, and what was settled in the last two weeks; in the order in which it was put in."""
        return self._reading.outgoing_since(self._clock.now() - _SHOWN_FOR)

    def drafts(self) -> int:
        """How many drafts lie in the folder, for her to send from her email program and to delete then."""
        return sum(name.endswith(".eml") for name in self._folder.below("drafts"))

    def drafts_waiting(self) -> dict[OutgoingId, str]:
        """The drafts that were written in the last two weeks and still lie in the folder, each with its name there."""
        from cockpit.desk.post.dispatch import draft_name  # what sends is not there before something is sent

        there = {name.removeprefix("drafts/") for name in self._folder.below("drafts")}
        newest = {item.place: item for item in self.entries() if item.way is Channel.DRAFT}
        written = (item for item in newest.values() if item.fate is DeliveryStatus.SENT)
        return {item.id: name for item in written if (name := draft_name(self._reading, item)) in there}

    def families(self) -> dict[FamilyId, str]:
        """What each family is called."""
        return {family.id: family.name for family in self._reading.people().families.values()}

    def unsent(self) -> dict[str, DeliveryStatus]:
        """The lessons whose notes have not gone out, and what else has not, each with the fate that needs her most."""
        return most_urgent(self._reading.open_statuses())

    def try_again(self, item_id: OutgoingId) -> str:
        """Has something go at once, also where nobody knows whether it went before; returns a sentence.

        What had no address goes to the first that the roster has by now.

        Raises:
            Refused: it went out, or newer notes took its place.
        """
        from cockpit.studio.post.outbox import has_newer

        item = addressed = self._item(item_id)
        addresses = addresses_at(self._reading, addressee_of(self._reading, item), item.gets)
        if item.way in TO_AN_ADDRESS and not item.address and addresses:
            addressed = replace(item, address=addresses[0])
        others = self._reading.outgoing_about([item.about])
        if has_newer(item, others) or has_newer(addressed, others):
            raise Refused(f"{item.named(item.superseded)} and will not be sent.")
        self._steps.record((item, tried_again(addressed, self._clock.now())))
        return f"Resending the {item.called}."

    def try_all_again(self) -> str:
        """Has everything go at once that waits or was refused; returns a sentence."""
        again = [
            item
            for item in self._reading.open_outgoing()
            if item.fate in {DeliveryStatus.WAITING, DeliveryStatus.REFUSED}
        ]
        for item in again:
            self.try_again(item.id)
        return f"Retrying {len(again)}." if again else "Nothing is waiting."

    def withdraw(self, item_id: OutgoingId) -> str:
        """Takes something out before it goes; returns a sentence.

        Raises:
            Refused: it went out, or is going.
        """
        item = self._item(item_id)
        self._steps.record((item, taken_out(item, self._clock.now())))
        return f"{item.named('withdrawn')} and will not be sent by {spoken_channel(item.way)}."

    def take_as_sent(self, item_id: OutgoingId) -> str:
        """Settles a doubt, or a draft that she has sent and that is deleted then; returns a sentence.

        Raises:
            Refused: nobody is in doubt about it, and it is no draft that waits.
        """
        item = self._item(item_id)
        if (draft := self.drafts_waiting().get(item_id)) is not None:
            self._folder.remove([f"drafts/{draft}"])
            return f"The draft for {item.student} is deleted from drafts/. You sent it from your email program."
        self._steps.record((item, taken_as_sent(item, self._clock.now())))
        return f"{item.named('marked as sent')}."

    def copied(self, item_id: OutgoingId) -> tuple[str, str]:
        """Settles what she copies, and returns its text and a sentence.

        Raises:
            Refused: it is not for her to copy.
        """
        item = self._item(item_id)
        if not is_to_copy(item):
            raise Refused(f"{item.named(they_are(item.fate))}. Only what is for you to copy is copied here.")
        sent = replace(item, fate=DeliveryStatus.SENT, settled_at=self._clock.now())
        self._steps.record((item, sent))
        return item.text, f"{item.named('copied')}, for you to send."

    def change_address(self, item_id: OutgoingId, text: str) -> str:
        """Puts another address into the roster, or the inquiry, in place of an entry's, and has all that is open for it go there.

        Raises:
            BadInput: the text is not an address.
            Refused: the entry goes to no address, or has gone.
        """
        item = self._item(item_id)
        if item.way not in TO_AN_ADDRESS or not item.is_open or item.fate is DeliveryStatus.GOING:
            raise Refused(f"{item.named(they_are(item.fate))}, so there is no address to change.")
        from cockpit.studio.roster.values import read_emails

        address = read_emails(text)
        if ", " in address:
            raise Refused("Type one address. To list several, use the roster column email.")
        to = addressee_of(self._reading, item)
        kept = self._guardian_at(address, item, to) if isinstance(to, Family) else ((to, replace(to, email=address)),)
        now = self._clock.now()
        moved = [
            (each, replace(tried_again(each, now), address=address))
            for each in self._reading.open_outgoing()
            if (each.whom, each.address) == (item.whom, item.address)
            and each.way in TO_AN_ADDRESS
            and each.fate in {DeliveryStatus.WAITING, DeliveryStatus.REFUSED, DeliveryStatus.UNSURE}
            and not self._stands_back(each, address)
        ]
        self._steps.record(*kept, *moved)
        sending = f" Sending {len(moved)} there." if moved else ""
        whose = f"The {to.name} family's" if isinstance(to, Family) else possessive(to.name)
        return f"{whose} address is now {address}.{sending}"

    def _guardian_at(
        self, address: str, item: Outgoing, family: Family
    ) -> tuple[tuple[Guardian | None, Guardian | None], ...]:
        """What has the guardians of an entry's family get notes at another address in place of the entry's."""
        guardians = guardians_of(self._reading, family.id)
        there = [each for each in guardians if each.email == address]
        at_old = [each for each in guardians if each.email == item.address]
        if there:  # one of them has it already, and the one with the old address loses that
            taking = [(each, replace(each, gets=each.gets | {item.gets})) for each in there[:1]]
            return (*taking, *((each, None) for each in at_old if item.address and each.email != address))
        if at_old and item.address:
            return tuple((each, replace(each, email=address)) for each in at_old)
        without = next((each for each in guardians if not each.email and item.gets in each.gets), None)
        if without is not None:
            return ((without, replace(without, email=address)),)
        new = Guardian(
            id=GuardianId(self._steps.new_id()),
            family_id=family.id,
            email=address,
            position=next_position(guardians),
        )
        return ((None, new),)

    def _stands_back(self, item: Outgoing, address: str) -> bool:
        """Whether the same version goes to that address already, or later notes of the lesson do or did.

        Versions are counted by address: which notes are later is told by when they were put in.
        """
        there = [
            each
            for each in self._reading.outgoing_about([item.about])
            if (each.way, each.address) == (item.way, address) and each.id != item.id
        ]
        return any(
            each.version == item.version or (each.id > item.id and each.fate is not DeliveryStatus.WITHDRAWN)
            for each in there
        )

    def _item(self, item_id: OutgoingId) -> Outgoing:
        item = self._reading.outgoing_by_id(item_id)
        if item is None:
            raise NotFound("It is no longer in the outbox.")
        return item
