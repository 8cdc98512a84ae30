"""The part of the desk that has notes go out."""

from collections.abc import Callable

from cockpit.desk.ports import Clock, Folder, PostPrinter, Reading
from cockpit.desk.post.dispatch import Dispatch
from cockpit.desk.post.letters import Letters
from cockpit.desk.post.paper_making import PaperMaking
from cockpit.desk.post.posting import Posting
from cockpit.desk.post.previewing import Previewing
from cockpit.desk.post.reporting import Reporting
from cockpit.desk.post.trying_channels import TryingChannels
from cockpit.desk.steps import Steps
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value


class PostDesk(Value):
    """What puts papers into the outbox, hands them over, shows them before, and tries the ways that they take."""

    posting: Posting
    letters: Letters
    dispatch: Dispatch
    previewing: Previewing
    trying_channels: TryingChannels
    reporting: Reporting


def post_desk(
    sources: tuple[Reading, Clock, Callable[[], float]],
    steps: Steps,
    printer: PostPrinter,
    paper_making: PaperMaking,
    folder: Folder,
    preferences: Preferences,
) -> PostDesk:
    """The post's part of the desk before a store. The last source is the chance that the length of a gap depends on."""
    reading, clock, chance = sources
    posting = Posting(reading, steps, printer, preferences)
    letters = Letters(reading, steps, clock, printer, preferences.sending)
    return PostDesk(
        posting=posting,
        letters=letters,
        dispatch=Dispatch(reading, steps, clock, printer, preferences.sending, chance),
        previewing=Previewing(reading, clock, printer, paper_making, posting, folder),
        trying_channels=TryingChannels(reading, clock, printer, preferences),
        reporting=Reporting((reading, clock), printer, paper_making, letters, folder, preferences),
    )
