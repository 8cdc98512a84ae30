"""The practice notes as text: as Markdown (CommonMark 0.31.2) that reads well unrendered too, and plain, for a terminal or a mail."""

from collections.abc import Iterable, Iterator

from cockpit.papers.notes import sentences
from cockpit.papers.notes.literal import literal, literal_inline, literal_line
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.practice.week import WeekPlan
from cockpit.studio.shown import one_line


def practice_notes_markdown(paper: PracticeNotes, phrases: Phrases) -> str:
    """The practice notes of a lesson as a Markdown document; sections without words are left out."""
    when, how_long = sentences.taught(paper, phrases), sentences.length(paper, phrases)
    blocks = [
        f"# {literal_inline(sentences.title(paper, phrases))}",
        f"{literal_line(when)}  \n{literal_line(how_long)}",
    ]
    if paper.notes.assignments:
        blocks += [_heading("notes.assignments", phrases), _assignments(paper, phrases)]
    if paper.plan is not None:
        blocks += _plan(paper.plan, phrases)
    if paper.notes.remarks:
        blocks += [_heading("notes.remarks", phrases), literal("\n".join(paper.notes.remarks))]
    blocks += [_heading("notes.next_lesson", phrases), literal_line(sentences.next_lesson(paper, phrases))]
    return "\n\n".join([*blocks, "---", literal_line(phrases.say("notes.caution"))]) + "\n"


def _heading(key: str, phrases: Phrases) -> str:
    return f"## {literal_inline(phrases.say(key))}"


def _assignments(paper: PracticeNotes, phrases: Phrases) -> str:
    return "\n".join(
        f"- **{literal_inline(sentences.assignment_label(each, phrases))}** {literal_inline(each.text)}"
        for each in paper.notes.assignments
    )


def _plan(plan: WeekPlan, phrases: Phrases) -> list[str]:
    """A list of days, and in each a list of what it has."""
    from cockpit.papers.notes.plan import plan_blocks, plan_lead  # 5 ms, which opening the day need not pay

    lines: list[str] = []
    for block in plan_blocks(plan, phrases):
        lines.append(f"- **{literal_inline(block.heading)}**")
        lines += [f"  - {literal_inline(item)}" for item in block.items]
    return [_heading("plan.heading", phrases), literal_line(plan_lead(plan, phrases)), "\n".join(lines)]


def practice_notes_text(paper: PracticeNotes, phrases: Phrases) -> str:
    """The practice notes of a lesson as plain text; what stands under a heading is indented by two blanks."""
    head = (sentences.title(paper, phrases), sentences.taught(paper, phrases), sentences.length(paper, phrases))
    blocks = [_block(map(one_line, head))]
    if paper.notes.assignments:
        given = (f"{sentences.assignment_label(line, phrases)} {line.text}" for line in paper.notes.assignments)
        blocks.append(_section(phrases.say("notes.assignments"), given))
    if paper.plan is not None:
        blocks.append(_section(phrases.say("plan.heading"), _plan_in_lines(paper.plan, phrases)))
    if paper.notes.remarks:
        blocks.append(_section(phrases.say("notes.remarks"), paper.notes.remarks))
    blocks.append(_section(phrases.say("notes.next_lesson"), [sentences.next_lesson(paper, phrases)]))
    return "\n\n".join([*blocks, phrases.say("notes.caution")]) + "\n"


def _plan_in_lines(plan: WeekPlan, phrases: Phrases) -> Iterator[str]:
    from cockpit.papers.notes.plan import plan_blocks, plan_lead

    yield plan_lead(plan, phrases)
    for block in plan_blocks(plan, phrases):
        yield block.heading
        yield from (f"  {item}" for item in block.items)


def _section(heading: str, lines: Iterable[str]) -> str:
    return _block([heading, *(f"  {one_line(line)}" for line in lines)])


def _block(lines: Iterable[str]) -> str:
    return "\n".join(line.rstrip() for line in lines)
