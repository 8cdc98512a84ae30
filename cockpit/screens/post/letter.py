"""A letter to one family, or the answer to an inquiry, to be read and changed before it goes anywhere."""

from textual.binding import Binding

from cockpit.screens.screen import CockpitScreen
from cockpit.screens.sharing import copy
from cockpit.screens.textual_parts.text_sheet import TextSheet
from cockpit.studio.day.posting import Letter
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.values import Value


class Written(Value):
    """What she wants of a letter: that it is copied, or goes into the outbox; and its text as it is now."""

    text: str
    is_copied: bool


class LetterScreen(TextSheet[Written]):
    """Dismissed with the text and where it goes, or with nothing. `way` says how the outbox would send it; empty, if not.

    `whom` it is for, and the `keys` that it has besides, are words.
    """

    BINDINGS = [
        Binding("f9", "send", "Put it into the outbox", priority=True),
        Binding("f5", "copy", "Copy it", priority=True),
    ]

    def __init__(self, letter: Letter, way: str, whom: str, keys: str = "") -> None:
        self._way = way
        send = f"F9 sends it {way}   " if way else ""
        super().__init__(
            letter.title,
            f"To {whom}, {way or 'for you to copy'}",
            letter.text,
            f"{send}F5 copies it   {keys}esc leaves it",
        )

    def action_send(self) -> None:
        """Puts it into the outbox; where that would not send it, it is copied."""
        self.dismiss(Written(text=self.text, is_copied=not self._way))

    def action_copy(self) -> None:
        """Copies it."""
        self.dismiss(Written(text=self.text, is_copied=True))


def write_letter(screen: CockpitScreen, booking: ScheduledLesson) -> None:
    """Shows a letter about a lesson over a screen, to be changed and sent, or copied."""
    letters = screen.desk.letters
    letter = letters.on(booking, screen.desk.ahead.times_for(booking))

    def written(answer: Written | None) -> None:
        if answer is not None and answer.is_copied:
            copy(screen.app, answer.text)
            screen.say(f"The {letter.called} is copied.")
        elif answer is not None:
            screen.step(lambda: letters.put_out(letter, answer.text))
            screen.post_message(screen.OutboxChanged())

    screen.app.push_screen(LetterScreen(letter, letters.way_of(letter), f"the {letter.to.name} family"), written)
