"""The practice notes as Markdown (CommonMark 0.31.2) that reads well unrendered too."""

from cockpit.papers.notes import sentences
from cockpit.papers.notes.literal import literal, literal_inline, literal_line
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.practice.week import WeekPlan


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
