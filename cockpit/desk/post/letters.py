"""Letters to families about times of their lessons, each alone, on their way into the outbox."""

from collections.abc import Callable, Iterable, Sequence
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from cockpit.desk.lookup import addresses_for
from cockpit.desk.ports import Clock, PostPrinter, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.day.posting import Letter, destinations, letter_out, ways_of
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, SendingRules
from cockpit.studio.post.letters import News, letter_on, news_of

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

    def edits(self, letters: Iterable[Letter], new_id: Callable[[], int]) -> tuple[Edit, ...]:
        """What puts letters into the outbox, where they wait as long as notes do, so that she can take them back."""
        now = self._clock.now()
        times = now, now + timedelta(seconds=self._rules.wait_seconds)
        out: list[Outgoing] = []
        for letter in letters:
            addresses = addresses_for(self._reading, letter.family.id)
            places = destinations(ways_of(letter.family, self._rules), addresses)
            out += letter_out(letter, places, times, new_id)
        return added(*out)

    def way_of(self, letter: Letter) -> str:
        """How the outbox would send it: `by email`; empty where she is to copy it herself."""
        ways = [way for way in TO_AN_ADDRESS if way in ways_of(letter.family, self._rules)]
        return " and ".join("as a draft" if way is Channel.DRAFT else "by email" for way in ways)

    def put_out(self, letter: Letter, text: str) -> str:
        """Puts a letter into the outbox with her words in it, as a step that can be undone; returns a sentence.

        Raises:
            NotSaved: it is not there.
        """
        own = self._printer.letter_with(letter.family, letter.students, letter.title, text)
        edits = self.edits([own], self._steps.writing.new_id)
        self._steps.take(f"the letter for {letter.students}", *edits, durable=True)
        return f"The letter for {letter.students} is in the outbox. It goes in {self._rules.wait_seconds} seconds."
