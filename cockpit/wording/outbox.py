"""What is in the outbox: what has not gone out, by which way, and why."""

from collections import Counter
from collections.abc import Iterable

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted
from cockpit.studio.post.channels import spoken_channel
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing
from cockpit.studio.shown import one_line

STATUS_WORDS = {
    DeliveryStatus.WAITING: "to send",
    DeliveryStatus.GOING: "to send",
    DeliveryStatus.UNSURE: "not sure",
    DeliveryStatus.REFUSED: "refused",
    DeliveryStatus.SENT: "sent",
    DeliveryStatus.WITHDRAWN: "withdrawn",
}


def outbox_words(fates: Iterable[DeliveryStatus]) -> str:
    """What the outbox still has to do: `2 waiting, 1 refused`; empty where nothing is open."""
    counts = Counter(fates)
    sums = {
        STATUS_WORDS[DeliveryStatus.UNSURE]: counts[DeliveryStatus.UNSURE],
        STATUS_WORDS[DeliveryStatus.REFUSED]: counts[DeliveryStatus.REFUSED],
        "waiting": counts[DeliveryStatus.WAITING] + counts[DeliveryStatus.GOING],
    }
    return ", ".join(f"{count} {word}" for word, count in sums.items() if count)


def nothing_left(drafts: int) -> str:
    """What is said where the outbox has nothing more to do; `drafts` are those that lie in their folder for her to send."""
    if not drafts:
        return "everything has been sent"
    return f"nothing is waiting here; {counted(drafts, 'draft')} in drafts/ for you to send"


def outbox_text(items: Iterable[Outgoing], home: TeacherClock, drafts: int) -> str:
    """A line for everything that is open, in the order in which it was put in; times on the teacher's clock."""
    lines = [_line(item, home) for item in items if item.is_open]
    return "\n".join(lines) or f"{nothing_left(drafts).capitalize()}."


def _line(item: Outgoing, home: TeacherClock) -> str:
    to = f" to {item.address}" if item.address else ""
    question = ": did it arrive?" if item.fate is DeliveryStatus.UNSURE else ""
    why = f" ({item.reason})" if item.reason else ""
    when = home.date_and_time(item.queued_at)
    return one_line(f"{when}  {item.student}, {spoken_channel(item.way)}{to}: {STATUS_WORDS[item.fate]}{question}{why}")
