"""The practice notes as plain text, for a terminal or a mail: the same words, no markup at all."""

from collections.abc import Iterable, Iterator

from cockpit.papers.notes import sentences
from cockpit.papers.notes.plan import plan_blocks, plan_lead
from cockpit.papers.words.phrases import Phrases
from cockpit.papers.words.typed import one_line
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.practice.week import WeekPlan


def practice_notes_text(paper: PracticeNotes, phrases: Phrases) -> str:
    """The practice notes of a lesson as plain text; what stands under a heading is indented by two blanks."""
    head = (sentences.title(paper, phrases), sentences.taught(paper, phrases), sentences.length(paper, phrases))
    blocks = [_block(map(one_line, head))]
    if paper.notes.assignments:
        given = (f"{sentences.assignment_label(line, phrases)} {line.text}" for line in paper.notes.assignments)
        blocks.append(_section(phrases.say("notes.assignments"), given))
    if paper.plan is not None:
        blocks.append(_section(phrases.say("plan.heading"), _plan(paper.plan, phrases)))
    if paper.notes.remarks:
        blocks.append(_section(phrases.say("notes.remarks"), paper.notes.remarks))
    blocks.append(_section(phrases.say("notes.next_lesson"), [sentences.next_lesson(paper, phrases)]))
    return "\n\n".join([*blocks, phrases.say("notes.caution")]) + "\n"


def _plan(plan: WeekPlan, phrases: Phrases) -> Iterator[str]:
    yield plan_lead(plan, phrases)
    for block in plan_blocks(plan, phrases):
        yield block.heading
        yield from (f"  {item}" for item in block.items)


def _section(heading: str, lines: Iterable[str]) -> str:
    return _block([heading, *(f"  {one_line(line)}" for line in lines)])


def _block(lines: Iterable[str]) -> str:
    return "\n".join(line.rstrip() for line in lines)
