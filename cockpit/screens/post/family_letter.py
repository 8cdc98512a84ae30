"""A letter to many families: whom it is for, its text, and each guardian who gets it. It is kept at every key; F9 alone sends it."""

from collections.abc import Callable, Iterable, Sequence

from textual.containers import Container, Horizontal, Vertical
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static
from textual.widgets.text_area import Edit, EditResult

from cockpit.desk.post.family_letters import FamilyLetters, LetterView, Recipient, meant
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import role
from cockpit.screens.post.family_letter_rows import recipient_options, status_words, title_words, whom_words
from cockpit.screens.post.preview import PreviewScreen
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.fast_text_area import FastTextArea
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.textual_parts.search_field import Field
from cockpit.studio.clocks.words import near_day
from cockpit.studio.errors import CockpitError, Refused
from cockpit.studio.people.people import GuardianId
from cockpit.studio.post.family_letter import FamilyLetter
from cockpit.studio.roster.whom import EXAMPLES, Candidate
from cockpit.studio.shown import shown
from cockpit.studio.values import replace

_BESIDE = 110  # columns of the screen from which on the guardians stand beside the text
_LIST = 50


class LetterTextArea(FastTextArea):
    """The text of a letter. `on_typed` is called within each change, so that a kill loses nothing that was seen."""

    on_typed: Callable[[], None] | None = None

    def edit(self, edit: Edit) -> EditResult:
        """Changes the text, and has it kept. Control characters in a paste become U+FFFD."""
        edit.text = shown(edit.text)
        result = super().edit(edit)
        self._tell()
        return result

    def undo(self) -> None:
        """Takes typing back, and has that kept."""
        super().undo()
        self._tell()

    def redo(self) -> None:
        """Brings typing back, and has that kept."""
        super().redo()
        self._tell()

    def _tell(self) -> None:
        if self.on_typed is not None:
            self.on_typed()


