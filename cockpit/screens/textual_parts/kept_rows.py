"""A list that rows come into and leave while one of them is chosen."""

from collections.abc import Callable, Sequence

from textual import on
from textual.events import Blur
from textual.widgets.option_list import Option

from cockpit.screens.textual_parts.rows import Rows


class KeptRows(Rows):
    """The cursor is kept by row. Where the chosen one leaves, none is chosen until the cursor is moved.

    A key that was meant for a row that is gone must not go to another one.
    """

    _left_at = 0

    def show_rows(self, options: Sequence[Option], *, is_afresh: bool) -> None:
        """Shows rows, the first of them chosen where these are others `is_afresh`."""
        ids = [option.id for option in options]
        if [option.id for option in self.options] == ids and not is_afresh:
            for option in options:
                self.replace_option_prompt(option.id or "", option.prompt)
            self.call_after_refresh(self.scroll_to_highlight)  # a row may have grown by a line
            return
        chosen, scrolled = (None, 0.0) if is_afresh else (self.chosen, self.scroll_y)
        self._left_at = 0 if is_afresh else self.highlighted or 0
        self.set_options(options)
        if chosen in ids:
            self.highlighted = ids.index(chosen)
        elif is_afresh or not self.has_focus:
            self.choose_again()
        else:
            self.call_after_refresh(self.scroll_to, y=scrolled, animate=False)

    @property
    def chosen(self) -> str | None:
        """The chosen row, if there is one."""
        return self.highlighted_option.id if self.highlighted_option is not None else None

    @on(Blur)
    def choose_again(self) -> None:
        """Chooses what stands where the cursor was, if none is chosen."""
        if self.highlighted is None and self.option_count:
            self.highlighted = self._left_at

    def action_cursor_down(self) -> None:
        """Goes down, or to the row that took the place of one that is gone."""
        self._go(super().action_cursor_down, self._left_at)

    def action_cursor_up(self) -> None:
        """Goes up, or to the row before one that is gone."""
        self._go(super().action_cursor_up, self._left_at - 1)

    def _go(self, further: Callable[[], None], place: int) -> None:
        if self.highlighted is None:
            self.highlighted = max(0, place)
        else:
            further()
