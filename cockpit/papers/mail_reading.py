"""A mail as the family reads it, out of its own bytes: what is previewed is what goes."""

from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default


def as_read(mail: bytes) -> tuple[str, str, str]:
    """The subject, the plain text and the page of a mail of ours."""
    read = message_from_bytes(mail, policy=default)
    if not isinstance(read, EmailMessage):
        raise TypeError("the policy makes no EmailMessage")
    return str(read["Subject"]), _words(read, "plain"), _words(read, "html")


def _words(mail: EmailMessage, kind: str) -> str:
    part = mail.get_body((kind,))
    return str(part.get_content()).replace("\r\n", "\n") if part is not None else ""
