"""The inquiries on the screen: what is to be done next with each, and a letter for every step. Nothing is sent by itself."""

from collections.abc import Callable, Iterable
from pathlib import Path

from textual.widget import Widget
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.inquiries.inquiring import Inquiring
from cockpit.screens.commands.commands import Place
from cockpit.screens.inquiries.inquiry_rows import inquiry_options
from cockpit.screens.inquiries.inquiry_text import InquiryTextScreen
from cockpit.screens.post.entry import EntryScreen
from cockpit.screens.post.letter import LetterScreen, Written
from cockpit.screens.screen import CockpitScreen, bindings_for
from cockpit.screens.sharing import copy
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.clocks.words import counted
from cockpit.studio.day.posting import Letter
from cockpit.studio.errors import Refused
from cockpit.studio.inquiries.answer import BY_PHONE, is_by_phone
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryId
from cockpit.studio.inquiries.received import ReceivedMail
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.wording.inquiries import counts_title, who_asks


class InquiryLines:
    """Reads lines about one inquiry, or about a new one."""

    def __init__(self, inquiring: Inquiring, number: InquiryId | None) -> None:
        self._inquiring = inquiring
        self._number = number

    def propose(self, purpose: Purpose, booking: ScheduledLesson | None, line: str) -> Proposal:  # noqa: ARG002 as there
        """Reads a line for a purpose."""
        return self._inquiring.propose(self._number, purpose, line)


