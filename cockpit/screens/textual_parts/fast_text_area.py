"""An editor for plain text that repaints only the lines that a key touched."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from rich.segment import Segment
from rich.style import Style
from rich.text import Text
from textual.binding import Binding
from textual.document._document_navigator import DocumentNavigator
from textual.events import Key
from textual.geometry import Offset, Region, Size
from textual.message import Message
from textual.reactive import Reactive, reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.widgets import TextArea
from textual.widgets.text_area import Edit, EditResult, Selection, TextAreaTheme

from cockpit.screens.look.show import PRIVATE
from cockpit.screens.textual_parts.hanging_document import HANG, HangingDocument
from cockpit.studio.notes.notes import MOST_SIGNS, kept_back, read_line
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.shown import shown

_GUTTER = 2


class FastTextArea(TextArea):
    """Textual's text area, which would repaint itself whole at every key: 5 to 8 kB instead of 300 bytes.

    The selection is not a repainting value here; its watcher refreshes the rows that the cursor left and entered, and
    those below where lines moved. Its `virtual_size` does not have the whole screen laid out anew either, unless the
    scroll bar comes or goes. This leans on private names of Textual (`_watch_selection`, `_scroll_update`); a test
    compares it with the stock widget.
    """

    selection: Reactive[Selection] = reactive(Selection(), init=False, always_update=True, repaint=False)
    virtual_size: Reactive[Size] = reactive(Size(0, 0), repaint=False)
    _is_edited = False  # an edit is being made: it tells which rows it touched
    _moved_down_to = 0
    _styled: TextAreaTheme | None = None

    def notify_style_update(self) -> None:
        """Forgets what the style sheet said of the cursor and its line."""
        super().notify_style_update()
        self._styled = None

    def render_lines(self, crop: Region) -> list[Strip]:
        """Draws lines. Textual would ask the style sheet at each of these for what changes with the look alone."""
        if self._theme is not self._styled:
            self._theme.apply_css(self)
            self._styled = self._theme
        return ScrollView.render_lines(self, crop)

    def watch_virtual_size(self, before: Size, after: Size) -> None:
        """Lays the screen out again where the scroll bar comes or goes; else it is told of the new height alone."""
        if self._is_edited:
            self._moved_down_to = max(before.height, after.height)
        else:
            self.refresh()
        room = self.size.height
        if (before.height > room) != (after.height > room):
            self.refresh(layout=True)
        elif after.height > room:
            self._scroll_update(after)

    def _watch_selection(self, previous_selection: Selection, selection: Selection) -> None:
        super()._watch_selection(previous_selection, selection)
        wrapped = self.wrapped_document
        last = self.document.line_count - 1
        lines = {min(place[0], last) for place in (*previous_selection, *selection)}
        ends = [(line, column) for line in lines for column in (0, len(self.document[line]))]
        rows = [wrapped.location_to_offset(end).y for end in ends]
        self.refresh_lines(min(rows), max(rows) - min(rows) + 1)

    def edit(self, edit: Edit) -> EditResult:
        """Changes the text. Where it has grown beyond the pane, Textual brings the cursor into view too early for it."""
        first = self.wrapped_document.location_to_offset((edit.top[0], 0)).y
        self._moved_down_to, self._is_edited = 0, True
        try:
            result = super().edit(edit)
        finally:
            self._is_edited = False
        if self._moved_down_to:  # lines have moved, from the first that was touched on
            self.refresh_lines(first, self._moved_down_to - first)
            if self.virtual_size.height > self.size.height:
                self.scroll_cursor_visible()
                self.app.cursor_position = self.cursor_screen_offset
        return result

    def scroll_cursor_visible(self, center: bool = False, animate: bool = False) -> Offset:  # noqa: FBT001, FBT002 as there
        """Brings the cursor into view, once it is in the text.

        Where the scroll bar goes with the lines that are taken back, Textual asks before it has moved the cursor.
        """
        if self.cursor_location[0] >= self.document.line_count:
            return Offset()
        return super().scroll_cursor_visible(center, animate)

    def load_text(self, text: str) -> None:
        """Puts another text in the place of this one."""
        super().load_text(text)
        self.refresh()

    def action_undo(self) -> None:
        """Takes typing back; what it changes can lie anywhere."""
        super().action_undo()
        self.refresh()

    def action_redo(self) -> None:
        """Brings typing back; what it changes can lie anywhere."""
        super().action_redo()
        self.refresh()


class NotesText(FastTextArea):
    """The text of a lesson, with a gutter: a sign in it says which lines a family never sees, and these are set in italics.

    Which lines these are is asked at each change of the whole text, since a label can cover the lines below it. The label
    of an assignment has a color of its own. A long line hangs under its text.

    `on_typed` is called within each change. Textual's own message would come later, when the change may be painted
    already: a kill between the two would lose a word that was seen.
    """

    class TooLong(Message):
        """A paste or a carried line does not fit; the text is unchanged."""

        def __init__(self, found: int, room: int) -> None:
            super().__init__()
            self.sentence = (
                f"Too long: {found:,} character{'' if found == 1 else 's'}, but there is room for only {room:,} more. "
                f"A lesson's notes can have {MOST_SIGNS:,}. Nothing was changed."
            )

    # Absent and canceled had these keys. Textual selects all with F7, and the next letter would take the notes away.
    BINDINGS = [Binding("f6,f7,ctrl+d,ctrl+k", "screen.tell_moved", show=False)]
    COMPONENT_CLASSES = {"notes-text--kept-back", "notes-text--asked"}
    on_typed: Callable[[], None] | None = None
    labels: Labels = BUILT_IN
    _kept_back: Mapping[int, int] = MappingProxyType({})
    _looks: Mapping[str, Style] = MappingProxyType({})

    def load_text(self, text: str) -> None:
        """Puts another text in the place of this one."""
        super().load_text(text)
        self._read()

    def edit(self, edit: Edit) -> EditResult:
        """Changes the text, and has it saved. Control characters in a paste become U+FFFD."""
        edit.text = shown(edit.text)
        before = len(self.text)
        others = before - len(self.get_text_range(edit.from_location, edit.to_location))
        if others + len(edit.text) > max(MOST_SIGNS, before):
            self.post_message(self.TooLong(len(edit.text), max(0, MOST_SIGNS - others)))
            return EditResult(end_location=self.selection.end, replaced_text="")
        with self.prevent(self.Changed, self.SelectionChanged):  # nobody hears them, and each would go up to the app
            result = super().edit(edit)
        self._typed()
        return result

    def undo(self) -> None:
        """Takes typing back, and has that saved."""
        super().undo()
        self._typed()

    def redo(self) -> None:
        """Brings typing back, and has that saved."""
        super().redo()
        self._typed()

    def on_key(self, event: Key) -> None:
        """Drops a letter that comes with Alt: it is a command of some other program, and no word."""
        if event.key.startswith("alt+"):
            event.prevent_default()
            event.stop()

    def is_kept_back(self, row: int) -> bool:
        """Whether a line, or a part of it, is kept from families."""
        return row in self._kept_back

    def _read(self) -> None:
        fresh = kept_back(self.text)
        if fresh != self._kept_back:
            self._kept_back = fresh
            self.refresh()

    def _typed(self) -> None:
        self._read()
        if self.on_typed is not None:
            self.on_typed()

    def notify_style_update(self) -> None:
        """Forgets what the style sheet said of lines, too."""
        super().notify_style_update()
        self._looks = {}

    def _look(self, name: str) -> Style:
        """The style of a kind of line; the style sheet is asked when the look changes, and not for each line."""
        if name not in self._looks:
            self._looks = {**self._looks, name: self.get_component_rich_style(name, partial=True)}
        return self._looks[name]

    def get_line(self, line_index: int) -> Text:
        """One line of the text, with its style."""
        line = super().get_line(line_index)
        if line_index in self._kept_back:
            style = self._look("notes-text--kept-back")
            line.stylize(style + Style(italic=True), self._kept_back[line_index])
        if self._kept_back.get(line_index, 1) > 0:
            read = read_line(line.plain, self.labels)
            if read.line.takes_marks and read.text:
                style = self._look("notes-text--asked")
                line.stylize(style, 0, line.plain.rfind(read.text))  # its words can stand in the label too
        return line

    @property
    def gutter_width(self) -> int:
        """The columns before the text."""
        return _GUTTER

    def _set_document(self, text: str, language: str | None) -> None:
        super()._set_document(text, language)
        self.wrapped_document = HangingDocument(self.document, tab_width=self.indent_width)
        self.navigator = DocumentNavigator(self.wrapped_document)
        self._rewrap_and_refresh_virtual_size()

    def _render_line(self, y: int) -> Strip:
        strip = super()._render_line(y)
        row, document = y + self.scroll_offset.y, self.wrapped_document
        if not isinstance(document, HangingDocument) or row >= document.height:
            return strip
        line, section = document.line_and_section(row)
        base = self._theme.base_style or self.rich_style
        style = base
        if line in self._kept_back:
            style = base + self._look("notes-text--kept-back")
        before = [Segment(f"{PRIVATE} " if line in self._kept_back else "  ", style)]
        if section:
            before.append(Segment(" " * HANG, base))
            strip = strip.crop(0, strip.cell_length - HANG)
        return Strip.join([Strip(before), strip])
