"""Roles, signs and rows that more than one screen shows; no widget, so that each can be looked at by itself."""

from collections.abc import Iterable

from rich.cells import cell_len, set_cell_size

from cockpit.studio.lessons.lesson import Lesson, State, in_words
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.wording.outbox import STATUS_WORDS

_STATE_SIGNS = {
    State.BOOKED: "·",
    State.NOT_MARKED: "?",
    State.RUNNING: "▶",
    State.OVER_TIME: "▲",
    State.FINISHED: "✓",
    State.ABSENT: "○",
    State.CANCELLED: "×",
    State.CANCELLED_LATE: "×",
}
_NEEDS_HER = frozenset({DeliveryStatus.UNSURE, DeliveryStatus.REFUSED})


def role(name: str, *more: str) -> str:
    """The style of a role of the theme, with text attributes after it."""
    return " ".join((f"$role-{name.replace('_', '-')}", *more))


def state_role(state: State) -> str:
    """The style of a lesson's state."""
    if state is State.NOT_MARKED:
        return role("warning")
    return role("cancelled" if state is State.CANCELLED_LATE else state.value.replace(" ", "_"))


def status_words(fate: DeliveryStatus) -> tuple[str, str]:
    """What keeps notes from having gone out, with its sign, and the style of both."""
    return f"! {STATUS_WORDS[fate]}", role("error" if fate in _NEEDS_HER else "warning", "bold")


def state_words(state: State) -> tuple[str, str]:
    """A lesson's state with its sign, and the style of both."""
    return f"{_STATE_SIGNS[state]} {in_words(state)}", state_role(state)


def rehearsed_words(lesson: Lesson) -> str:
    """The mark of a lesson that was finished in a rehearsal; empty for any other."""
    return "rehearsal, never sent" if lesson.is_rehearsed else ""


def padded(text: str, width: int) -> str:
    """A text that takes so many columns, cut or filled up."""
    return set_cell_size(text, width) if cell_len(text) <= width else f"{set_cell_size(text, width - 1)}…"


def wrapped(facts: Iterable[str], width: int, indent: str) -> str:
    """Facts one after another, on as many indented lines as they need; an empty one is left out."""
    lines: list[str] = []
    for fact in filter(None, facts):
        longer = f"{lines[-1]} · {fact}" if lines else ""
        if lines and cell_len(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(f"{indent}{fact}")
    return "\n".join(lines)


def cut(text: str, room: int) -> str:
    """A text in a room of so many characters; a sign says that it goes on."""
    return text if len(text) <= room else text[: max(0, room - 1)] + "…"
