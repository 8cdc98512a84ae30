"""The rows of the inquiries: who asks and what is next, the waiting list and who fits, what was closed, and the counts."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.inquiries.inquiring import InquiriesView
from cockpit.screens.look.show import HAPPENED, NEEDS_HER, NOT, OPEN, WIDEST, cut_at_word, hung, placed, role
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import city
from cockpit.studio.inquiries.inquiry import InquiryState
from cockpit.studio.inquiries.to_do import InquiryStanding
from cockpit.wording.inquiries import counts_lines, fit_words, next_step, opening_words, who_asks

_GAP = 2
_LONGEST_WHO, _LONGEST_WHAT = 30, 26


def inquiry_options(view: InquiriesView, home: TeacherClock, width: int) -> list[Option]:
    """All rows in so many columns; the id of a row is the number of its inquiry. Groups without rows are left out."""
    width = min(width, WIDEST)
    columns = _Columns(view, home, width)
    due = [each for each in view.open if each.is_due]
    later = [each for each in view.open if not each.is_due]
    leaving = {each.course.inquiry.id for each in view.leaving}
    closed = [each for each in view.closed if each.course.inquiry.id not in leaving]
    options = [
        *columns.group("to do", due),
        *columns.group("going on", later),
        *columns.group("waiting list", view.waiting),
        *_openings(view, home, width),
    ]
    options += columns.group("closed long ago, deleted soon", view.leaving)
    options += columns.group("closed in the last 30 days", closed)
    lines = counts_lines(view.counts)
    if lines:
        options.append(group(f"since {view.since:%B} {view.since.day}", width))
        quiet = role("quiet")
        options += [
            Option(Content("\n").join(hung(Content.styled(line, quiet), width)), disabled=True) for line in lines
        ]
    return options


def _openings(view: InquiriesView, home: TeacherClock, width: int) -> list[Option]:
    today = home.date_of(view.now)
    options: list[Option] = []
    for opening in view.openings:
        words = f"free  {opening_words(opening, home, today)}"
        lines = hung(Content.styled(words, role("text")), width)
        for inquiry, fit in opening.fits:
            lines += hung(
                Content.styled(f"      {inquiry.learner} {fit_words(fit, opening, home, today)}", role("quiet")), width
            )
        options.append(Option(Content("\n").join(lines), disabled=True))
    return options


class _Columns:
    """Where who asks, what, and the next step stand; where there is no room, the next step has a row of its own."""

    def __init__(self, view: InquiriesView, home: TeacherClock, width: int) -> None:
        self._home = home
        self._width = width
        self._view = view
        shown = (*view.open, *view.waiting, *view.closed, *view.leaving)
        self._who = min(_LONGEST_WHO, max((cell_len(who_asks(each.course.inquiry)) for each in shown), default=0))
        self._what = min(_LONGEST_WHAT, max((cell_len(_what(each)) for each in shown), default=0))
        longest = max((cell_len(next_step(each, view.now, home)) for each in shown), default=0)
        self._is_one = 2 + self._who + _GAP + self._what + _GAP + longest <= width

    def group(self, words: str, standings: Sequence[InquiryStanding]) -> list[Option]:
        """A group of inquiries below its heading; nothing where there are none."""
        rows = [Option(self.row(each), id=str(each.course.inquiry.id)) for each in standings]
        return [group(words, self._width, len(rows)), *rows] if rows else []

    def row(self, standing: InquiryStanding) -> Content:
        """An inquiry, with its sign."""
        sign, style = _sign(standing)
        name = role("text", "bold") if standing.state is not InquiryState.CLOSED else role("quiet")
        said = next_step(standing, self._view.now, self._home)
        who, what = who_asks(standing.course.inquiry), _what(standing)
        told = style if standing.is_due else role("quiet")
        if self._is_one:
            at = 2 + self._who + _GAP
            return placed(
                self._width,
                (0, sign, style),
                (2, cut_at_word(who, self._who), name),
                (at, cut_at_word(what, self._what), role("quiet")),
                (at + self._what + _GAP, said, told),
            )
        room = self._width - 2
        lines = [Content.assemble((f"{sign} ", style), (cut_at_word(who, room), name))]
        beside = f"  {what}" if cell_len(who) + cell_len(what) + _GAP <= room else ""
        lines[0] = Content.assemble(lines[0], (beside, role("quiet")))
        below = said if beside or not what else f"{said}  {what}"
        lines += [Content("  ") + line for line in hung(Content.styled(below, told), room)]
        return Content("\n").join(lines)


def _what(standing: InquiryStanding) -> str:
    """The instrument and the city."""
    inquiry = standing.course.inquiry
    return "  ".join(
        filter(None, (" and ".join(inquiry.instruments), city(inquiry.zone) if inquiry.zone is not None else ""))
    )


def _sign(standing: InquiryStanding) -> tuple[str, str]:
    if standing.is_due:
        return NEEDS_HER, role("warning", "bold")
    if standing.state is InquiryState.CLOSED:
        return NOT, role("cancelled", "bold")
    return (HAPPENED, role("finished")) if standing.state is InquiryState.TRIED else (OPEN, role("text"))
