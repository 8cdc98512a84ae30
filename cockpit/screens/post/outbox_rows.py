"""The lines of the outbox."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.screens.look.show import role
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.people.people import FamilyId
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing
from cockpit.wording.outbox import STATUS_WORDS

_ROLES = {
    DeliveryStatus.WAITING: ("warning", "bold"),
    DeliveryStatus.GOING: ("warning", "bold"),
    DeliveryStatus.UNSURE: ("error", "bold"),
    DeliveryStatus.REFUSED: ("error", "bold"),
    DeliveryStatus.SENT: ("finished",),
    DeliveryStatus.WITHDRAWN: ("quiet",),
}
_SECTIONS = (
    ("Not sure: did they arrive?", (DeliveryStatus.UNSURE,)),
    ("Refused:", (DeliveryStatus.REFUSED,)),
    ("To send:", (DeliveryStatus.GOING, DeliveryStatus.WAITING)),
    ("Done:", (DeliveryStatus.SENT, DeliveryStatus.WITHDRAWN)),
)


def outbox_options(
    items: Iterable[Outgoing], families: Mapping[FamilyId, str], now: datetime, home: TeacherClock
) -> list[Option]:
    """What needs her first; what is settled last, the newest of it first. The option's id is that of the entry."""
    items = list(items)
    options: list[Option] = []
    for heading, fates in _SECTIONS:
        those = [item for item in items if item.fate in fates]
        if DeliveryStatus.SENT in fates:
            those.reverse()
        if those:
            options.append(Option(Content.styled(f"{heading} {len(those)}", "bold underline"), disabled=True))
            options += [
                Option(outbox_row(item, families.get(item.family_id, ""), now, home), id=str(item.id)) for item in those
            ]
    return options or [Option(Content("The outbox is empty."), disabled=True)]


def outbox_row(item: Outgoing, family: str, now: datetime, home: TeacherClock) -> Content:
    """Whose notes by which way, what became of them, and why."""
    first = " · ".join(fact for fact in (_where(item), _when(item, now, home)) if fact)
    facts = [first, *([item.reason] if item.reason else [])]
    return Content.assemble(
        (item.student, "bold"),
        (f" ({family}{', update' if item.is_update else ''})", role("quiet")),
        "  ",
        (_word(item), role(*_ROLES[item.fate])),
        ("".join(f"\n    {fact}" for fact in facts), role("quiet")),
    )


def _word(item: Outgoing) -> str:
    is_written = item.fate is DeliveryStatus.SENT and item.way in {Channel.FOLDER, Channel.DRAFT}
    return "written" if is_written else STATUS_WORDS[item.fate]


def _where(item: Outgoing) -> str:
    match item.way:
        case Channel.FOLDER:
            return "to your folder"
        case Channel.DRAFT:
            return f"a draft to {item.address or 'no address'} for you to send from your email program"
        case _:
            return f"by email to {item.address or 'no address'}"


def _when(item: Outgoing, now: datetime, home: TeacherClock) -> str:
    def at(moment: datetime) -> str:
        return home.time(moment) if home.date_of(moment) == home.date_of(now) else home.date_and_time(moment)

    match item.fate:
        case DeliveryStatus.WAITING if item.attempts and item.not_before > now:
            return (
                f"tried {item.attempts} times, next try at {at(item.not_before)}"
                if item.attempts > 1
                else (f"tried once, next try at {at(item.not_before)}")
            )
        case DeliveryStatus.WAITING if item.not_before > now:
            return f"will be sent at {at(item.not_before)}"
        case DeliveryStatus.SENT | DeliveryStatus.REFUSED | DeliveryStatus.WITHDRAWN if item.settled_at is not None:
            return at(item.settled_at)
        case _:
            return ""
