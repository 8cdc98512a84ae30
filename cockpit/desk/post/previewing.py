"""What a family gets, shown before or after it goes: made by the same hands as what goes."""

from pathlib import Path

from cockpit.desk.lookup import taught_on
from cockpit.desk.ports import Clock, Folder, PostPrinter, Reading
from cockpit.desk.post.paper_making import PaperMaking, minutes_of_plan, notices_of
from cockpit.desk.post.posting import Posting
from cockpit.studio.day.posting import NO_ADDRESS
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import kept_lines
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, spoken_channel
from cockpit.studio.post.outgoing import EMPTIED, Outgoing, OutgoingId, they_are
from cockpit.studio.practice.sheet import FamilySheet
from cockpit.studio.shown import typed_lines
from cockpit.studio.values import Value, replace

PAGE = "previews/preview.html"


class Preview(Value):
    """What a family gets, as it will read it, before it goes.

    `heading` is the subject of a mail, or the title; `facts` say how and to whom; `page` is a whole HTML page. `sheet` is
    what is on it, unless it is frozen in an entry of the outbox, and `around` it are the words of a mail. `kept` are the lines of the notes that stay with her.
    """

    heading: str
    facts: tuple[str, ...]
    text: str
    page: str
    sheet: FamilySheet | None = None
    around: tuple[str, str] = ("", "")
    kept: tuple[str, ...] = ()


class Previewing:
    """Shows what a family gets."""

    def __init__(
        self,
        reading: Reading,
        clock: Clock,
        printer: PostPrinter,
        paper_making: PaperMaking,
        posting: Posting,
        folder: Folder,
    ) -> None:
        self._reading = reading
        self._clock = clock
        self._printer = printer
        self._paper_making = paper_making
        self._posting = posting
        self._folder = folder

    def of_lesson(self, booking: ScheduledLesson) -> Preview:
        """What the family of a lesson gets of the notes as they stand now.

        Raises:
            Refused: there are no notes.
        """
        note = self._reading.notes([booking.lesson.id]).get(booking.lesson.id)
        if note is None or not note.body.strip():
            raise Refused(f"No notes for {booking.student.name} yet.")
        paper = self._paper_making.paper(booking, note.body)
        items = self._posting.would_be(booking, paper, self._clock.now())
        by_mail = next((item for way in (Channel.MAIL, Channel.DRAFT) for item in items if item.way is way), None)
        ways = ", ".join(spoken_channel(each) for each in Channel if each in self._posting.ways(booking))
        going = f"How it is sent: {ways}" if ways else "Saved in the studio folder only"
        if booking.lesson.is_rehearsed:
            going = "Finished in a rehearsal: never sent"
        told = (*minutes_of_plan(paper), *notices_of(paper))
        if by_mail is not None:
            preview = self._as_mail(by_mail, going)
        else:
            page, text = self._printer.page(paper), self._printer.text(paper)
            preview = Preview(heading=self._printer.title(paper), facts=(going,), text=text, page=page)
        return replace(
            preview,
            facts=(*preview.facts, *told),
            sheet=self._printer.laid_out(paper),
            around=_around(preview.text, by_mail.text) if by_mail is not None else ("", ""),
            kept=self._kept(booking.lesson.id),
        )

    def of_entry(self, item_id: OutgoingId) -> Preview:
        """What an entry of the outbox is.

        Raises:
            NotFound: it is not there any more.
            Refused: its words were deleted.
        """
        item = self._reading.outgoing_by_id(item_id)
        if item is None:
            raise NotFound("It is no longer in the outbox.")
        if item.is_emptied:
            raise Refused(f"{item.named('empty')}: {EMPTIED}.")
        if item.way in TO_AN_ADDRESS:
            whose = f"The {item.called} by {spoken_channel(item.way)}, {they_are(item.fate)}"
            return replace(self._as_mail(item, whose), kept=self._kept(item.lesson_id))
        return Preview(
            heading=item.title,
            facts=(f"By {spoken_channel(item.way)}, {they_are(item.fate)}",),
            text=item.text,
            page=self._printer.sheet(item),
            kept=self._kept(item.lesson_id),
        )

    def of_letter(self, item: Outgoing) -> Preview:
        """What an entry is that would be put into the outbox."""
        if item.way in TO_AN_ADDRESS:
            return self._as_mail(item, f"By {spoken_channel(item.way)}, when you press F9")
        return Preview(
            heading=item.title,
            facts=("For you to copy, once it is in the outbox",),
            text=item.text,
            page=self._printer.sheet(item),
        )

    def keep_page(self, preview: Preview) -> Path:
        """Puts the page where a browser can open it, until the program ends; returns its path.

        Raises:
            NotSaved: the folder refused.
        """
        return self._folder.put(PAGE, preview.page)

    def forget_page(self) -> None:
        """Takes the page away again."""
        self._folder.remove([PAGE])

    def _kept(self, lesson_id: LessonId | None) -> tuple[str, ...]:
        """The lines of a lesson's notes, as they stand now, that no family sees."""
        note = self._reading.notes([lesson_id]).get(lesson_id) if lesson_id is not None else None
        return kept_lines(note.body) if note is not None else ()

    def _as_mail(self, item: Outgoing, fact: str) -> Preview:
        if not item.address:
            page = self._printer.sheet(item)
            return Preview(heading=item.title, facts=(NO_ADDRESS.capitalize(), fact), text=item.text, page=page)
        subject, text, page = self._printer.as_read(item, taught_on(self._reading, item), self._clock.now())
        return Preview(
            heading=subject, facts=(f"To {item.address}" if item.address else "No address", fact), text=text, page=page
        )


def _around(mail: str, sheet: str) -> tuple[str, str]:
    """What a mail says before and after the text of a sheet."""
    said, lines = ("\n".join(typed_lines(text)) for text in (mail, sheet))  # a mail ends its lines as mails do
    before, found, after = said.partition(lines.strip())
    return (before.strip(), after.strip()) if found else ("", "")
