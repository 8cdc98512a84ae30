"""Makes documents by way of `papers`, with what of them lies in files: the families' style sheet, the phrases."""

from cockpit.papers.markdown import practice_notes_markdown
from cockpit.settings import Settings
from cockpit.studio.practice_notes import PracticeNotes
from cockpit.studio.review import DayReview


class OurPrinter:
    """Makes documents by way of `papers`; the page's imports wait until a page is asked for."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings

    def markdown(self, paper: PracticeNotes) -> str:
        """Practice notes as Markdown."""
        return practice_notes_markdown(paper)

    def page(self, paper: PracticeNotes) -> str:
        """Practice notes as one self-contained page."""
        from cockpit.papers.page import practice_notes_page
        from cockpit.screens.theming import themes_folder

        style = (themes_folder() / "family.css").read_text(encoding="utf-8")
        return practice_notes_page(paper, style)

    def review(self, review: DayReview) -> str:
        """A day's review as Markdown."""
        from cockpit.papers.review import review_markdown

        return review_markdown(review, self._settings.home, self._settings.hours)
