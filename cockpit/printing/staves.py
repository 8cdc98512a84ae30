"""Engraves answers of music theory as SVG; the only module that knows Verovio, which is there with the extra `staff` alone."""

import re
from functools import cache, lru_cache
from hashlib import sha256
from html import escape
from threading import Lock
from typing import TYPE_CHECKING

from cockpit.studio.theory.counting import Counted
from cockpit.studio.theory.lesson_theory import LessonTheory
from cockpit.studio.theory.reading import Answer, Unclear, read_theory, staff_asked_for
from cockpit.studio.theory.staff import staff_lines
from cockpit.wording.theory import Say, answer_rows, say_in_english, syllables

if TYPE_CHECKING:
    from verovio import toolkit

# Pinned: the same text gives the same bytes, and nothing around the staff but a little air.
_OPTIONS = {
    "svgViewBox": True, "svgFormatRaw": True, "adjustPageHeight": True, "adjustPageWidth": True, "breaks": "encoded",
    "header": "none", "footer": "none", "font": "Leland", "scale": 40, "pageWidth": 10_000, "pageMarginLeft": 0,
    "pageMarginRight": 0, "pageMarginTop": 20, "pageMarginBottom": 20, "lyricSize": 4.0, "lyricWordSpace": 3.0,
    "spacingSystem": 2, "spacingLinear": 0.3,
}  # fmt: skip
_HEAD = re.compile(r'<svg viewBox="0 0 (?P<width>\d+) (?P<height>\d+)"[^>]*>\s*<desc>[^<]*</desc>')
_MILLIMETERS = 0.25  # of a unit of the view box: a staff is 8 mm high, as in music for children
_ONE_AT_A_TIME = Lock()
_MOST_SEEDS = 1 << 31


def staff_svg(answer: Answer, instrument: str | None = None, say: Say = say_in_english) -> str | None:
    """An answer as a staff of an instrument, an SVG element with a title and a description in the words of `say`.

    None where it has no notes, where a measure of a rhythm is wrong, or without Verovio.
    """
    mei = _mei(answer, instrument, say)
    drawn = _drawn(mei) if mei is not None else None
    if drawn is None:
        return None
    title = escape(" · ".join(answer_rows(answer, say)))
    return drawn.replace(
        "<desc/>", f"<title>{title}</title><desc>{escape(_described(answer, instrument, say))}</desc>", 1
    )


def staff_asked(words: str, lesson: LessonTheory, say: Say) -> str | None:
    """The staff of what was asked in braces in a lesson, on that of the instrument that it names."""
    answer = read_theory(words, lesson)
    return staff_svg(answer, staff_asked_for(words, lesson), say) if not isinstance(answer, Unclear) else None


def load_engraver() -> None:
    """Loads Verovio, if it is there, on a thread before the first staff is asked for: no key waits longer than 20 ms for it."""
    with _ONE_AT_A_TIME:
        _engraver()


def _described(answer: Answer, instrument: str | None, say: Say) -> str:
    if isinstance(answer, Counted):
        return say("theory.one_line")
    clefs = dict.fromkeys(line.clef for line in staff_lines(answer, instrument))
    return ", ".join(say(f"theory.{each}_clef") for each in clefs)


def _mei(answer: Answer, instrument: str | None, say: Say) -> str | None:
    from cockpit.papers.notes.mei import rhythm_mei, staff_mei

    if isinstance(answer, Counted):
        return rhythm_mei(answer, syllables(answer, say)) if not answer.faults else None
    lines = staff_lines(answer, instrument)
    return staff_mei(lines) if lines else None


@lru_cache(maxsize=64)  # a paper goes out in several forms, and the board is drawn at each change
def _drawn(mei: str) -> str | None:
    with _ONE_AT_A_TIME:  # papers are made by keys, and the board by a thread
        engraver = _engraver()
        if engraver is None:
            return None
        engraver.resetXmlIdSeed(int.from_bytes(sha256(mei.encode()).digest()[:4]) % _MOST_SEEDS)
        svg = engraver.renderToSVG(1) if engraver.loadData(mei) else ""
    found = _HEAD.match(svg)
    if found is None:
        return None
    width, height = (f"{int(found[side]) * _MILLIMETERS:.1f}mm" for side in ("width", "height"))
    identity = re.search(r' id="\w+"', found[0])
    head = (
        f'<svg role="img" width="{width}" height="{height}" viewBox="0 0 {found["width"]} {found["height"]}" '
        f'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"{identity[0] if identity else ""}>'
    )
    return f"{head}<desc/>{svg[found.end() :].strip()}"


@cache
def _engraver() -> "toolkit | None":
    """Verovio, loaded when the first staff is drawn: 80 ms and 26 MB, which no other paper pays."""
    try:
        import verovio
    except ImportError:  # the extra is not installed: papers have the words
        return None
    verovio.enableLog(verovio.LOG_OFF)
    engraver = verovio.toolkit()
    engraver.setOptions(_OPTIONS)
    return engraver
