"""What an assignment is called in a practice plan: short where that is sure, and else in the words that were typed.

The list above the plan has every line as it was typed; a plan's item names one of its lines, and tells of that day. Beside
another one that it is practiced in turns with, an assignment is called by a name that none of the others has.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping

from cockpit.papers.notes.sentences import assignment_label
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Assignment, Part, Stretch, Tempo
from cockpit.studio.assignments.tempo import BEAT_WORDS
from cockpit.studio.values import Value

_NAMING = frozenset({Part.TITLE, Part.NUMBER, Part.OPUS, Part.PAGES, Part.KEY, Part.OCTAVES, Part.HANDS})
_TOLD_APART = frozenset({Part.MEASURES, Part.TEMPO, Part.MINUTES, Part.DAYS, Part.IN_TURNS})
_GAP = re.compile(r"[\s,;]*")
_SIGNS = re.compile(r"[\s,;.:–—()\[\]-]*")
_JOINT = re.compile(r"[\s,;.:–—()\[\]-]*(?:(?:at|from)\s+)?", re.IGNORECASE)
# Words that mean nothing without what stands before them in their phrase.
_BOUND = re.compile(
    r"(?:only|of|to|plus|minus|then|and|or|but|after|before|if|unless|until|except|not|without|each)\b", re.IGNORECASE
)
_CUT = re.compile(r"[,;](?=\s|$)")
_WORDS = re.compile(r"[^\W\d_]+")
_AROUND = " \t,;"
_LONGEST_IN_TURNS = 40
# Words that lean on what stands before them: "5 min, then rest" is not "then rest".
_LEANING = re.compile(
    r"[\s,;]*(?:then|and|or|but|after|before|next|if|unless|until|except|not|without|each)\b", re.IGNORECASE
)


class Called(Value):
    """What an assignment is called, without its area; `says` are the parts that these words tell of themselves.

    `has_other_numbers` where the measures or tempos that were understood are not sure to be all.
    """

    words: str
    says: frozenset[Part] = frozenset()
    has_other_numbers: bool = False


def names_of(assignments: Iterable[Assignment]) -> Mapping[Assignment, Called]:
    """What each assignment of a plan is called; no two of an area by the same short name."""
    every = tuple(dict.fromkeys(assignments))
    heads = {assignment: _head(assignment) for assignment in every}
    keys = [_key(assignment, head) for assignment, head in heads.items()]
    return {
        assignment: Called(words=head, has_other_numbers=assignment.has_other_numbers)
        if head and keys.count(_key(assignment, head)) == 1
        else _typed(assignment)
        for assignment, head in heads.items()
    }


def name_and_how(assignment: Assignment, told: frozenset[Part], tempo: Callable[[Tempo], str]) -> tuple[str, str]:
    """A line as its name and how it is done, without the parts that are `told` elsewhere, where a phrase begins with them.

    The name is what surely is one, else the first of the phrases; a phrase that leans on one before it stays with it.
    No other word is left out but those that join such parts. A tempo that stays is said by `tempo`.
    """
    text, stretches = assignment.text, assignment.stretches
    head = _head(assignment)
    at = text.index(head) + len(head) if head else 0
    kept = [
        text_in_words(assignment, tempo, _past_told(text, begins, ends, stretches, told), ends).strip(_AROUND)
        for begins, ends in _cuts(assignment, at)
    ]
    kept = [each for each in kept if each]
    if not head:
        head, kept = (kept[0], kept[1:]) if kept else ("", [])
        while kept and _LEANING.match(kept[0]):
            head, kept = f"{head}, {kept[0]}", kept[1:]
    return head, ", ".join(kept)


def text_in_words(
    assignment: Assignment, tempo: Callable[[Tempo], str], begins: int = 0, ends: int | None = None
) -> str:
    """A stretch of a line as it was typed, with a tempo of a named beat ("q = 60") as `tempo` says it."""
    text, ends = assignment.text, len(assignment.text) if ends is None else ends
    marks = [each for each in assignment.stretches if each.part is Part.TEMPO]
    if assignment.tempo is not None and len(marks) == 1 and begins <= marks[0].begins and marks[0].ends <= ends:
        mark = marks[0]
        typed = text[mark.begins : mark.ends]
        if BEAT_WORDS & {word.casefold() for word in _WORDS.findall(typed)}:
            return f"{text[begins : mark.begins]}{tempo(assignment.tempo)}{text[mark.ends : ends]}"
    return text[begins:ends]


def _cuts(assignment: Assignment, at: int) -> Iterator[tuple[int, int]]:
    """Where the phrases of a line from a place on begin and end."""
    text = assignment.text
    cuts = [cut.start() for cut in _CUT.finditer(text, at) if not _is_within(cut.start(), assignment.stretches)]
    return zip([at, *(cut + 1 for cut in cuts)], [*cuts, len(text)], strict=True)


def _past_told(text: str, begins: int, ends: int, stretches: Iterable[Stretch], told: frozenset[Part]) -> int:
    """Where a phrase goes on behind the parts that it begins with and that are told; its end where it has no more.

    What leans on them, within the phrase or behind it, keeps them in their place.
    """
    at = begins
    for each in stretches:
        if (
            each.part in told
            and begins <= each.begins
            and each.ends <= ends
            and _JOINT.fullmatch(text, at, each.begins)
        ):
            at = each.ends
    if at == begins:
        return begins
    signs = _SIGNS.match(text, at, ends)
    rest = signs.end() if signs is not None else at
    is_bound = _LEANING.match(text, ends) if rest == ends else _BOUND.match(text, rest, ends)
    opened = text[begins:rest]
    is_whole = opened.count("(") == opened.count(")") and opened.count("[") == opened.count("]")
    return begins if is_bound or not is_whole else rest


def turn_names(assignments: Iterable[Assignment], phrases: Phrases) -> Mapping[Assignment, str]:
    """A name for each assignment of a plan, as short as it can be while none of the others has it too.

    It is what a plan's item is called, or its area where that is long; where those do not tell it apart, with the
    measures that were typed, with its area, or at last the whole line.
    """
    every = tuple(dict.fromkeys(assignments))
    called = names_of(every)
    names = {each: tuple(_names_in_turns(each, called[each].words, phrases)) for each in every}
    levels = [Counter(name.casefold() for name in level) for level in zip(*names.values(), strict=True)]
    return {
        each: next(
            (name for name, said in zip(own, levels, strict=True) if name and said[name.casefold()] == 1), own[-1]
        )
        for each, own in names.items()
    }


def _names_in_turns(assignment: Assignment, words: str, phrases: Phrases) -> Iterator[str]:
    """The names of an assignment from the shortest on; an empty one is none."""
    label = assignment_label(assignment, phrases)
    is_short = 0 < len(words) <= _LONGEST_IN_TURNS
    short = words if is_short else assignment.own_label or phrases.say(f"areas.{assignment.area}")
    measures = " ".join(
        assignment.text[each.begins : each.ends] for each in assignment.stretches if each.part is Part.MEASURES
    )
    yield short
    yield f"{short} {measures}" if measures and measures not in short else ""
    yield f"{label} {short}"
    yield words
    yield assignment.text
    yield f"{label} {assignment.text}"


def _key(assignment: Assignment, head: str) -> tuple[str, str]:
    return str(assignment.area), head.casefold()


def _head(assignment: Assignment) -> str:
    """The name that a line begins with: a title, a number, a key, pages; empty where it is not sure to be one."""
    ends, parts = 0, set()
    for stretch in assignment.stretches:
        if stretch.part not in _NAMING or not _GAP.fullmatch(assignment.text, ends, stretch.begins):
            break
        ends = stretch.ends
        parts.add(stretch.part)
    rest = assignment.text[ends:]
    begins_anew = any(
        each.part in _TOLD_APART and _GAP.fullmatch(assignment.text, ends, each.begins)
        for each in assignment.stretches
        if each.begins >= ends
    )
    is_sure = Part.TITLE in parts or begins_anew or _CUT.match(rest) or not rest.strip()
    return assignment.text[:ends].strip() if parts and is_sure else ""


def _typed(assignment: Assignment) -> Called:
    """The typed words without the whole phrases that the plan tells itself."""
    is_unsure = assignment.has_other_numbers
    told_apart = _TOLD_APART - {Part.MEASURES, Part.TEMPO} if is_unsure else _TOLD_APART
    phrases = tuple(_phrases(assignment, told_apart))
    said = frozenset(part for phrase in phrases for part in phrase.parts if not phrase.tells_one_thing)
    kept = [phrase for phrase in phrases if not phrase.tells_one_thing or phrase.parts & said]
    words = ", ".join(phrase.text for phrase in kept) if len(kept) < len(phrases) else assignment.text
    says = frozenset(part for phrase in kept for part in phrase.parts)
    return Called(words=words, says=says, has_other_numbers=is_unsure)


class _Phrase(Value):
    """What stands between two commas; `tells_one_thing` where it is nothing but one part that a plan tells itself."""

    text: str
    parts: frozenset[Part]
    tells_one_thing: bool


def _phrases(assignment: Assignment, told_apart: frozenset[Part]) -> Iterator[_Phrase]:
    text = assignment.text
    for begins, ends in _cuts(assignment, 0):
        inside = [each for each in assignment.stretches if begins <= each.begins and each.ends <= ends]
        parts = frozenset(each.part for each in inside)
        is_alone = len(inside) == 1 and bool(
            _SIGNS.fullmatch(text, begins, inside[0].begins) and _SIGNS.fullmatch(text, inside[0].ends, ends)
        )
        yield _Phrase(
            text=text[begins:ends].strip(),
            parts=parts,
            tells_one_thing=is_alone and parts <= told_apart and not _LEANING.match(text, ends),
        )


def _is_within(at: int, stretches: Iterable[Stretch]) -> bool:
    return any(stretch.begins <= at < stretch.ends for stretch in stretches)
