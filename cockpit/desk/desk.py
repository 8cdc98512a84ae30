"""The desk as a whole: its parts, for whoever sits at it."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.desk.day.board import BoardDesk
from cockpit.desk.day.calls import Calls
from cockpit.desk.day.day import Day
from cockpit.desk.day.finding import Finding
from cockpit.desk.day.looking_back import LookingBack
from cockpit.desk.day.note_taking import Hearing, NoteTaking, Remembering
from cockpit.desk.day.reviewing import Reviewing
from cockpit.desk.day.saving import Saving
from cockpit.desk.day.teaching import Teaching
from cockpit.desk.ports import Clock
from cockpit.desk.post.outbox import Outbox
from cockpit.studio.values import Value

if TYPE_CHECKING:
    from cockpit.desk.calendar.ahead import LookingAhead
    from cockpit.desk.calendar.arranging import Arranging
    from cockpit.desk.calendar.calendar import CalendarDesk
    from cockpit.desk.inquiries.inquiring import Inquiring
    from cockpit.desk.pieces.mixing import Mixing
    from cockpit.desk.pieces.pages import StudentPages
    from cockpit.desk.post.dispatch import Dispatch
    from cockpit.desk.post.family_letters import FamilyLetters
    from cockpit.desk.post.letters import Letters
    from cockpit.desk.post.post import PostDesk
    from cockpit.desk.post.previewing import Previewing
    from cockpit.desk.post.reporting import Reporting
    from cockpit.desk.post.trying_channels import TryingChannels
    from cockpit.desk.recital.desk import RecitalDesk
    from cockpit.desk.recital.papers import RecitalPapers
    from cockpit.desk.roster.roster import StudioRoster
    from cockpit.studio.inquiries.deadline import Deadline


class Desk(Value):
    """What a teacher can do. `why_read_only` says why nothing can be kept, where that is so.

    `calendar`, `post`, `inquiring`, `roster`, `families`, `pages`, `mixing`, `recitals`, and `recital_papers` make their parts when they are first asked for: the first screen does not wait.
    `families` writes letters to many families. `index_notes` has all notes that changed read into the index, on a thread, which calls what it is given at the end.
    `inquiry_deadlines` are those of the inquiries that are not answered.
    """

    day: Day
    teaching: Teaching
    notes: NoteTaking
    board: BoardDesk
    saving: Saving
    hearing: Hearing
    remembering: Remembering
    reviewing: Reviewing
    finding: Finding
    looking_back: LookingBack
    outbox: Outbox
    calendar: Callable[[], "CalendarDesk"]
    post: Callable[[], "PostDesk"]
    inquiring: Callable[[], "Inquiring"]
    roster: Callable[[], "StudioRoster"]
    families: Callable[[], "FamilyLetters"]
    pages: Callable[[], "StudentPages"]
    mixing: Callable[[], "Mixing"]
    recitals: Callable[[], "RecitalDesk"]
    recital_papers: Callable[[], "RecitalPapers"]
    index_notes: Callable[[Callable[[], None]], None]
    inquiry_deadlines: Callable[[], "tuple[Deadline, ...]"]
    clock: Clock
    folder: Path
    why_read_only: str | None = None

    @property
    def calls(self) -> Calls:
        """What happens to the call of a lesson."""
        return self.teaching.calls

    @property
    def ahead(self) -> "LookingAhead":
        """Looks over the calendar."""
        return self.calendar().ahead

    @property
    def arranging(self) -> "Arranging":
        """Arranges lessons."""
        return self.calendar().arranging

    @property
    def letters(self) -> "Letters":
        """Writes letters to families."""
        return self.post().letters

    @property
    def reporting(self) -> "Reporting":
        """Makes progress sheets."""
        return self.post().reporting

    @property
    def dispatch(self) -> "Dispatch":
        """Hands over what waits."""
        return self.post().dispatch

    @property
    def previewing(self) -> "Previewing":
        """Shows what a family gets."""
        return self.post().previewing

    @property
    def trying_channels(self) -> "TryingChannels":
        """Tries the ways to send."""
        return self.post().trying_channels
