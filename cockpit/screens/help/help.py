"""Help: the commands of the place where she is, with their keys, and the guide, open at the page of that place."""

from collections.abc import Iterable
from functools import lru_cache
from itertools import groupby

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content
from textual.geometry import Size
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.screens.commands.commands import Command, Place, keys_of
from cockpit.screens.help.guide import PAGES, page_text, page_title
from cockpit.screens.help.markdown import Page, laid_out
from cockpit.screens.look.show import role
from cockpit.screens.look.styles import TALL
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.rows import Rows

_PAGE = "page:"
_OPENING = "opening"
_HINTS = "enter runs · ← → pages · tab reads · esc"


class HelpScreen(ModalScreen[str], FastScreen[str]):
    """The commands of the screen below and the guide; dismissed with the id of the command to do, or with nothing."""

    HORIZONTAL_BREAKPOINTS = [(0, "-one"), (110, "-beside")]
    VERTICAL_BREAKPOINTS = TALL
    BINDINGS = [
        Binding("escape", "close", "Close", priority=True),
        Binding("left", "turn(-1)", "Previous page", priority=True),
        Binding("right", "turn(1)", "Next page", priority=True),
    ]

    def __init__(self, commands: Iterable[Command], place: Place, footnote: str) -> None:
        super().__init__()
        places = [place, *(other for other in Place if other not in {place, Place.EVERYWHERE}), Place.EVERYWHERE]
        self._commands = sorted(commands, key=lambda command: places.index(command.place))
        self._place = place
        self._footnote = footnote

    def compose(self) -> ComposeResult:
        """The commands and the pages in a list, the page that is open, and the keys of Help itself."""
        self.fit()
        with Container(classes="sheet", id="help"):
            with Vertical(id="help-list"):
                yield Static(f"Help · {self._place}", classes="title", markup=False)
                yield Rows(*self._options(), markup=False)
                yield Static(id="about", markup=False)
            yield GuidePane()
            yield Static(_HINTS, id="help-hints", markup=False)

    def on_mount(self) -> None:
        """Opens the guide at the place."""
        self.query_one(GuidePane).open(self._place.page, self._place.heading)
        listing = self.query_one(Rows)
        listing.highlighted = next(n for n, option in enumerate(listing.options) if not option.disabled)
        listing.focus()

    @on(OptionList.OptionSelected)
    def choose(self, event: OptionList.OptionSelected) -> None:
        """Does the chosen command, or opens the chosen page."""
        chosen = event.option_id or ""
        if chosen == _OPENING:
            return
        if not chosen.startswith(_PAGE):
            self.dismiss(chosen)
            return
        pane = self.query_one(GuidePane)
        pane.open(chosen.removeprefix(_PAGE))
        pane.query_one(VerticalScroll).focus()

    @on(OptionList.OptionHighlighted)
    def tell(self, event: OptionList.OptionHighlighted) -> None:
        """Tells what the command at the cursor does."""
        help_texts = {command.id: command.help for command in self._commands} | {
            _OPENING: "From when the cockpit opened."
        }
        self.query_one("#about", Static).update(help_texts.get(event.option_id or "", "A page of the guide."))

    def action_show_page(self, page: str) -> None:
        """Opens another page at its beginning."""
        self.query_one(GuidePane).open(page)

    def action_turn(self, by: int) -> None:
        """Opens the page after the one that is open, or before it."""
        pane = self.query_one(GuidePane)
        pane.open(PAGES[(PAGES.index(pane.page) + by) % len(PAGES)])

    def action_close(self) -> None:
        """Goes back."""
        self.dismiss(None)

    def _options(self) -> Iterable[Option]:
        for place, commands in groupby(self._commands, key=lambda command: command.place):
            yield _heading(place)
            for command in commands:
                yield Option(_row(command), id=command.id)
        yield _heading("the guide")
        for page in PAGES:
            yield Option(page_title(page), id=f"{_PAGE}{page}")
        yield Option(Content.styled(self._footnote, role("quiet", "not bold")), id=_OPENING)  # the end key leads to it


class GuidePane(Vertical):
    """The page of the guide that is open."""

    page = PAGES[0]

    def compose(self) -> ComposeResult:
        """Its title, and its text."""
        yield Static(classes="title", markup=False)
        with VerticalScroll(id="page"):
            yield PageText()

    def open(self, page: str, heading: str = "") -> None:
        """Shows a page from a heading on, or from its beginning."""
        self.page = page
        text = self.query_one(PageText)
        self.query_one(".title", Static).update(f"{page_title(page)} · {PAGES.index(page) + 1} of {len(PAGES)}")
        text.page = page
        text.refresh(layout=True)
        self.call_after_refresh(self._go_to, heading)

    def _go_to(self, heading: str) -> None:
        text = self.query_one(PageText)
        place = page_at(self.page, text.size.width).headings.get(heading, 0)
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
    return laid_out(page_text(page), max(1, width))


def _heading(words: str) -> Option:
    return Option(Content.styled(words.upper(), role("quiet", "bold")), disabled=True)


def _row(command: Command) -> Content:
    keys = keys_of(command) or "no key"
    return Content.assemble((f"{keys:<14}  ", role("key", "bold")), command.label)
