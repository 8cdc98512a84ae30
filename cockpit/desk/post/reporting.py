"""The progress sheet of a student: made of what the family may see, put into its folder and into the outbox."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import dropwhile
from pathlib import Path

from cockpit.desk.lookup import Whose, bookings_between
from cockpit.desk.ports import Clock, Folder, PostPrinter, Reading
from cockpit.desk.post.letters import Letters
from cockpit.desk.post.paper_making import PaperMaking
from cockpit.desk.post.previewing import PAGE
from cockpit.studio.calendar.attendance import attendance
from cockpit.studio.changes.pieces import Piece
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.day.posting import Letter
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.notes.notes import for_family
from cockpit.studio.people.people import first_name
from cockpit.studio.pieces.given import GivenLine
from cockpit.studio.pieces.history import done_times, histories
from cockpit.studio.pieces.progress_sheet import ProgressSheet, sheet_done, sheet_pieces
from cockpit.studio.practice.notes import safe_name
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import replace


class Reporting:
    """Makes progress sheets. None is on its way before it is put out."""

    def __init__(
        self,
        sources: tuple[Reading, Clock],
        printer: PostPrinter,
        paper_making: PaperMaking,
        letters: Letters,
        folder: Folder,
        preferences: Preferences,
    ) -> None:
        self._reading, self._clock = sources
        self._printer = printer
        self._paper_making = paper_making
        self._letters = letters
        self._folder = folder
        self._preferences = preferences

    def sheet(
        self, whose: Whose, lines: Sequence[GivenLine], said: Mapping[str, Piece], words: str = ""
    ) -> ProgressSheet:
        """The sheet of the term up to today, of a student's lines, the oldest first, and what is said of the pieces.

        Only finished lessons are in it, and of their lines those that the family may see.
        """
        now, rules = self._clock.now(), self._preferences
        today = rules.home.date_of(now)
        term = rules.policies.on(today).term_of(today)
        begins, _ = rules.home.day_bounds(term)
        bookings, _ = bookings_between(self._reading, begins, now, rules.home, whose.student.id)
        # What came before the first lesson of which anything was noted was not taught with this program.
        lessons = [each.lesson for each in dropwhile(lambda each: not each.is_recorded, bookings)]
        attended = attendance((each for each in lessons if not each.is_live), now)
        shown = self._shown(whose, lines)
        pieces = histories(shown, said)
        joined_on = min((local_time(each.starts_at, whose.family.zone).date() for each in lessons), default=term)
        from_on = term if any(each.on < term for each in shown) else max(term, joined_on)
        return ProgressSheet(
            student=self._called(whose),
            from_on=from_on,
            until_on=local_time(now, whose.family.zone).date(),
            planned=attended.planned,
            attended=attended.attended,
            made_up=attended.made_up,
            pieces=sheet_pieces(pieces, has_marks=rules.pieces.reports_marks),
            done=sheet_done(done_times(pieces), from_on),
            words=words,
        )

    def letter(self, whose: Whose, sheet: ProgressSheet) -> Letter:
        """The sheet as it goes out."""
        return self._printer.progress(sheet, whose.family)

    def way_of(self, letter: Letter) -> str:
        """How the outbox would send it: `by email`; empty where she is to copy it herself."""
        return self._letters.way_of(letter)

    def keep_page(self, whose: Whose, sheet: ProgressSheet) -> Path:
        """Puts the page where a browser can open it, until the program ends; returns its path.

        Raises:
            NotSaved: the folder refused.
        """
        _, page = self._printer.progress_files(sheet, whose.family)
        return self._folder.put(PAGE, page)

    def put_out(self, whose: Whose, sheet: ProgressSheet) -> str:
        """Puts a sheet into the folder of the family and into the outbox, as a step that can be undone.

        Returns a sentence.

        Raises:
            NotSaved: the folder refused; then nothing is in the outbox.
        """
        letter = self.letter(whose, sheet)
        on = sheet.until_on.isoformat()
        name = f"notes/{self._paper_making.folder_of(whose.family.id)}/{on} {safe_name(letter.title)}"
        markdown, page = self._printer.progress_files(sheet, whose.family)
        self._folder.put(f"{name}.html", page)
        self._folder.put(f"{name}.md", markdown)
        return f"{self._letters.put(letter)} It is in the studio folder too: {name}.md"

    def _called(self, whose: Whose) -> str:
        """The first name of a student, and the whole name where another one of the family has that first name."""
        of_family = (each for each in self._reading.people().students.values() if each.family_id == whose.family.id)
        first = first_name(whose.student, whose.family)
        shared = sum(first_name(each, whose.family) == first for each in of_family) > 1
        return whose.student.name if shared else first

    def _shown(self, whose: Whose, lines: Iterable[GivenLine]) -> list[GivenLine]:
        """The lines of finished lessons that the family may see, with the dates of the family's clock."""
        given = list(lines)
        ids = {each.lesson_id for each in given}
        now = self._clock.now()
        lessons = {each.id: each for each in self._reading.lessons_between(now, now, ids) if _is_over(each)}
        notes = self._reading.notes(lessons)
        seen = {
            (lesson_id, line.typed)
            for lesson_id, note in notes.items()
            for line in for_family(note.body, self._preferences.labels).assignments
        }
        return [
            replace(each, on=local_time(lessons[each.lesson_id].starts_at, whose.family.zone).date())
            for each in given
            if (each.lesson_id, each.read.line) in seen
        ]


def _is_over(lesson: Lesson) -> bool:
    """Whether a lesson was taught, is finished, and was no rehearsal."""
    return (
        lesson.finished_at is not None and lesson.outcome is None and not lesson.is_reopened and not lesson.is_rehearsed
    )