class FamilyLetterScreen(CockpitScreen):
    """The newest draft, or an empty letter. Tab goes from the line to the text and to the guardians; enter leaves one out."""

    PLACE = Place.FAMILIES
    BINDINGS = bindings_for(PLACE)
    HORIZONTAL_BREAKPOINTS = [(0, "-one"), (_BESIDE, "-beside")]

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._candidates: Sequence[Candidate] = ()
        self._letters: list[FamilyLetter] = []
        self._letter: FamilyLetter | None = None
        self._view: LetterView | None = None

    def body(self) -> Iterable[Widget]:
        """The line, what it means, the text, and beside or below them the guardians."""
        with Container(id="families"):
            with Vertical(id="letter"):
                with Horizontal(id="whom"):
                    yield Static(Content.styled("To", role("quiet")))
                    yield Field(placeholder=EXAMPLES, select_on_focus=False)
                yield Static(id="whom-said", classes="footnote", markup=False)
                yield LetterTextArea(id="text", soft_wrap=True, highlight_cursor_line=False)
                yield Static(id="letter-said", classes="footnote", markup=False)
            yield Rows(id="guardians", markup=False)

    def on_mount(self) -> None:
        """Shows the newest letter that went to nobody; else an empty one."""
        text = self.query_one(LetterTextArea)
        text.cursor_blink = False
        self._letters = list(self.families.letters())
        drafts = (each for each in self._letters if not self.families.view(each, ()).went)
        self.attempt(lambda: self._open(next(drafts, None)))
        text.on_typed = self._keep_typed
        text.read_only = self.desk.why_read_only is not None
        (text if self._letter is not None and self._letter.whom else self.query_one(Field)).focus()

    @property
    def families(self) -> FamilyLetters:
        """What keeps and sends letters."""
        return self.desk.families()

    def show(self) -> None:
        """Looks again at whom the letter is for and where it went; what is typed stays as it is."""
        self._candidates = self.families.candidates()
        self._look()

    def outbox_changed(self) -> None:
        """Looks again."""
        self.show()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Keeps the line, and reads it as it is now."""
        event.stop()
        if self._letter is not None and event.value != self._letter.whom:
            self._keep(replace(self._letter, whom=event.value))
            self._look()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Goes on to the text."""
        event.stop()
        self.query_one(LetterTextArea).focus()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Leaves the chosen guardian out, or takes them in again."""
        event.stop()
        letter = self._letter
        if letter is not None:
            self.step(lambda: self.families.leave_out(letter, self._recipient(event.option_id)))

    def action_send(self) -> None:
        """Puts the letter into the outbox for everybody on the list who does not have it."""

        def send() -> str:
            said = self.families.put_out(self._shown)
            self.post_message(self.OutboxChanged())
            return said

        self.step(send)

    def action_preview(self) -> None:
        """Shows what the chosen guardian gets, else the first one."""
        self.attempt(self._preview)

    def action_stop(self) -> None:
        """Withdraws what has not gone."""

        def stop() -> str:
            said = self.families.stop(self._shown.letter)
            self.post_message(self.OutboxChanged())
            return said

        self.step(stop)

    def action_show_next(self) -> None:
        """Shows the letter before this one; behind the first one an empty letter."""
        self.attempt(self._show_next)

    def action_close(self) -> None:
        """Goes back, once all is kept."""
        if self._letter is None or self.attempt(lambda: self._keep_now()):
            self.dismiss(None)

    def _keep_now(self) -> None:
        if self._letter is not None and self.desk.why_read_only is None:
            self.families.keep(self._letter)

    def _keep_typed(self) -> None:
        if self._letter is not None:
            self._keep(replace(self._letter, text=self.query_one(LetterTextArea).text))
            self._say()

    def _keep(self, letter: FamilyLetter) -> None:
        """Keeps the letter as it is on the screen; a text that is refused stays there, and is tried again at the next key."""
        self._letter = letter
        self.attempt(self._keep_now)

    def _open(self, letter: FamilyLetter | None) -> None:
        self._letter = None
        fresh = letter if letter is not None else self.families.fresh()
        text = self.query_one(LetterTextArea)
        text.load_text(fresh.text)
        text.move_cursor(text.document.end)
        line = self.query_one(Field)
        line.value, line.cursor_position = fresh.whom, len(fresh.whom)
        self._letter = fresh
        self.show()

    def _show_next(self) -> None:
        self._keep_now()
        self._letters = list(self.families.letters())
        ids = [each.id for each in self._letters]
        here = ids.index(self._letter.id) if self._letter is not None and self._letter.id in ids else -1
        if not self._letters:
            raise Refused("There is no other letter.")
        self._open(self._letters[here + 1] if here + 1 < len(self._letters) else None)

    def _look(self) -> None:
        if self._letter is None:
            return
        view = self._view = self.families.view(self._letter, self._candidates)
        self.query_one("#whom-said", Static).update(whom_words(view))
        columns = _LIST if self.has_class("-beside") else None
        self.query_one("#guardians", Rows).lay_out(lambda width: recipient_options(view, columns or width))
        self._say()

    def _say(self) -> None:
        """Says what the letter is, and what F9 would do."""
        if self._letter is None or self._view is None:
            return
        self._view = replace(self._view, letter=self._letter)
        fault = ""
        try:
            self.families.check(self._view)
        except CockpitError as why_not:
            fault = str(why_not)
        words = status_words(self._view, self.families.minutes(self._view), fault)
        self.query_one("#letter-said", Static).update(words)
        today = self.desk.day.today()
        begun = near_day(self.settings.preferences.home.date_of(self._letter.made_at), today)
        self.entitle(title_words(self._view), f"begun {begun}")

    def _preview(self) -> None:
        self._keep_now()
        if not self._shown.recipients:
            raise Refused("It is for nobody yet. Type whom it is for.")
        option = self.query_one("#guardians", Rows).highlighted_option
        recipient = self._recipient(option.id if option is not None else None)
        item = self.families.preview(self._shown, recipient)
        self.app.push_screen(PreviewScreen(self.parts, self.desk.previewing.of_letter(item)))

    def _recipient(self, option: str | None) -> Recipient:
        return meant(self._shown, GuardianId(int(option))) if option else self._shown.recipients[0]

    @property
    def _shown(self) -> LetterView:
        """The letter as it stands.

        Raises:
            Refused: there is none, since this program may only read.
        """
        if self._view is None or self._letter is None:
            raise Refused(self.desk.why_read_only or "The letter is not there yet.")
        return replace(self._view, letter=self._letter)
