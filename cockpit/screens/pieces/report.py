"""A progress sheet before it goes: what is in it, room for her own words, and its page in the browser."""

from textual.binding import Binding
from textual.widgets import Static

from cockpit.desk.pieces.pages import StudentPage
from cockpit.desk.post.reporting import Reporting
from cockpit.outlets.browser import open_file
from cockpit.screens.screen import CockpitScreen
from cockpit.screens.textual_parts.text_sheet import TextSheet
from cockpit.studio.clocks.words import counted, near_day
from cockpit.studio.errors import CockpitError
from cockpit.studio.pieces.progress_sheet import ProgressSheet
from cockpit.studio.values import replace


class ReportScreen(TextSheet[str]):
    """Dismissed with her own words, which may be none, when it is to go; with nothing when it is not."""

    BINDINGS = [
        Binding("f9", "send", "Put it into the outbox", priority=True),
        Binding("f5", "open_page", "Open the page in the browser", priority=True),
    ]

    def __init__(self, reporting: Reporting, page: StudentPage, sheet: ProgressSheet) -> None:
        self._reporting, self._page, self._sheet = reporting, page, sheet
        letter = reporting.letter(page, sheet)
        way = reporting.way_of(letter)
        goes = f"F9 puts it into the outbox{f', it goes {way}' if way else ', for you to copy'}"
        super().__init__(letter.title, _about(page, sheet), "", f"{goes}   F5 opens the page   esc leaves it")

    def action_send(self) -> None:
        """Lets it go."""
        self.dismiss(self.text)

    def action_open_page(self) -> None:
        """Opens the page in the browser, with her words as they are now."""
        try:
            path = self._reporting.keep_page(self._page, replace(self._sheet, words=self.text))
            said = f"The page: {path}" if open_file(path) else f"No browser was found here. The page is {path}"
        except CockpitError as fault:
            said = str(fault)
        self.query_one("#text-keys", Static).update(said)


def write_report(screen: CockpitScreen, page: StudentPage) -> None:
    """Shows the progress sheet of a student over a screen, and puts it out when she says so."""
    pages, reporting = screen.desk.pages(), screen.desk.reporting
    sheet = reporting.sheet(page, pages.looking.given(page.student.id), pages.said(page.student.id))

    def written(words: str | None) -> None:
        if words is not None:
            screen.step(lambda: reporting.put_out(page, replace(sheet, words=words)))
            screen.post_message(screen.OutboxChanged())

    screen.app.push_screen(ReportScreen(reporting, page, sheet), written)


def _about(page: StudentPage, sheet: ProgressSheet) -> str:
    """Whom it goes to, and what is in it."""
    since = near_day(sheet.from_on, page.on)
    facts = (
        f"To the {page.family.name} family, since {since}: {sheet.attended} of {counted(sheet.planned, 'planned lesson')}, "
        f"{counted(len(sheet.pieces), 'piece')} in progress, {len(sheet.done)} done."
    )
    return f"{facts} No private line is in it. Your own words, if you want some:"
