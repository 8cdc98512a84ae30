"""What is learned from a line of notes: what follows what in it, and how its numbers may go on."""

from collections.abc import Sequence

from cockpit.studio.completion.habits import Counting
from cockpit.studio.completion.number_changes import changes, moved_on
from cockpit.studio.completion.steps import END, Opening, contexts, opening_contexts, opening_of, shape_of, steps_of

_LONGEST_LINE = 300
_MOVED_ON = 0.25
# Of one piece the newest line counts; of ways to write in general, many weeks do.
_OF_TOPIC_AGING = 8.0
_OF_TOPIC = frozenset({4, 6, 7, 8, 9})


def learn_opening(counting: Counting, line: str, above: Opening, weight: float) -> Opening:
    """Learns how a line begins, with its label only where it has one, after the line above it; returns its opening."""
    opening = opening_of(f"{line[:_LONGEST_LINE]} ")
    first = opening.typed.rstrip() + " " if opening.label else (steps_of(line[:_LONGEST_LINE]) or [END])[0]
    for context in opening_contexts(above):
        counting.add(context, first, weight)
    return opening


def learn_line(counting: Counting, line: str, weight: float, pace: Sequence[float] | None = None) -> None:
    """Learns what follows what in a line behind its label; with a `pace` its numbers may go on from there."""
    line = line[:_LONGEST_LINE]
    opening = opening_of(f"{line} ")
    steps = steps_of(line.rstrip()[len(opening.typed) :])
    whole = ""
    last = len(steps) - 1
    for at in range(len(steps) + 1):
        step = _step(steps, at, last)
        before = steps[:at]
        topic = opening.topic if at else ""
        ways = changes(before, step, steps[at + 1] if at < last else "", pace) if pace else ((step, 1.0),)
        for context in contexts(opening, topic, before, whole):
            here = weight**_OF_TOPIC_AGING if context[0] in _OF_TOPIC else weight
            for way, share in ways:
                counting.add(context, way, here * share)
        if pace and at and (further := moved_on(before, step)) is not None:
            context = contexts(opening, topic, [*before[:-1], further[0]], whole)[-1]
            counting.add(context, further[1], weight * _MOVED_ON)
        if step.endswith(END):
            return
        whole += shape_of(step)


def _step(steps: Sequence[str], at: int, last: int) -> str:
    """The step at a place; signs behind the last word belong to the end of the line."""
    if at > last:
        return END
    is_end = at == last and not steps[at][-1].isalnum()
    return steps[at] + END if is_end else steps[at]
