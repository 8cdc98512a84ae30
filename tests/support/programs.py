"""Papers of recitals as they are sent, for tests that open or read them."""

from datetime import datetime
from fractions import Fraction

from support.pages import STYLE, THEMES
from support.phrases import IN_ENGLISH

from cockpit.papers.notes.page import page_frame
from cockpit.papers.recital.program import program_body, sheet_body, sheet_title
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.people.people import Family, FamilyId
from cockpit.studio.post.letters import TimeThere
from cockpit.studio.recital.papers import FamilyProgram, OwnItem, PublicItem, PublicProgram, RehearsalTold

STYLE_OF_PROGRAM = STYLE + (THEMES / "program.css").read_text(encoding="utf-8")
NOON = TimeThere(at=datetime(2026, 12, 19, 12), zone="America/Chicago")
RIGHT_TO_LEFT = "דורון"
_NAMES = ("Ishaan", "Teodor", "Wren", None, "Ilse", "Eilidh", "Nalani", RIGHT_TO_LEFT, "Mireille")
_PIECES = ("Paper Boats", "Lantern Song", "Two Sparrows in the Winter Garden")
_STORIES = ("the mill that would not stop, and the miller who slept through it all", "two sparrows share one crumb")
LONG_TITLE = "Variations on a very long title indeed, " * 7 + "and on its end so far"


def program_with(items: int, title: str | None = None) -> PublicProgram:
    """A program of so many items; the second one has a `title` of its own."""
    listed = tuple(
        PublicItem(
            number=each + 1,
            names=(_NAMES[each % 9],) if each % 5 else (_NAMES[each % 9], _NAMES[(each + 3) % 9]),
            instrument=("cello", "guitar", "clarinet")[each % 3],
            piece=title if title is not None and each == 1 else _PIECES[each % 3],
            composer="traditional" if each % 2 else None,
            story=_STORIES[each % 2],
        )
        for each in range(items)
    )
    return PublicProgram(
        name="Winter tales", theme="snow and night", starts=NOON, is_online=True, place=None, items=listed
    )


def papers_of(items: int) -> FamilyProgram:
    """What a family gets, with everything in it that there can be."""
    own = OwnItem(
        number=5,
        student="Ilse",
        piece="The Old Mill",
        composer="traditional",
        instrument="cello",
        starts=NOON,
        has_track=True,
        with_whom=None,
        partners=(None, RIGHT_TO_LEFT),
        enters="from the left",
        costume="miller's apron",
        props="flour sack",
        story="the mill that would not stop",
        goal=Tempo(beat=Fraction(1), goal=80),
    )
    return FamilyProgram(
        family=Family(id=FamilyId(1), name="Brandvold", zone="America/Chicago"),
        program=program_with(items),
        be_there=NOON,
        link="https://call.example.org/winter",
        own=(own,),
        rehearsals=(RehearsalTold(starts=NOON, link=None, place="the hall"),),
        held=TimeThere(at=datetime(2026, 12, 20), zone="Asia/Kolkata"),
        changed_on=NOON.at.date(),
    )


def program_page(items: int, phrases: Phrases = IN_ENGLISH, title: str | None = None) -> str:
    """The page of a program to be folded."""
    body = program_body(program_with(items, title), 12, phrases)
    return page_frame("Winter tales", body, STYLE_OF_PROGRAM, phrases.language)


def papers_page(items: int, phrases: Phrases = IN_ENGLISH) -> str:
    """The page that goes to a family."""
    papers = papers_of(items)
    return page_frame(sheet_title(papers, phrases), sheet_body(papers, 12, phrases), STYLE_OF_PROGRAM, phrases.language)
