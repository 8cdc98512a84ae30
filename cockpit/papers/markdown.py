"""The practice notes as Markdown (CommonMark 0.31.2) that reads well unrendered too."""

from cockpit.papers import sentences
from cockpit.papers.literal import literal, literal_inline, literal_line
from cockpit.studio.practice_notes import CAUTION, PracticeNotes
from cockpit.studio.practice_week import WeekPlan


def practice_notes_markdown(paper: PracticeNotes) -> str:
    """The practice notes of a lesson as a Markdown document; sections without words are left out."""
    blocks = [
        f"# {literal_inline(sentences.title(paper))}",
        f"{literal_line(sentences.taught(paper))}  \n{literal_line(sentences.length(paper))}",
    ]
    if paper.notes.assignments:
        blocks += [f"## {sentences.ASSIGNMENTS}", _assignments(paper)]
    if paper.plan is not None:
        blocks += _plan(paper.plan)
    if paper.notes.remarks:
        blocks += [f"## {sentences.REMARKS}", literal("\n".join(paper.notes.remarks))]
    blocks += [f"## {sentences.NEXT_LESSON}", literal_line(sentences.next_lesson(paper)), "---", CAUTION]
    return "\n\n".join(blocks) + "\n"


def _assignments(paper: PracticeNotes) -> str:
    return "\n".join(
        f"- **{sentences.area_label(assignment)}:** {literal_inline(assignment.text)}"
        for assignment in paper.notes.assignments
    )


def _plan(plan: WeekPlan) -> list[str]:
    """A list of days, and in each a list of what it has."""
    from cockpit.papers.plan import PLAN, plan_blocks, plan_lead  # 5 ms, which opening the day need not pay

    lines: list[str] = []
    for block in plan_blocks(plan):
        lines.append(f"- **{block.heading}**")
        lines += [f"  - {literal_inline(item)}" for item in block.items]
    return [f"## {PLAN}", plan_lead(plan), "\n".join(lines)]
