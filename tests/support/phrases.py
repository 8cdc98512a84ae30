"""The fixed phrases that tests look for on papers, and the words that a paper in another language must not have."""

import re
from collections.abc import Mapping
from pathlib import Path

from cockpit.papers.words.phrases import Phrases, read_phrases
from cockpit.printing.phrase_files import phrases_of
from cockpit.studio.clocks import words
from cockpit.studio.clocks.moments import WEEKDAYS

ROOT = Path(__file__).parents[2]
FILES = {path.stem: path.read_text(encoding="utf-8") for path in (ROOT / "themes" / "phrases").glob("*.toml")}
ENGLISH = read_phrases(FILES["en"])
IN_ENGLISH = Phrases(language="en", by_key=ENGLISH)
NO_PHRASES = Phrases(language="en", by_key={})
ASSIGNMENTS = ENGLISH["notes.assignments"]
REMARKS = ENGLISH["notes.remarks"]
NEXT_LESSON = ENGLISH["notes.next_lesson"]
PLAN = ENGLISH["plan.heading"]
CAUTION = ENGLISH["notes.caution"]
OTHERS = ("de", "es", "fr")
SPOKEN = {language: phrases_of(language, None) for language in OTHERS}
ENGLISH_WORDS = frozenset(
    word.lower()
    for phrase in (*ENGLISH.values(), *WEEKDAYS, *(day[:3] for day in WEEKDAYS), *words.MONTHS, "am pm")
    for word in re.findall(r"[^\W\d_]+", re.sub(r"\{\w*\}", " ", phrase))
)
# German and English write `in` and `April` alike, and so on: what each language says itself, from memory.
ITS_OWN = {
    "de": "in do april august september november",
    "es": "a no once",
    "fr": "dim",
}


def phrases_in(language: str, own: Mapping[str, str] | None = None) -> Phrases:
    """The phrases of a language that has but a few of its own."""
    return Phrases(language=language, by_key={**ENGLISH, **(own or {})})


def english_left(text: str, language: str) -> set[str]:
    """The words of a paper that are English, and no words of its language."""
    phrases = {key: phrase for key, phrase in read_phrases(FILES[language]).items() if not key.startswith("mail.")}
    theirs = {
        word.lower()
        for phrase in (*phrases.values(), ITS_OWN[language])
        for word in re.findall(r"[^\W\d_]+", re.sub(r"\{\w*\}", " ", phrase))
    }
    return {word.lower() for word in re.findall(r"[^\W\d_]+", text)} & (ENGLISH_WORDS - theirs)
