"""A screen of rows that are narrowed as she types: its field keeps the keys, and hands on those that walk."""

from collections.abc import Sequence

from textual import on
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option

from cockpit.screens.screen import CockpitScreen
from cockpit.screens.textual_parts.rows import WalkedRows
from cockpit.screens.textual_parts.search_field import SearchField


class SearchedScreen(CockpitScreen):
    """Rows below a field. What is made of them, and what comes of one that is taken, each screen says itself."""

    def show(self) -> None:
        """Shows what fits what is typed."""
        self.rows.lay_out(self.options)

    @on(Input.Changed)
    def narrow(self) -> None:
        """Shows what fits, the first of it chosen."""
        self.rows.highlighted = None
        self.show()

    @on(OptionList.OptionSelected)
    def take_tapped(self, event: OptionList.OptionSelected) -> None:
        """Takes what was tapped."""
        self.take(event.option_id)

    def action_choose(self) -> None:
        """Takes what is chosen."""
        chosen = self.rows.highlighted_option
        self.take(chosen.id if chosen is not None else None)

    def action_walk(self, step: int) -> None:
        """Moves the choice while the cursor stays in the field."""
        self.rows.walk(step)

    def action_turn(self, step: int) -> None:
        """Moves the choice by a page."""
        self.rows.turn(step)

    def action_go(self, where: str) -> None:
        """Chooses the first row or the last."""
        (self.rows.action_first if where == "first" else self.rows.action_last)()

    @property
    def rows(self) -> WalkedRows:
        """The rows."""
        return self.query_one(WalkedRows)

    @property
    def typed(self) -> str:
        """What is typed."""
        return self.query_one(SearchField).typed

    def options(self, width: int) -> Sequence[Option]:
        """The rows that fit what is typed, in so many columns."""
        raise NotImplementedError

    def take(self, chosen: str | None) -> None:
        """Does what the row of an id stands for; nothing where there is none."""
        raise NotImplementedError
