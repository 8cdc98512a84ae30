"""Letters about times of lessons and answers to inquiries, each to one address alone, on their way into the outbox."""

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from cockpit.desk.lookup import addresses_at
from cockpit.desk.ports import Clock, PostPrinter, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.day.posting import Letter, destinations, letter_out, ways_of
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, SendingRules
from cockpit.studio.post.letters import News, letter_on, news_of
from cockpit.studio.post.outgoing import rehearsed

if TYPE_CHECKING:
    from cockpit.studio.people.people import FamilyId
    from cockpit.studio.post.outgoing import Outgoing


class Letters:
    """Writes letters. None is on its way before it is put out."""

    def __init__(self, reading: Reading, steps: Steps, clock: Clock, printer: PostPrinter, rules: SendingRules) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._printer = printer
        self._rules = rules

    def on(self, booking: ScheduledLesson, times: Sequence[datetime]) -> Letter:
        """What there is to write about a lesson as it stands; `times` are starts (UTC) that its family may choose from."""
        return self._printer.letter(letter_on(news_of(booking), [booking], self._clock.now(), times))

    def to_each(self, news: News, bookings: Iterable[ScheduledLesson]) -> tuple[Letter, ...]:
        """A letter for each family of some lessons, about its own."""
        by_family: dict[FamilyId, list[ScheduledLesson]] = {}
        for booking in bookings:
            by_family.setdefault(booking.family.id, []).append(booking)
        now = self._clock.now()
        return tuple(self._printer.letter(letter_on(news, theirs, now)) for theirs in by_family.values())

    def reply(self, inquiry: Inquiry, text: str) -> Letter:
        """The answer to an inquiry, with a text to begin with."""
        return self._printer.reply(inquiry, text)

    def edits(self, letters: Iterable[Letter], new_id: Callable[[], int], about: str = "") -> tuple[Edit, ...]:
        """Makes the edits that put letters into the outbox. Letters wait there as long as notes, so that the teacher can take them back.

        In a rehearsal they are withdrawn from the first, or they would go when this copy of the studio is opened without --at.
        """
        now = self._clock.now()
        times = now, now + timedelta(seconds=self._rules.wait_seconds)
        out: list[Outgoing] = []
        for letter in letters:
            places = destinations(ways_of(letter.to, self._rules), addresses_at(self._reading, letter.to))
            out += letter_out(letter, places, times, new_id, about)
        return added(*(map(rehearsed, out) if self._clock.is_rehearsal else out))

    def way_of(self, letter: Letter) -> str:
        """How the outbox would send it: `by email`; empty where she is to copy it herself."""
        if isinstance(letter.to, Inquiry) and not letter.to.email:
            return ""
        ways = [way for way in TO_AN_ADDRESS if way in ways_of(letter.to, self._rules)]
        return " and ".join("as a draft" if way is Channel.DRAFT else "by email" for way in ways)

    def put_out(self, letter: Letter, text: str, *also: Edit, about: str = "") -> str:
        """Puts a letter into the outbox with her words in it, and `also` makes other edits, as a step that can be undone.

        Returns a sentence.

        Raises:
            NotSaved: it is not there.
        """
        return self.put(self._printer.with_words(letter, text), *also, about=about)

    def put(self, letter: Letter, *also: Edit, about: str = "") -> str:
        """Puts a letter into the outbox as it is, in the same way."""
        edits = self.edits([letter], self._steps.writing.new_id, about)
        self._steps.take(f"the {letter.called}", *also, *edits, durable=True)
        if self._clock.is_rehearsal:
            return f"The {letter.called} is in the outbox, and is never sent: this is a rehearsal."
        how = (
            f"It goes in {self._rules.wait_seconds} seconds."
            if self.way_of(letter)
            else "It waits there for you to copy."
        )
        return f"The {letter.called} is in the outbox. {how}"
