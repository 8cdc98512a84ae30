"""Theory typed in braces, on a family's paper: the words without their braces, the answer in its language, and the staff."""

import re
from collections.abc import Callable, Iterable, Iterator
from html import escape, unescape
from typing import TYPE_CHECKING

from cockpit.papers.words.phrases import Phrases
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.theory.lesson_theory import ANY_LESSON, CountingSystem, LessonTheory

Draw = Callable[[str, LessonTheory], "str | None"]
"""Draws the staff of what was asked in braces in a lesson, as SVG; None where it has none."""
MOST_STAVES = 12
_SECTION = re.compile(r'<section class="staves">\n(?P<heading>.*?)(?P<figures><figure .*?)</section>\n', re.DOTALL)
_FIGURE = re.compile(
    r'<figure data-asked="(?P<words>[^"]*)" data-for="(?P<instrument>[^"]*)" data-counting="(?P<counting>[^"]*)">'
    r"(?P<caption>.*?)</figure>\n",
    re.DOTALL,
)

if TYPE_CHECKING:
    from cockpit.studio.theory.reading import Answer


def no_staff(_words: str, _lesson: LessonTheory) -> None:
    """Draws nothing, as without the extra `staff`."""


def answers(text: str, phrases: Phrases, lesson: LessonTheory) -> tuple[str, ...]:
    """A line for each braces of a text that are understood: `= D E F♯ G A B C♯ D · 2 sharps: F♯ C♯`; of several, with their words."""
    told = _answered(text, phrases, lesson)
    return tuple(f"= {said}" if len(told) == 1 else f"{words} = {said}" for words, said in told)


def rows_of(answer: "Answer", phrases: Phrases) -> tuple[str, ...]:
    """An answer in the rows in which it is read; in English where the English file is gone."""
    from cockpit.wording.theory import answer_rows, say_in_english  # with 10 ms of patterns

    return answer_rows(answer, phrases.say if "theory.then" in phrases.by_key else say_in_english)


def without_asking(text: str) -> str:
    """A text without the braces that are understood."""
    if "}" not in text:
        return text
    from cockpit.studio.theory.braces import without_braces

    return without_braces(text)[0]


def with_answers(lines: Iterable[str], phrases: Phrases, lesson: LessonTheory = ANY_LESSON) -> Iterator[str]:
    """Lines without the braces that are understood, each with its answers below it."""
    for line in lines:
        told = answers(line, phrases, lesson)
        if told:
            yield without_asking(line)
            yield from told
        else:
            yield line


def places_of_staves(paper: PracticeNotes, phrases: Phrases) -> str:
    """What was asked in braces, with its answers, each as a place for its staff; nothing where nothing was.

    The staves are drawn when a page is made (`with_staves`): what is kept of it has their places alone.
    """
    lines = (*paper.notes.remarks, *(each.text for each in (*paper.notes.assignments, *paper.to_get, *paper.goals)))
    asked = dict(each for line in lines for each in _answered(line, phrases, paper.theory))
    if not asked:
        return ""
    lesson = paper.theory
    about = f'data-for="{escape(lesson.instrument or "")}" data-counting="{lesson.counting}"'
    places = "".join(
        f'<figure data-asked="{escape(words)}" {about}><figcaption><b>{escape(words)}</b> {escape(said)}</figcaption></figure>\n'
        for words, said in asked.items()
    )
    return f'<section class="staves">\n<h2>{escape(phrases.say("notes.staves"))}</h2>\n{places}</section>\n'


def with_staves(body: str, draw: Draw) -> str:
    """What stands on a page with its staves drawn, the first twelve; places that stay empty are left out."""
    return _SECTION.sub(lambda found: _drawn(found, draw), body)


def without_staves(body: str) -> str:
    """What stands on a page without the places of its staves: a mail program would show none."""
    return _SECTION.sub("", body)


def has_staves(body: str) -> bool:
    """Whether a page has staves, or places for them."""
    return '<section class="staves">' in body


def _answered(text: str, phrases: Phrases, lesson: LessonTheory) -> list[tuple[str, str]]:
    if "}" not in text or "theory.then" not in phrases.by_key:  # the English file is gone
        return []
    from cockpit.studio.theory.braces import braced_in  # with 10 ms of patterns, which no other paper waits for
    from cockpit.wording.theory import answer_rows

    found = [(each.words.strip(), each.answer) for each in braced_in(text, lesson)]
    return [(words, " · ".join(answer_rows(answer, phrases.say))) for words, answer in found if answer is not None]


def _drawn(section: re.Match[str], draw: Draw) -> str:
    figures: list[str] = []
    for place in _FIGURE.finditer(section["figures"]):
        lesson = LessonTheory(
            instrument=unescape(place["instrument"]) or None, counting=CountingSystem(place["counting"])
        )
        staff = draw(unescape(place["words"]), lesson) if len(figures) < MOST_STAVES else None
        if staff is not None:
            figures.append(f"<figure>{place['caption']}{staff}</figure>\n")
    return f'<section class="staves">\n{section["heading"]}{"".join(figures)}</section>\n' if figures else ""
