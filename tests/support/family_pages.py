"""The family's page as it is sent, for tests that open it: whatever is added to the page is added here."""

from datetime import date, timedelta

from support.pages import STYLE, STYLE_OF_SHEET
from support.papers import TRICKY, paper, planned
from support.phrases import IN_ENGLISH
from support.plans import NEXT_ON
from support.programs import LONG_TITLE, papers_page, program_page

from cockpit.papers.notes.page import practice_notes_page
from cockpit.papers.words.phrases import Phrases
from cockpit.printing.phrase_files import phrases_of
from cockpit.printing.staves import staff_asked
from cockpit.studio.people.people import PlanForm
from cockpit.studio.theory.lesson_theory import LessonTheory
from cockpit.studio.values import replace

TWELVE = """\
Warm-up: open strings, whole bows, 3 min
Warm-up: finger taps without the bow, 2 min
Scales: D major 2 oct, q = 72 to 88, 5 min
Scales: G minor mel. 2 oct, slurred by four, q = 60
Technique: shifts to 3rd position on the A string, 3x a day, listen for the ghost note
Etude: no. 5, mm. 1-16, detached, then slurred, q = 66
Method book: pp. 12-13, count aloud, 4 min
Piece: Bourrée, mm. 1-8 slowly, then 9-16, q = 72 -> 96, HS before HT
Piece: Berceuse, from letter B to the end, memory, see https://example.org/listen/berceuse?part=cello
Review: The Old Mill, once a day
Theory: page 7, the circle of fifths as far as A major
Sight-reading: one new line a day, never stop

The left hand is much freer now, and the thumb stays soft also in the fast measures.
C# is still a little low: use the 3rd finger, and sing it first.

Have a good week, and thank you for the lovely Berceuse!
"""
CHANGING = """\
Scales: B major and G# minor 4 oct, HT, q = 72 to 80, 6 min
Etude: no. 6, mm. 1-24, HT, q = 60 to 72
Piece: Berceuse, mm. 18-40, HT, e = 96, 15 min
Piece: Bourrée, mm. 17-40, q = 88 to 104
Review: The Old Mill

The hands are well apart now. Shape the left one as if it were the soprano.
"""
ASKED = (
    "D major", "chord F#7", "rhythm 4/4 q e e h", "key 3 sharps", "interval D F#", "chords in G", "A minor, 3 forms", "chromatic from C",
    "D major arpeggio 2 oct", "open strings guitar", "concert Bb for clarinet", "D dorian 4 oct",
)  # fmt: skip
MANY = 60
TWO_WEEKS = NEXT_ON + timedelta(days=7)
_WIDE = f"Piece: {'la' * 100}\nhttps://example.org/{'a_b' * 60}\n{'♩' * 200}\nPiece: שלום, {'-' * 200}\n"
_TRICKY = f"{TRICKY}{_WIDE}Piece: {'so' * 100}, q = 60 to 90"


def usual_week() -> str:
    """A week with twelve assignments, half an hour a day, and some remarks."""
    return practice_notes_page(planned(TWELVE), STYLE, IN_ENGLISH)


def changing_week() -> str:
    """Five assignments in a plan of which every day is another."""
    return practice_notes_page(planned(CHANGING), STYLE, IN_ENGLISH)


def chart_of(body: str, language: str = "en", next_on: date = NEXT_ON) -> str:
    """A week, or two, as a chart, in a language."""
    phrases = IN_ENGLISH if language == "en" else phrases_of(language, None)
    return practice_notes_page(planned(body, next_on=next_on, form=PlanForm.CHART), STYLE, phrases)


def usual_chart() -> str:
    """The week with twelve assignments as a chart."""
    return chart_of(TWELVE)


def changing_chart() -> str:
    """The five assignments as a chart, of two weeks."""
    return chart_of(CHANGING, next_on=TWO_WEEKS)


def bare_week() -> str:
    """A lesson without notes, and no lesson booked."""
    return practice_notes_page(paper("", is_booked_again=False), STYLE, IN_ENGLISH)


def asked_for(count: int, *, are_drawn: bool = True, form: PlanForm = PlanForm.CHART) -> str:
    """The week with twelve assignments, of which so many ask for theory, with its staves or with the words alone."""
    lines, remarks = TWELVE.split("\n\n", maxsplit=1)
    asked = (*(f" {{{each}}}" for each in ASKED[:count]), *[""] * (len(ASKED) - count))
    body = "\n".join(map("".join, zip(lines.split("\n"), asked, strict=True)))
    notes = planned(f"{body}\n\n{remarks}", form=form)

    def draw(words: str, lesson: LessonTheory) -> str | None:
        return staff_asked(words, lesson, IN_ENGLISH.say) if are_drawn else None

    return practice_notes_page(notes, STYLE_OF_SHEET, IN_ENGLISH, draw)


def staves_chart() -> str:
    """The same as a chart with every kind of a staff below it."""
    return asked_for(len(ASKED))


def tricky_week() -> str:
    """What looks like markup, words without a blank in 200 signs, and both directions of writing."""
    return practice_notes_page(planned(_TRICKY), STYLE, IN_ENGLISH)


def tricky_chart() -> str:
    """The same as a chart."""
    return chart_of(_TRICKY)


def heavy_week() -> str:
    """More than any sheet of paper holds."""
    return practice_notes_page(paper("Scales: D major, slowly\n" * MANY), STYLE, IN_ENGLISH)


def week_in(language: str) -> str:
    """The plan of which every day is another, in a language, its words made as long as any are."""
    phrases = phrases_of(language, None)
    long = {**phrases.by_key, "plan.every_day": "Donaudampfschifffahrtsgesellschaftskapitänspatentprüfungsvorbereitung"}
    notes = replace(planned(CHANGING), none_on=(NEXT_ON, NEXT_ON))
    return practice_notes_page(notes, STYLE, Phrases(language=language, by_key=long))


NOTES = {
    "usual": usual_week,
    "changing": changing_week,
    "bare": bare_week,
    "tricky": tricky_week,
    "usual chart": usual_chart,
    "changing chart": changing_chart,
    "staves chart": staves_chart,
    "tricky chart": tricky_chart,
}
WEEKS = NOTES | {
    "program": lambda: program_page(12, title=f"{LONG_TITLE}{'la' * 100}"),
    "papers of a recital": lambda: papers_page(8),
}
