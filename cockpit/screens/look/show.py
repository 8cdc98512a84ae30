"""Roles, signs and rows that more than one screen shows; no widget, so that each can be looked at by itself."""

import re
from collections.abc import Iterable
from datetime import datetime

from rich.cells import cell_len, set_cell_size
from textual.content import Content

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.countdown import Phase
from cockpit.studio.lessons.lesson import Lesson, State, in_words
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.wording.outbox import STATUS_WORDS

HAPPENED, OPEN, MORE_WORK, NOW, NOT, NEEDS_HER = "●", "○", "◐", "▶", "×", "!"
PRIVATE, REMEMBER, FREE, CHOSEN, BREAK, CHANGES, WITH = "▒", "»", "┊", "›", "╱", "±", "└"
"""The signs, each with one meaning on every screen; the guide's page on the lesson lists them."""

AS_PLANNED = frozenset({HAPPENED, OPEN, NOW})
"""The signs of a lesson that goes as planned; each of the others has its word beside it."""

Piece = tuple[int, str, str]
"""A part of a row: its column, its words, and their style."""

WIDEST = 110
"""Columns that a row in a list has at most: what stands at its right end is still seen with its beginning."""

_EXPECTED = {
    State.BOOKED: (OPEN, "text"),
    State.RUNNING: (NOW, "clock_running"),
    State.FINISHED: (HAPPENED, "finished"),
}
"""What a lesson is when all is as planned: a sign says it, and no word."""

CLOCK_ROLES = {
    Phase.RUNNING: "clock_running",
    Phase.WRAP_UP: "clock_wrap_up",
    Phase.OVER: "clock_over",
    Phase.BEFORE: "clock_waiting",
    Phase.WAITING: "clock_wrap_up",
    Phase.FREE: "clock_waiting",
    Phase.NO_LESSONS: "clock_waiting",
}
"""The color of now, by what the clock counts."""

_KEPT_TOGETHER = re.compile(
    r"""\b[\w.]{1,9}=\d+[ ]to[ ]\d+                  # q=76 to 92
    | \b(?:mm?|pp?|nos?|op|page|bar|measure)s?\.?[ ]\d[\d-]*    # mm. 17-40, no. 7
    | \b\d{1,2}(?::\d\d)?[ ][ap]m\b                          # 4:30 pm
    | \b\d+(?:[.,]\d+)?[ ](?:min|minutes?|oct|octaves?|times?|days?|weeks?|bpm|clean)\b""",
    re.VERBOSE | re.IGNORECASE,
)
"""A number with its unit, which stays on one line with it."""
_JOINT = "\ue000"  # stands for a blank that no line may end at; Textual ends lines at a no-break space too

_HALF_DAYS = 12  # hours of a clock whose halves are named
_HERS_TO_SETTLE = frozenset({DeliveryStatus.UNSURE, DeliveryStatus.REFUSED})


def role(name: str, *more: str) -> str:
    """The style of a role of the theme, with text attributes after it."""
    return " ".join((f"$role-{name.replace('_', '-')}", *more))


def state_sign(state: State) -> tuple[str, str]:
    """The sign of a lesson's state, and its style."""
    if state in _EXPECTED:
        sign, name = _EXPECTED[state]
        return sign, role(name)
    if state is State.OVER_TIME:
        return NOW, role("clock_over")
    if state is State.NOT_MARKED:
        return NEEDS_HER, role("warning", "bold")
    return NOT, role("absent" if state is State.ABSENT else "cancelled", "bold")


def status_word(fate: DeliveryStatus) -> tuple[str, str]:
    """What keeps notes from having gone out, and its style; the sign beside it is NEEDS_HER."""
    return STATUS_WORDS[fate], role("error" if fate in _HERS_TO_SETTLE else "warning", "bold")


def state_words(state: State) -> tuple[str, str]:
    """A lesson's state with its sign, and a word where it is not as planned; and the style of both."""
    sign, style = state_sign(state)
    return (sign if state in _EXPECTED else f"{sign} {in_words(state)}"), style


def state_word(state: State) -> str:
    """The word of a lesson that is not as planned; empty for any other."""
    return "" if state in _EXPECTED else in_words(state)


def rehearsed_words(lesson: Lesson) -> str:
    """The mark of a lesson that was finished in a rehearsal; empty for any other."""
    return "rehearsal, never sent" if lesson.is_rehearsed else ""


def padded(text: str, width: int) -> str:
    """A text that takes so many columns, cut or filled up."""
    return set_cell_size(text, width) if cell_len(text) <= width else f"{set_cell_size(text, width - 1)}…"


