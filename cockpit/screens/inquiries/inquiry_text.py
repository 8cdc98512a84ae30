"""What somebody who asks about lessons wrote, to be read and changed."""

from textual.binding import Binding

from cockpit.screens.textual_parts.text_sheet import TextSheet


class InquiryTextScreen(TextSheet[str]):
    """Dismissed with the text as it is then, or with nothing."""

    BINDINGS = [Binding("f9,ctrl+s", "take", "Take it", priority=True)]

    def action_take(self) -> None:
        """Takes the text."""
        self.dismiss(self.text)
