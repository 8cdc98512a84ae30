"""A progress sheet of the invented studio, as a value and as a page in any language."""

from datetime import date
from typing import Any

from support.pages import STYLE
from support.phrases import SPOKEN, phrases_in
from support.pieces import given_line

from cockpit.papers.notes.page import page_frame
from cockpit.papers.pieces.progress import progress_body, progress_title
from cockpit.studio.changes.pieces import Piece
from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.history import done_times, histories
from cockpit.studio.pieces.progress_sheet import ProgressSheet, sheet_done, sheet_pieces

GIVEN = (
    given_line("08-25", "Piece: Last Year", Mark.DONE),
    given_line("10-06", "Piece: Gavotte", Mark.DONE),
    *(
        given_line(on, "Piece: The Old Mill q = 92, *whole* bows", Mark.MORE_WORK, tempo)
        for on, tempo in (("11-03", 60), ("11-10", 66), ("11-17", 72), ("11-24", 72))
    ),
    given_line("11-17", "Scales: D major h. = 40", None, 36),
    given_line("11-24", "Etude: no. 7"),
    given_line("11-24", "Theory: read page 12"),
)
SAID = {
    "old mill": Piece(student_id=StudentId(1), key="old mill", composer="A. Miller <x>", origin="Irish & more"),
    "gavotte": Piece(student_id=StudentId(1), key="gavotte", composer="T. Weaver"),
}


def progress_sheet(*, has_marks: bool = False, **values: Any) -> ProgressSheet:
    """Ilse's sheet of the fall, or what `values` make of it."""
    pieces = histories(GIVEN, SAID)
    usual: dict[str, Any] = {
        "student": "Ilse",
        "from_on": date(2026, 9, 1),
        "until_on": date(2026, 12, 1),
        "planned": 12,
        "attended": 11,
        "made_up": 1,
        "pieces": sheet_pieces(pieces, has_marks=has_marks),
        "done": sheet_done(done_times(pieces), date(2026, 9, 1)),
    }
    return ProgressSheet(**usual | values)


def progress_page(of: ProgressSheet, language: str = "en") -> str:
    """The sheet as a page."""
    phrases = SPOKEN.get(language) or phrases_in(language)
    return page_frame(progress_title(of, phrases), progress_body(of, phrases), STYLE, phrases.language)
