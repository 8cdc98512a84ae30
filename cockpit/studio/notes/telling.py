"""What is said of the lines of a note: what looks like a label and is none, and how what was given went."""

from collections.abc import Sequence

from cockpit.studio.clocks.words import listed
from cockpit.studio.notes.labels import why_no_label
from cockpit.studio.notes.notes import Line, Mark, NoteLine
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels

_MOST_NAMED = 2
_SEVERAL = {
    "is no label": "are no labels", "has no colon": "have no colon", "keeps nothing back": "keep nothing back",
    "does not begin its line": "do not begin their lines",
}  # fmt: skip


def no_label_sentence(words: Sequence[str], labels: Labels = BUILT_IN) -> str:
    """What she is told of words that look like labels: `'Mum:' is no label: the family will read this line`.

    Of many the first two are named, those without a colon first, so that the sentence is read whole.
    """
    if len(words) > _MOST_NAMED:
        bare_first = sorted(words, key=lambda each: each.endswith(":"))
        named = ", ".join(f"'{each}'" for each in bare_first[:_MOST_NAMED])
        return f"{named}, and {len(words) - _MOST_NAMED} more are no labels: the family will read these lines."
    by_reason: dict[str, list[str]] = {}
    for each in words:
        by_reason.setdefault(why_no_label(each, labels), []).append(f"'{each}'")
    return " ".join(
        f"{listed(names)} {why if len(names) == 1 else _SEVERAL[why]}: "
        f"the family will read {'this line' if len(names) == 1 else 'these lines'}."
        for why, names in by_reason.items()
    )


_WORDS = {
    Line.TO_GET: {Mark.DONE: "got", Mark.DROPPED: "not needed"},
    Line.GOAL: {Mark.DONE: "met", Mark.DROPPED: "dropped"},
    Line.ASSIGNMENT: {mark: str(mark) for mark in Mark},
}


def marks_of(line: NoteLine) -> tuple[Mark, ...]:
    """The marks that an assignment can have, or a thing to get, or a goal."""
    return tuple(_WORDS[line.line])


def mark_words(line: NoteLine, mark: Mark) -> str:
    """A mark in words: `done`, of a thing to get `got`, of a goal `met`."""
    return _WORDS[line.line].get(mark, str(mark))
