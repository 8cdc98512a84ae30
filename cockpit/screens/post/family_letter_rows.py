"""What the screen of a letter to many families says: whom it is for, each guardian in a row, and what F9 would do."""

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.post.family_letters import LetterView, Recipient, Sends, students_words
from cockpit.screens.look.show import HAPPENED, NEEDS_HER, NOT, OPEN, WIDEST, cut_at_word, placed, role
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.clocks.words import counted, listed
from cockpit.studio.errors import BadInput
from cockpit.studio.post.family_letter import text_for
from cockpit.studio.post.outgoing import DeliveryStatus

_SIGNS = {
    Sends.GOES: (OPEN, "text"),
    Sends.WENT: (HAPPENED, "finished"),
    Sends.LEFT_OUT: (NOT, "quiet"),
    Sends.NO_ADDRESS: (NEEDS_HER, "warning"),
}
_BECAME = {
    DeliveryStatus.SENT: "has it",
    DeliveryStatus.WAITING: "in the outbox",
    DeliveryStatus.GOING: "in the outbox",
}
_FAMILY, _ROOM_FOR_STUDENTS = 14, 66


def whom_words(view: LetterView) -> Content:
    """Whom the letter is for, or why the line is not understood; and whose guardians get no news."""
    if not view.is_understood:
        return Content.styled(view.whom, role("quiet" if not view.letter.whom.strip() else "warning"))
    said = [(view.whom, role("text"))]
    if view.unreached:
        verb = "has" if len(view.unreached) == 1 else "have"
        said.append((f"; {listed(view.unreached)} {verb} no guardian who gets news", role("warning")))
    for language in dict.fromkeys(language for _, language in view.foreign):
        names = [family for family, each in view.foreign if each == language]
        verb = "gets" if len(names) == 1 else "get"
        said.append((f"; {listed(names)} {verb} the text in [{language}]", role("warning")))
    return Content.assemble(*said)


def recipient_options(view: LetterView, width: int) -> list[Option]:
    """A row a guardian, by family, below a heading; enter leaves one out."""
    if not view.recipients:
        return []
    columns = min(width, WIDEST)
    going = len(view.of(Sends.GOES))
    rows: list[Option] = [group("guardians", columns, f"{going} of {len(view.recipients)}, enter leaves out")]
    return [*rows, *(Option(_row(each, columns), id=str(each.guardian.id)) for each in view.recipients)]


def _sign(recipient: Recipient) -> tuple[str, str]:
    """The sign of what a letter does with a guardian, or of what became of it in the outbox, and its color."""
    if recipient.sends is not Sends.WENT or recipient.fate is DeliveryStatus.SENT:
        return _SIGNS[recipient.sends]
    needs_her = recipient.fate in {DeliveryStatus.UNSURE, DeliveryStatus.REFUSED}
    return (NEEDS_HER, "warning") if needs_her else (OPEN, "quiet")


def title_words(view: LetterView) -> str:
    """What became of the letter: `draft`, `sent to 4, 8 in the outbox`."""
    went = view.of(Sends.WENT)
    sent = sum(each.fate is DeliveryStatus.SENT for each in went)
    words = [f"sent to {sent}"] if sent else []
    words += [f"{len(went) - sent} in the outbox"] if len(went) > sent else []
    return ", ".join(words) or "draft"


def is_waiting(recipient: Recipient) -> bool:
    """Whether a letter is in the outbox still."""
    return recipient.fate is DeliveryStatus.WAITING


def _row(recipient: Recipient, width: int) -> Content:
    sign, color = _sign(recipient)
    guardian = recipient.guardian
    said = " ".join(filter(None, (guardian.name, guardian.email or "no address")))
    what = "left out" if recipient.sends is Sends.LEFT_OUT else "" if recipient.ways else "to copy"
    if recipient.sends is Sends.WENT and recipient.fate is not None:
        what = (
            "to copy" if is_waiting(recipient) and not recipient.ways else _BECAME.get(recipient.fate, recipient.fate)
        )
    students = cut_at_word(students_words(recipient), 20) if width >= _ROOM_FOR_STUDENTS else ""
    behind = what or students
    room = width - 3 - _FAMILY - (cell_len(behind) + 2 if behind else 0)
    words = role("text" if recipient.sends is Sends.GOES else "quiet")
    return placed(
        width,
        (0, sign, role(color)),
        (2, cut_at_word(recipient.family.name, _FAMILY), words),
        (3 + _FAMILY, cut_at_word(said, room), words),
        (width - cell_len(behind), behind, role("quiet")),
    )


def status_words(view: LetterView, minutes: int, fault: str) -> Content:
    """The subject, and what F9 would do, or why it cannot: `"Rehearsal"  F9 sends 4 letters to 3 families, about 3 minutes`."""
    subject = _subject(view)
    lead = f'"{subject}"  ' if subject else ""
    if view.went and view.is_understood and not view.of(Sends.GOES):
        return Content.assemble((lead, role("text")), ("Once somebody joins, F9 sends it there", role("quiet")))
    if fault:
        return Content.assemble(
            (lead, role("text")), (fault, role("quiet" if not view.letter.text.strip() else "warning"))
        )
    going = view.of(Sends.GOES)
    families = len({each.family.id for each in going})
    again = "to those who joined since: " if view.went else ""
    takes = f", about {counted(minutes, 'minute')}" if minutes else ""
    sends, ends = (
        ("sends", takes) if any(each.ways for each in going) else ("puts into the outbox", ", for you to copy")
    )
    said = f"F9 {sends} {again}{counted(len(going), 'letter')} to {counted(families, 'family', 'families')}{ends}"
    return Content.assemble((lead, role("text")), (said, role("student")))


def _subject(view: LetterView) -> str:
    try:
        return text_for(view.letter.text, "", "").subject
    except BadInput:
        return next((line.strip() for line in view.letter.text.splitlines() if line.strip()), "")
