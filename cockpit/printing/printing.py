"""Makes documents by way of `papers`, with what of them lies in files: the families' style sheet, the phrases."""

from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.printing.phrase_files import phrases_of
from cockpit.settings.settings import Settings

if TYPE_CHECKING:
    from cockpit.papers.words.phrases import Phrases
    from cockpit.studio.calendar.clock_messages import Concerned, FamilyMessage
    from cockpit.studio.day.review import DayReview
    from cockpit.studio.practice.notes import PracticeNotes


class OurPrinter:
    """Makes documents by way of `papers`; the imports of each wait until it is asked for."""

    def __init__(self, settings: Settings, folder: Path | None = None) -> None:
        self._settings = settings
        self._folder = folder
        self._by_language: dict[str, Phrases] = {}

    def phrases(self, language: str) -> "Phrases":
        """The fixed phrases of a language, the teacher's own first; those of English where it has none."""
        if language not in self._by_language:
            self._by_language[language] = phrases_of(language, self._folder)
        return self._by_language[language]

    def markdown(self, paper: "PracticeNotes") -> str:
        """Practice notes as Markdown."""
        from cockpit.papers.notes.text import practice_notes_markdown

        return practice_notes_markdown(paper, self.phrases(paper.language))

    def page(self, paper: "PracticeNotes") -> str:
        """Practice notes as one self-contained page."""
        from cockpit.papers.notes.page import practice_notes_page

        return practice_notes_page(paper, self._style(), self.phrases(paper.language))

    def clock_message(self, concerned: "Concerned") -> "FamilyMessage":
        """What a family is told about a clock change."""
        from cockpit.papers.calendar.clock_messages import clock_message

        language = concerned.family.language or self._settings.sending.language
        return clock_message(concerned, self._settings.hours, self.phrases(language))

    def review(self, review: "DayReview") -> str:
        """A day's review as Markdown."""
        from cockpit.papers.review import review_markdown

        return review_markdown(review, self._settings.home, self._settings.hours)

    def _style(self) -> str:
        from cockpit.screens.look.theming import themes_folder

        return (themes_folder() / "family.css").read_text(encoding="utf-8")
