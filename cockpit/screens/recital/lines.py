"""The typed lines of a recital: a new one, a change, a rehearsal, a sitting, an item; each is asked for and carried out alike."""

from collections.abc import Callable

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.recital.desk import RecitalDesk
from cockpit.screens.screen import CockpitScreen
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.changes.recital import RecitalId, RecitalItem
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.shown import one_line

_ITS_OWN = frozenset({Purpose.RECITAL_CHANGE, Purpose.ITEM_CHANGE})


class LinesAbout:
    """Reads lines about one recital, or one item of it; `typed` is the line that an unchanged one has."""

    def __init__(
        self, recitals: RecitalDesk, recital_id: RecitalId | None, item: RecitalItem | None, typed: str
    ) -> None:
        self._recitals = recitals
        self._recital_id, self._item = recital_id, item
        self._typed = typed

    def propose(self, purpose: Purpose, booking: ScheduledLesson | None, line: str) -> Proposal:  # noqa: ARG002 as there
        """Reads a line for a purpose."""
        if purpose in _ITS_OWN and line == self._typed:
            raise BadInput("Change what you like. What you take out of the line is taken away.")
        if purpose is Purpose.RECITAL:
            return self._recitals.lines.propose_new(line)
        if self._recital_id is None:
            raise Refused("Choose a recital first.")
        return self._propose(self._recital_id, purpose, line)

    def _propose(self, recital_id: RecitalId, purpose: Purpose, line: str) -> Proposal:
        recitals, item = self._recitals, self._item
        if purpose is Purpose.RECITAL_CHANGE:
            return recitals.lines.propose_change(recital_id, line, is_whole=True)
        if purpose is Purpose.RECITAL_TIME:
            return recitals.lines.propose_change(recital_id, line)
        if purpose in {Purpose.REHEARSAL, Purpose.SITTING}:
            return recitals.lines.propose_child(recital_id, line, is_rehearsal=purpose is Purpose.REHEARSAL)
        if item is None:
            return recitals.lines.propose_typed_item(recital_id, line)
        is_whole = purpose is Purpose.ITEM_CHANGE
        return recitals.lines.propose_item_change(item.recital_id, item.id, line, is_whole=is_whole)


def ask_recital_line(
    screen: CockpitScreen,
    purpose: Purpose,
    about: tuple[RecitalId | None, RecitalItem | None] = (None, None),
    typed: str = "",
    then: Callable[[Proposal], None] | None = None,
) -> None:
    """Asks over a screen for a line `about` a recital or an item of it, begun with what is `typed`, and carries it out.

    Raises:
        Refused: nothing can be changed here.
    """
    recitals = screen.desk.recitals()
    if screen.desk.why_read_only is not None:
        raise Refused(screen.desk.why_read_only)  # before she has typed a line
    recital_id, item = about
    name = ""
    if item is not None:
        name = item.piece
    elif recital_id is not None:
        name = recitals.reading.recital(recital_id).name

    def understood(proposal: Proposal | None) -> None:
        if proposal is not None and screen.step(lambda: recitals.lines.do(proposal)) and then is not None:
            then(proposal)

    lines = LinesAbout(recitals, recital_id, item, typed)
    screen.app.push_screen(LineScreen(lines, purpose, None, typed, one_line(name)), understood)
