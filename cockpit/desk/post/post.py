"""The part of the desk that has notes go out."""

from collections.abc import Callable
from dataclasses import dataclass

from cockpit.desk.ports import Clock, Folder, PostPrinter, Reading
from cockpit.desk.post.dispatch import Dispatch
from cockpit.desk.post.posting import Posting
from cockpit.desk.post.previewing import Previewing
from cockpit.desk.post.sending import Sending
from cockpit.desk.post.trying_channels import TryingChannels
from cockpit.desk.steps import Steps
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.post.channels import SendingRules


@dataclass(frozen=True, slots=True, kw_only=True)
class PostDesk:
    """What puts notes into the outbox, hands them over, shows them before, and tries the ways that they take."""

    posting: Posting
    dispatch: Dispatch
    previewing: Previewing
    trying_channels: TryingChannels


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """What the post goes by: the settings, the teacher's clock, and the chance that the length of a gap depends on."""

    sending: SendingRules
    home: TeacherClock
    chance: Callable[[], float]


def post_desk(
    sources: tuple[Reading, Clock], steps: Steps, printer: PostPrinter, sending: Sending, folder: Folder, rules: Rules
) -> PostDesk:
    """The post's part of the desk before a store."""
    reading, clock = sources
    posting = Posting(reading, steps, printer, rules.sending, rules.home)
    return PostDesk(
        posting=posting,
        dispatch=Dispatch(reading, steps, clock, printer, rules.sending, rules.chance),
        previewing=Previewing(reading, clock, printer, sending, posting, folder),
        trying_channels=TryingChannels(reading, clock, printer, rules.sending, rules.home),
    )