def wrapped(facts: Iterable[str], width: int, indent: str, between: str = "  ") -> str:
    """Facts one after another, on as many indented lines as they need; an empty one is left out."""
    lines: list[str] = []
    for fact in filter(None, facts):
        longer = f"{lines[-1]}{between}{fact}" if lines else ""
        if lines and cell_len(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(f"{indent}{fact}")
    return "\n".join(lines)


def cut(text: str, room: int) -> str:
    """A text in a room of so many characters; a sign says that it goes on."""
    return text if len(text) <= room else text[: max(0, room - 1)] + "…"


def heading(words: str, width: int, count: str = "", *, style: str = "", has_keys: bool = False) -> Content:
    """The heading of a group: a rule leads to its count at the right end, and is heavy where the keys are.

    A count with a style of its own is a warning: the words give way to it.
    """
    words = cut(words, max(4, width - cell_len(count) - 3) if style else width)
    tail = f" {count}" if count and cell_len(words) + cell_len(count) + 3 <= width else ""
    rule = max(0, width - cell_len(words) - cell_len(tail) - 1)
    return Content.assemble(
        (words, role("text" if has_keys else "quiet", "bold")),
        (f" {('━' if has_keys else '─') * rule}", role("text" if has_keys else "line")),
        (tail, style or role("quiet")),
    )


def placed(width: int, *pieces: Piece) -> Content:
    """One row of a width out of pieces, each with its column, its words and its style; what does not fit is left out."""
    parts: list[tuple[str, str]] = []
    at = 0
    for column, words, style in sorted(pieces, key=lambda piece: piece[0]):
        if column < at or column + cell_len(words) > width:
            continue
        parts += [(" " * (column - at), ""), (words, style)]
        at = column + cell_len(words)
    return Content.assemble(*parts, (" " * max(0, width - at), ""))


def clock_column(home: TeacherClock, at: datetime, before: str) -> tuple[str, str]:
    """A column of times: this one (UTC), and its half of the day, which is named where it is another than `before`."""
    time, half = home.time_and_half(at)
    return (f"{time:>5} {'' if half == before else half:2} " if home.hours == _HALF_DAYS else f"{time:>5} "), half


def differing_columns(before: Content, after: Content) -> tuple[int, int] | None:
    """From which column to which one row differs from another; None where nothing does."""
    if before.markup == after.markup:
        return None
    old, new = before.plain, after.plain
    if len(old) != len(new) or old == new or cell_len(new) != len(new) or cell_len(old) != len(old):
        return 0, max(cell_len(old), cell_len(new))
    places = [place for place, (one, other) in enumerate(zip(old, new, strict=True)) if one != other]
    return places[0], places[-1] + 1


def lines_of(words: Content, width: int) -> list[Content]:
    """Words on as many lines of a width as they need; a number keeps its unit: `5 min`, `q=76 to 92`, `mm. 17-40`."""
    width = max(1, width)
    text = kept_together(words.plain, width)
    lines = Content(text, list(words.spans)).wrap(width) or [words]
    return [Content(line.plain.replace(_JOINT, " "), list(line.spans)).rstrip() for line in lines]


def kept_together(text: str, width: int) -> str:
    """A text as long, in which no line of a width may end between a number and its unit, if it has room for both."""
    return _KEPT_TOGETHER.sub(
        lambda found: found[0].replace(" ", _JOINT) if cell_len(found[0]) <= width else found[0], text
    )


def hung(words: Content, width: int) -> list[Content]:
    """Words on as many lines of a width as they need; all but the first stand two columns to the right."""
    if words.cell_length <= width:
        return [words]
    first = lines_of(words, width)[0]
    rest = words[len(first.plain) :]
    blank = len(rest.plain) - len(rest.plain.lstrip())
    return [first, *(Content("  ") + line for line in lines_of(rest[blank:], width - 2))]


def cut_at_word(text: str, room: int) -> str:
    """A text in a room of so many columns; what is too long ends behind a word, and a sign says that it goes on.

    A number is left out whole: `q=72` of `q=72 to 88` would be another tempo.
    """
    if cell_len(text) <= room:
        return text
    whole = kept_together(text, room - 1)
    kept = set_cell_size(whole, max(0, room - 1)).rstrip()
    words = kept if whole[len(kept)] in " ,;" else kept.rpartition(" ")[0]
    return f"{(words or kept).rstrip(' ,;')}…".replace(_JOINT, " ")
