"""The practice notes as plain text, for a terminal or a mail: the same words, no markup at all."""

from collections.abc import Iterable, Iterator

from cockpit.papers import sentences
from cockpit.papers.plan import PLAN, plan_blocks, plan_lead
from cockpit.papers.typed import one_line
from cockpit.studio.practice_notes import CAUTION, PracticeNotes
from cockpit.studio.practice_week import WeekPlan


def practice_notes_text(paper: PracticeNotes) -> str:
    """The practice notes of a lesson as plain text; what stands under a heading is indented by two blanks."""
    blocks = [_block(map(one_line, (sentences.title(paper), sentences.taught(paper), sentences.length(paper))))]
    if paper.notes.assignments:
        given = (f"{sentences.area_label(line)}: {line.text}" for line in paper.notes.assignments)
        blocks.append(_section(sentences.ASSIGNMENTS, given))
    if paper.plan is not None:
        blocks.append(_section(PLAN, _plan(paper.plan)))
    if paper.notes.remarks:
        blocks.append(_section(sentences.REMARKS, paper.notes.remarks))
    blocks.append(_section(sentences.NEXT_LESSON, [sentences.next_lesson(paper)]))
    return "\n\n".join([*blocks, CAUTION]) + "\n"


def _plan(plan: WeekPlan) -> Iterator[str]:
    yield plan_lead(plan)
    for block in plan_blocks(plan):
        yield block.heading
        yield from (f"  {item}" for item in block.items)


def _section(heading: str, lines: Iterable[str]) -> str:
    return _block([heading, *(f"  {one_line(line)}" for line in lines)])


def _block(lines: Iterable[str]) -> str:
    return "\n".join(line.rstrip() for line in lines)
