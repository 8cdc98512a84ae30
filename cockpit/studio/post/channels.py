"""The ways in which practice notes go out, and what a teacher has settled about each."""

from collections.abc import Iterable, Mapping
from datetime import timedelta
from enum import StrEnum

from cockpit.studio.errors import BadInput
from cockpit.studio.values import Value, field


class Channel(StrEnum):
    """How practice notes go out; each family has one or more, or none."""

    CLIPBOARD = "clipboard"
    FOLDER = "folder"
    DRAFT = "draft"
    MAIL = "mail"


TO_AN_ADDRESS = (Channel.DRAFT, Channel.MAIL)


class Security(StrEnum):
    """How the line to a mail server is kept from others: by STARTTLS (RFC 3207), by TLS from the first byte, or not."""

    STARTTLS = "starttls"
    TLS = "tls"
    NONE = "none"


class NextLesson(StrEnum):
    """How the next lesson comes with a mail: as a file beside the notes, as one more form of them, or not."""

    ATTACHED = "attached"
    WITHIN = "within"
    LEFT_OUT = "left out"


class MailAccount(Value):
    """The teacher's own account. `sender` is her address, `name` what it is shown with.

    `password_from` says where the password is: `keyring`, `env:NAME` or `command:WORDS`; it is never in here. Without
    `user` the server asks for none. `ca_file` names certificates to trust beside those of the system. Of a letter to many
    it takes so many `mails_a_minute`: common practice, no source.
    """

    host: str
    port: int
    security: Security
    sender: str
    name: str = ""
    user: str | None = None
    password_from: str = "keyring"  # noqa: S105 where it is, not what it is
    ca_file: str | None = None
    patience_seconds: int = 30
    mails_a_minute: int = 20


class OwnWords(Value):
    """The teacher's words before and after the notes of a mail."""

    greeting: str = ""
    signature: str = ""


class SendingRules(Value):
    """How notes go out: `ways` for families of which the roster says nothing, and what each way needs.

    `folder` is a path of the teacher's; `words` are hers by language. `wait_seconds` go by between the finish and the
    first attempt, for undo.
    """

    ways: frozenset[Channel] = frozenset({Channel.CLIPBOARD})
    copies_page: bool = False
    folder: str | None = None
    account: MailAccount | None = None
    words: Mapping[str, OwnWords] = field(default_factory=dict)
    language: str = "en"
    next_lesson: NextLesson = NextLesson.ATTACHED
    one_mail_a_day: bool = False
    wait_seconds: int = 10

    @property
    def wait(self) -> timedelta:
        """How long what was put in waits, for undo."""
        return timedelta(seconds=self.wait_seconds)

    def in_language(self, language: str) -> OwnWords:
        """Her words in a language: those for its country, else those for the language, else those in her usual one."""
        names = (language, language.partition("-")[0], self.language)
        return next((self.words[name] for name in names if name in self.words), OwnWords())


def read_channels(text: str) -> frozenset[Channel]:
    """The ways that a text such as `mail, folder` names; `none` stands for no way at all.

    Raises:
        BadInput: a word that is no way, and those that are.
    """
    words = [word.strip().lower() for word in text.replace(";", ",").replace("+", ",").split(",") if word.strip()]
    if words == ["none"]:
        return frozenset()
    for word in words:
        if word not in set(Channel):
            raise BadInput(f'found "{word}". Use one or more of {", ".join(Channel)}, or none')
    return frozenset(map(Channel, words))


def spoken_channel(channel: Channel) -> str:
    """A channel after "by", in a sentence."""
    return "email" if channel is Channel.MAIL else str(channel)


def channels_words(ways: Iterable[Channel]) -> str:
    """Ways as they are written in a roster: `folder, mail`."""
    chosen = frozenset(ways)
    return ", ".join(way for way in Channel if way in chosen) or "none"
