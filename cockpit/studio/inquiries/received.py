"""A mail that somebody who asks about lessons has sent, and the inquiry that it is."""

from datetime import datetime

from cockpit.studio.inquiries.inquiry import MOST_WORDS, Inquiry, InquiryId
from cockpit.studio.values import Value

MOST_BYTES = 30_000_000
"""How much of a file is read: the text of a mail stands before what is attached to it."""


class ReceivedMail(Value):
    """What a saved mail says: who sent it, and when (UTC), None where it does not say so; and in which words.

    `attachments` are their names alone. `notices` are sentences on what could not be read as it was meant.
    """

    name: str
    email: str | None
    came_at: datetime | None
    subject: str
    text: str
    attachments: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """The subject, the text, and the names of what was attached, as far as words are kept."""
        attached = f"Attached: {', '.join(self.attachments)}" if self.attachments else ""
        return "\n\n".join(filter(None, (self.subject, self.text, attached)))[:MOST_WORDS]

    @property
    def is_cut(self) -> bool:
        """Whether the words are more than are kept."""
        return len(self.subject) + len(self.text) > MOST_WORDS

    def inquiry(self, number: InquiryId, came_at: datetime) -> Inquiry:
        """The inquiry that it is, which came at a moment (UTC)."""
        return Inquiry(id=number, came_at=came_at, name=self.name, email=self.email, words=self.words)
