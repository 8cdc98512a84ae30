"""What an assignment is called where it stands beside another that is practiced in turns with it."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

from cockpit.papers.notes.plan_names import names_of
from cockpit.papers.notes.sentences import area_label
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Assignment, Part

_LONGEST = 40


def turn_names(assignments: Iterable[Assignment], phrases: Phrases) -> Mapping[Assignment, str]:
    """A name for each assignment of a plan, as short as it can be while none of the others has it too.

    It is what a plan's item is called, or its area where that is long; where those do not tell it apart, with the
    measures that were typed, with its area, or at last the whole line.
    """
    every = tuple(dict.fromkeys(assignments))
    called = names_of(every)
    names = {each: tuple(_names(each, called[each].words, phrases)) for each in every}
    levels = [Counter(name.casefold() for name in level) for level in zip(*names.values(), strict=True)]
    return {
        each: next(
            (name for name, said in zip(own, levels, strict=True) if name and said[name.casefold()] == 1), own[-1]
        )
        for each, own in names.items()
    }


def _names(assignment: Assignment, words: str, phrases: Phrases) -> Iterator[str]:
    """The names of an assignment from the shortest on; an empty one is none."""
    label = area_label(assignment.area, phrases)
    short = words if 0 < len(words) <= _LONGEST else phrases.say(f"areas.{assignment.area}")
    measures = " ".join(
        assignment.text[each.begins : each.ends] for each in assignment.stretches if each.part is Part.MEASURES
    )
    yield short
    yield f"{short} {measures}" if measures and measures not in short else ""
    yield f"{label} {short}"
    yield words
    yield assignment.text
    yield f"{label} {assignment.text}"