class InquiriesScreen(CockpitScreen):
    """The most urgent first. Enter shows what they wrote."""

    PLACE = Place.INQUIRIES
    BINDINGS = bindings_for(PLACE)

    def body(self) -> Iterable[Widget]:
        """The list."""
        yield Rows(id="inquiries", markup=False)

    def on_mount(self) -> None:
        """Shows it."""
        self.show()
        self.query_one(Rows).focus()

    @property
    def inquiring(self) -> Inquiring:
        """What takes the steps."""
        return self.desk.inquiring()

    def show(self) -> None:
        """Looks again; the cursor stays on its line."""
        view, preferences = self.inquiring.view(), self.settings.preferences
        open_ones = counted(len(view.open), "open inquiry", "open inquiries") if view.open else "no open inquiries"
        said = f"{view.to_answer} to answer" if view.to_answer else open_ones
        self.entitle(said, counts_title(view.counts, preferences.inquiry.reply_hours))
        self.query_one(Rows).lay_out(lambda width: inquiry_options(view, preferences.home, width))

    def outbox_changed(self) -> None:
        """Looks again: an answer that was refused is none."""
        self.show()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Shows what they wrote."""
        event.stop()
        self.attempt(lambda: self._ask_words(self._chosen().id))

    def action_add(self) -> None:
        """Asks for a line, and then for their words."""
        self.attempt(lambda: self._ask(None, Purpose.INQUIRY, self._added))

    def action_add_mail(self) -> None:
        """Asks for the path of a saved mail."""

        def typed(path: str | None) -> None:
            if path is not None:
                self.attempt(lambda: self._take_mail(Path(path.strip().strip("'\""))))

        self.app.push_screen(
            EntryScreen("A saved email", "Type the path of the .eml file, then press enter   esc cancels"), typed
        )

    def action_change(self) -> None:
        """Asks for what is known of the chosen one again."""
        self.attempt(lambda: self._ask(self._chosen().id, Purpose.INQUIRY))

    def action_write(self) -> None:
        """Shows the answer to the chosen one, to be read and changed."""
        self.attempt(self._write)

    def action_book_trial(self) -> None:
        """Books a trial lesson for the chosen one."""
        self.attempt(lambda: self._ask(self._chosen().id, Purpose.TRIAL))

    def action_enroll(self) -> None:
        """Gives the chosen one a weekly time."""
        self.attempt(lambda: self._ask(self._chosen().id, Purpose.STUDENT))

    def action_put_on_list(self) -> None:
        """Puts the chosen one on the waiting list."""
        self.attempt(lambda: self._ask(self._chosen().id, Purpose.WAITING))

    def action_finish(self) -> None:
        """Closes the chosen one, with a reason."""
        self.attempt(lambda: self._ask(self._chosen().id, Purpose.CLOSE))

    def action_note_reply(self) -> None:
        """Notes that the chosen one wrote again."""
        self.step(lambda: self.inquiring.they_wrote(self._chosen().id))

    def _ask(
        self, number: InquiryId | None, purpose: Purpose, then: "Callable[[Proposal], None] | None" = None
    ) -> None:
        """Asks for a line, begun with what is known, and carries out what was understood of it."""
        inquiring = self.inquiring
        name = inquiring.course(number).inquiry.learner if number is not None else ""

        def understood(proposal: Proposal | None) -> None:
            if proposal is not None and self.step(lambda: self._arranged(proposal)) and then is not None:
                then(proposal)

        typed = inquiring.line(number, purpose)
        self.app.push_screen(LineScreen(InquiryLines(inquiring, number), purpose, None, typed, name), understood)

    def _arranged(self, proposal: Proposal) -> str:
        sentence = self.inquiring.do(proposal)
        self.desk.day.reload()
        return sentence

    def _added(self, proposal: Proposal) -> None:
        new = next(edit.after for edit in proposal.edits)
        if isinstance(new, Inquiry):
            self._ask_words(new.id)

    def _ask_words(self, number: InquiryId) -> None:
        inquiry = self.inquiring.course(number).inquiry
        about = self.inquiring.told(inquiry)

        def taken(words: str | None) -> None:
            if words is not None:
                self.step(lambda: self.inquiring.keep_words(number, words))

        title = f"WHAT {inquiry.name.upper()} WROTE"
        self.app.push_screen(
            InquiryTextScreen(title, about, inquiry.words, "Type or paste it   F9 keeps it   esc leaves it"), taken
        )

    def _write(self) -> None:
        inquiry, answering = self._chosen(), self.inquiring.answering
        letter = answering.letter(inquiry.id)

        def written(answer: Written | None) -> None:
            if answer is not None:
                self.step(lambda: self._answered(inquiry.id, letter, answer))

        whom = f"{inquiry.email or 'somebody without an email address'} ({who_asks(inquiry)})"
        keys = f'"{BY_PHONE}" at the top marks it answered   '
        self.app.push_screen(LetterScreen(letter, answering.way_of(letter), whom, keys), written)

    def _answered(self, number: InquiryId, letter: Letter, answer: Written) -> str:
        answering = self.inquiring.answering
        if is_by_phone(answer.text):
            return answering.by_phone(number)
        if answer.is_copied:
            said = answering.copied(number, answer.text)
            copy(self.app, answer.text)
            return said
        said = answering.put_out(number, letter, answer.text)
        self.post_message(self.OutboxChanged())
        return said

    def _take_mail(self, path: Path) -> None:
        mail = self.inquiring.mail(path)
        if mail.came_at is not None:
            came_at = mail.came_at
            self.step(lambda: self.inquiring.take_mail(mail, came_at))
        else:
            self._ask_when(mail)

    def _ask_when(self, mail: ReceivedMail) -> None:
        def typed(when: str | None) -> None:
            if when is not None:
                self.step(lambda: self.inquiring.take_mail(mail, self.inquiring.came(when)))

        title = f"When did the email from {mail.name} come?"
        self.app.push_screen(EntryScreen(title, 'Such as "yesterday 10am" or "2026-11-28 10:00"   esc cancels'), typed)

    def _chosen(self) -> Inquiry:
        """The inquiry with the cursor.

        Raises:
            Refused: there is none.
        """
        option = self.query_one(Rows).highlighted_option
        if option is None or not option.id:
            raise Refused("Choose an inquiry first. Press n for a new one.")
        return self.inquiring.course(InquiryId(int(option.id))).inquiry
