"""Theory that was typed in braces, on a family's paper: the words without their braces, and the answer in its language."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from cockpit.papers.words.phrases import Phrases

if TYPE_CHECKING:
    from cockpit.studio.theory.reading import Answer


def answers(text: str, phrases: Phrases) -> tuple[str, ...]:
    """A line for each braces of a text that are understood: `= D E F♯ G A B C♯ D · 2 sharps: F♯ C♯`; of several, with their words."""
    if "}" not in text or "theory.then" not in phrases.by_key:  # the English file is gone
        return ()
    from cockpit.studio.theory.braces import braced_in  # with 10 ms of patterns, which no other paper waits for
    from cockpit.wording.theory import answer_rows

    found = [(each.words.strip(), each.answer) for each in braced_in(text)]
    told = [(words, " · ".join(answer_rows(answer, phrases.say))) for words, answer in found if answer is not None]
    return tuple(f"= {said}" if len(told) == 1 else f"{words} = {said}" for words, said in told)


def rows_of(answer: "Answer", phrases: Phrases) -> tuple[str, ...]:
    """An answer in the rows in which it is read; in English where the English file is gone."""
    from cockpit.wording.theory import answer_rows, say_in_english  # with 10 ms of patterns

    return answer_rows(answer, phrases.say if "theory.then" in phrases.by_key else say_in_english)


def with_answers(lines: Iterable[str], phrases: Phrases) -> Iterator[str]:
    """Lines without the braces that are understood, each with its answers below it."""
    for line in lines:
        told = answers(line, phrases)
        if told:
            from cockpit.studio.theory.braces import without_braces

            yield without_braces(line)[0]
            yield from told
        else:
            yield line
