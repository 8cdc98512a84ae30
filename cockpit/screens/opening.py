"""What the program is opened with beside the desk, and what is to be told then."""

from collections.abc import Callable, Mapping

from cockpit.desk.desk import Desk
from cockpit.desk.ports import Sender
from cockpit.screens.ending import Ends, Rescuing
from cockpit.screens.look.roles import Look
from cockpit.studio.clocks.words import counted
from cockpit.studio.values import Value


class Opening(Value):
    """Looks by name, the faults and sentences to show first, and who is told of the end.

    `after_first_paint` gets a function that shows a fault, and may call it from any thread. Without a `sender` nothing
    goes out. Work that takes longer than a key may begins after `idle_seconds`, when the calendar's rules are loaded.
    `keep_theme` writes a theme's name into the settings, and says why where it cannot; a studio that is only read has none.
    `rescue` keeps unsaved notes at the end, `ends` ends a screen that hangs, and `screen_gone` is called after the screen
    has ended.
    """

    looks: Mapping[str, Look]
    sentences: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    after_first_paint: Callable[[Callable[[str], None]], None] | None = None
    has_changed: Callable[[], bool] | None = None
    sender: Sender | None = None
    keep_theme: Callable[[str], str | None] | None = None
    rescue: Rescuing | None = None
    ends: Ends | None = None
    screen_gone: Callable[[], None] | None = None
    idle_seconds: float = 1.5


def opening_notices(desk: Desk, opening: Opening) -> list[str]:
    """What is to be told when the program opens, the most urgent first."""
    next_one = None if desk.day.bookings else desk.finding.what_is_next()
    sentences = (desk.why_read_only, *opening.faults, desk.day.left_running(), next_one, *opening.sentences)
    return [sentence for sentence in sentences if sentence]


def greeting(desk: Desk, opening: Opening) -> str:
    """The most urgent sentence; the others would be cut, and are in Help."""
    sentences = opening_notices(desk, opening)
    more = f" ({counted(len(sentences) - 1, 'more notice')} in Help.)" if len(sentences) > 1 else ""
    return f"{sentences[0]}{more}" if sentences else ""
