"""What is handed over in one attempt, complete: whoever carries it needs nothing else."""

from cockpit.studio.post.channels import Channel
from cockpit.studio.post.outgoing import Outgoing
from cockpit.studio.values import Value


class Document(Value):
    """A document with its name below the folder that it goes to; a mail has none."""

    name: str
    content: bytes


class Parcel(Value):
    """One attempt: `items` are the records that it settles, `documents` what goes."""

    items: tuple[Outgoing, ...]
    documents: tuple[Document, ...]

    @property
    def way(self) -> Channel:
        """The way that it takes."""
        return self.items[0].way

    @property
    def address(self) -> str:
        """Whom a mail is for."""
        return self.items[0].address
