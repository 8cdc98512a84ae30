"""The rows of the outbox: date, student, and what became of the notes, with a sign for each way that they go."""

from collections.abc import Container, Mapping, Sequence
from datetime import datetime

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.screens.look.show import HAPPENED, NEEDS_HER, NOT, OPEN, WIDEST, cut, padded, placed, role
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import month_and_day
from cockpit.studio.people.people import FamilyId
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, OutgoingId, is_to_copy
from cockpit.studio.values import Value, replace
from cockpit.wording.outbox import STATUS_WORDS

_SIGNS = {
    DeliveryStatus.WAITING: (OPEN, "warning"),
    DeliveryStatus.GOING: (OPEN, "warning"),
    DeliveryStatus.UNSURE: (NEEDS_HER, "error"),
    DeliveryStatus.REFUSED: (NEEDS_HER, "error"),
    DeliveryStatus.SENT: (HAPPENED, "finished"),
    DeliveryStatus.WITHDRAWN: (NOT, "quiet"),
}
_IN_DRAFTS, _TO_COPY = "waits in your email program", "for you to copy"
_GROUPS = (
    ("not sure: did they arrive?", (DeliveryStatus.UNSURE,)),
    ("refused", (DeliveryStatus.REFUSED,)),
    (_IN_DRAFTS, ()),
    (_TO_COPY, ()),
    ("to send", (DeliveryStatus.GOING, DeliveryStatus.WAITING)),
    ("done, last two weeks", (DeliveryStatus.SENT, DeliveryStatus.WITHDRAWN)),
)
_COLUMNS = {Channel.MAIL: "email", Channel.FOLDER: "folder", Channel.DRAFT: "draft", Channel.CLIPBOARD: "copy"}
_NARROW, _WAY = 60, 8
_LONGEST_NAME = 20


class OutboxView(Value):
    """What the outbox shows: its entries, the drafts that wait for her, what each family is called, the moment (UTC), her clock, and so many columns."""

    items: Sequence[Outgoing]
    drafts: Container[OutgoingId] = ()
    families: Mapping[FamilyId, str]
    now: datetime
    home: TeacherClock
    width: int

    @property
    def ways(self) -> list[Channel]:
        """The ways by which anything of it goes."""
        return [way for way in _COLUMNS if any(item.way is way for item in self.items)]

    def column(self, place: int) -> int:
        """Where the signs of a way stand."""
        return self.width - _WAY * (len(self.ways) - place)

    def date(self, at: datetime) -> str:
        """The date of a moment, in figures where there is little room; always as wide."""
        on = self.home.date_of(at)
        return padded(month_and_day(on), 14) if self.width >= _NARROW else f"{f'{on.month}/{on.day}':<7}"


def outbox_options(view: OutboxView) -> list[Option]:
    """What needs her first; what is settled last, the newest of it first. The option's id is that of the entry.

    What is open has a row for each way; what is settled has one for the lesson.
    """
    view = replace(view, width=min(view.width, WIDEST))
    options: list[Option] = []
    hers = {
        _IN_DRAFTS: [item for item in view.items if item.id in view.drafts],
        _TO_COPY: [item for item in view.items if is_to_copy(item)],
    }
    others = [item for item in view.items if not is_to_copy(item) and item.id not in view.drafts]
    for words, fates in _GROUPS:
        those = hers.get(words, [item for item in others if item.fate in fates])
        if DeliveryStatus.SENT in fates:
            newest = {item.about: item for item in those}
            those = sorted(newest.values(), key=lambda item: item.id, reverse=True)
        if those:
            options.append(group(words, view.width, len(those)))
            options += [Option(_row(each, view), id=str(each.id)) for each in those]
    if not options:
        return []  # the title says so
    heads = [(view.column(place), _COLUMNS[way], role("quiet")) for place, way in enumerate(view.ways)]
    return [Option(placed(view.width, *heads), disabled=True), *options]


def _row(item: Outgoing, view: OutboxView) -> Content:
    """Whose notes, what became of them, a sign for each way; below it where to, when, and why."""
    quiet, style = role("quiet"), "text" if item.id in view.drafts else _SIGNS[item.fate][1]
    date = view.date(item.queued_at)
    at, ends = len(date), view.column(0)
    name = cut(item.student, max(4, ends - at - cell_len(_word(item)) - 2))
    word_at = at + cell_len(name) + 2
    family_at = word_at + cell_len(_word(item)) + 2
    family = "inquiry" if item.family_id is None else view.families.get(item.family_id, "")
    family = f"{family}{', update' if item.is_update else ''}"
    signs = [(view.column(place) + 2, _sign(item.about, way, view)) for place, way in enumerate(view.ways)]
    row = placed(
        view.width,
        (0, date, quiet),
        (at, name, role("text", "bold")),
        (word_at, _word(item), role(style, "bold")),
        (family_at, cut(family, max(0, ends - family_at)), quiet),
        *((column, sign, role(its)) for column, (sign, its) in signs),
    )
    where = "  ".join(fact for fact in (_where(item), _when(item, view.now, view.home)) if fact)
    return Content.assemble(row, ("".join(f"\n{'':{at}}{fact}" for fact in (where, item.reason) if fact), quiet))


def _sign(about: str, way: Channel, view: OutboxView) -> tuple[str, str]:
    """What became of a paper on a way: of the newest to each address, what needs her most; empty for no such way."""
    newest = {item.address: item for item in view.items if item.about == about and item.way is way}
    fates = {item.fate for item in newest.values()}
    if fates == {DeliveryStatus.SENT} and any(item.id in view.drafts for item in newest.values()):
        return OPEN, "text"
    return next((_SIGNS[fate] for _, those in _GROUPS for fate in those if fate in fates), ("", "quiet"))


def _word(item: Outgoing) -> str:
    is_written = item.fate is DeliveryStatus.SENT and item.way in {Channel.FOLDER, Channel.DRAFT}
    return "written" if is_written else STATUS_WORDS[item.fate]


def _where(item: Outgoing) -> str:
    match item.way:
        case Channel.FOLDER:
            return "to your folder"
        case Channel.CLIPBOARD:
            return item.title
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
