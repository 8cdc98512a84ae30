"""Help: the keys of the place where she is, what the guide says of it, everything else in groups; found as she types."""

from collections.abc import Iterable, Sequence
from functools import lru_cache

from textual import on
from textual.containers import VerticalScroll
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from cockpit.screens.commands.commands import BY_ID, Place
from cockpit.screens.help.guide import PAGES, page_text, page_title
from cockpit.screens.help.help_rows import OF_THE_PLACE, OPENING, PAGE, HelpView, help_rows, page_of
from cockpit.screens.help.markdown import Page, laid_out
from cockpit.screens.help.searched import SearchedScreen
from cockpit.screens.look.show import WIDEST
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import WALKING, WalkedRows
from cockpit.screens.textual_parts.search_field import SearchField

_BESIDE = 2  # columns: the margins of a page; the scrollbar stands in the right one


class HelpScreen(SearchedScreen):
    """The commands of the screen `below` and the guide. A chosen command is done there; a page is read here."""

    PLACE = Place.HELP
    BINDINGS = [*bindings_for(PLACE), *WALKING]

    def __init__(self, parts: Parts, below: CockpitScreen, footnote: str) -> None:
        super().__init__(parts)
        self.below = below
        self.from_place = below.place_here
        self._view = HelpView(
            place=self.from_place,
            commands=list(below.commands_here()),
            moment=[command.id for command in below.strip()],
            footnote=footnote,
        )

    def head(self) -> Widget:
        """Where she was, and the field."""
        return SearchField(self.PLACE, "type to find", self._where)

    def body(self) -> Iterable[Widget]:
        """The list and what its chosen command does; in their place the page that is open."""
        yield WalkedRows()
        yield Static(id="about", markup=False)
        yield VerticalScroll(PageText(), id="page")

    def on_mount(self) -> None:
        """Shows the list."""
        self.query_one(Input).focus()
        self.show()

    @on(OptionList.OptionHighlighted)
    def tell(self, event: OptionList.OptionHighlighted) -> None:
        """Tells what the chosen command does."""
        command = BY_ID.get(event.option_id or "")
        told = "From when the cockpit opened." if event.option_id == OPENING else "Opens the page."
        self.query_one("#about", Static).update(command.help if command is not None else told)

    def action_choose(self) -> None:
        """Takes what is chosen, while the list is seen."""
        if not self.is_reading:
            super().action_choose()

    def action_go(self, where: str) -> None:
        """Goes to the beginning or to the end: of the list, or of the page that is open."""
        if self.is_reading:
            self.query_one(VerticalScroll).scroll_to(
                y=0 if where == "first" else self.query_one(PageText).size.height, animate=False
            )
        else:
            super().action_go(where)

    def action_turn_on(self) -> None:
        """Opens the page of the place, or the one after the page that is open."""
        self._turn(1)

    def action_turn_back(self) -> None:
        """Opens the page of the place, or the one before the page that is open."""
        self._turn(-1)

    def action_show_page(self, page: str, heading: str = "") -> None:
        """Opens a page from a heading on, or from its beginning."""
        self.set_class(True, "-reading")
        text, scroll = self.query_one(PageText), self.query_one(VerticalScroll)
        text.page = page
        text.refresh(layout=True)
        scroll.focus()
        self.query_one(SearchField).say(f"{page_title(page)}, {PAGES.index(page) + 1} of {len(PAGES)}")
        self.call_after_refresh(self._go_to, heading)

    def action_close(self) -> None:
        """Goes back: from a page to the list, and from there to where she came from."""
        if not self.is_reading:
            self.dismiss(None)
            return
        self.set_class(False, "-reading")
        self.query_one(SearchField).say(self._where)
        self.query_one(Input).focus()

    @property
    def is_reading(self) -> bool:
        """Whether a page is open."""
        return self.has_class("-reading")

    @property
    def _where(self) -> str:
        return f"you were in {self.from_place}"

    def _turn(self, by: int) -> None:
        if self.is_reading:
            self.action_show_page(PAGES[(PAGES.index(self.query_one(PageText).page) + by) % len(PAGES)])
        else:
            self.action_show_page(self.from_place.page, self.from_place.heading)

    def take(self, chosen: str | None) -> None:
        """Opens a page, or does a command on the screen below."""
        if chosen is None or chosen == OPENING:
            return
        if chosen == OF_THE_PLACE:
            self.action_show_page(self.from_place.page, self.from_place.heading)
            return
        if chosen.startswith(PAGE):
            self.action_show_page(*page_of(chosen))
            return
        self.dismiss(None)
        self.app.call_next(self.below.do, chosen)

    def options(self, width: int) -> Sequence[Option]:
        """The commands and the pages of the guide that fit."""
        return help_rows(self._view, self.typed, min(width, WIDEST))

    def _go_to(self, heading: str) -> None:
        width = self.app.size.width - _BESIDE  # the pane may not have been laid out since it is shown
        place = page_at(self.query_one(PageText).page, width).headings.get(heading, 0)
        self.query_one(VerticalScroll).scroll_to(y=place, animate=False)


class PageText(Widget):
    """The text of a page, laid out for the width that it gets."""

    page = PAGES[0]

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002 as there
        """How many lines the page has at a width."""
        return len(page_at(self.page, width).lines)

    def render(self) -> Content:
        """The lines of the page."""
        return Content("\n").join(page_at(self.page, self.size.width).lines)


@lru_cache(maxsize=len(PAGES))
def page_at(page: str, width: int) -> Page:
    """A page of the guide in lines of a width."""
    return laid_out(page_text(page), max(1, min(width, WIDEST)))
