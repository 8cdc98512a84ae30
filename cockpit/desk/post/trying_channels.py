"""The ways to send, what is settled about each, and a test of each before it is used."""

from collections.abc import Iterator
from datetime import datetime

from cockpit.desk.ports import Clock, PostPrinter, Reading
from cockpit.studio.clocks.words import counted
from cockpit.studio.day.posting import ways_of
from cockpit.studio.errors import Refused
from cockpit.studio.people.people import FamilyId, addresses_of
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel, MailAccount, Security
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, OutgoingId
from cockpit.studio.post.parcel import Document, Parcel
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value, replace

_TITLE = "A test from your cockpit"
_TEXT = "This is a test. If you can read it, practice notes can be sent this way.\n"
_NAME = "Cockpit test"


class ChannelFacts(Value):
    """A way to send: how many families it is for, what is settled about it, and what is still wanted, if anything."""

    way: Channel
    families: str
    settled: str
    wanted: str | None = None


class TryingChannels:
    """Looks at the ways to send, and tries them."""

    def __init__(self, reading: Reading, clock: Clock, printer: PostPrinter, preferences: Preferences) -> None:
        self._reading = reading
        self._clock = clock
        self._printer = printer
        self._rules = preferences.sending
        self._home = preferences.home

    def ways(self) -> tuple[ChannelFacts, ...]:
        """Every way, in the order of the settings."""
        return tuple(self._facts())

    def account(self) -> MailAccount:
        """The mail account.

        Raises:
            Refused: there is none.
        """
        if self._rules.account is None:
            raise Refused("settings.toml has no email account yet. Add a section [sending.mail].")
        return self._rules.account

    def clipboard_test(self) -> str:
        """What goes onto the clipboard as a test."""
        return _TEXT

    def parcel(self, way: Channel) -> Parcel:
        """A test of a way, with no student in it: a mail goes to the teacher's own address.

        Raises:
            Refused: what the way needs is not settled.
        """
        now = self._clock.now()
        if way not in TO_AN_ADDRESS:
            if self._rules.folder is None:
                raise Refused("settings.toml names no folder yet. Set folder in [sending].")
            item = _test_item(way, "", now)
            return _parcel(item, f"{_NAME}.html", self._printer.sheet(item).encode())
        item = _test_item(way, self.account().sender, now)
        on = self._home.date_of(now)
        if way is Channel.DRAFT:
            return _parcel(item, f"{_NAME}.eml", self._printer.draft(item, on, now))
        uid, _ = self._reading.calendar_edition()
        item = replace(item, message_id=self._printer.message_id([item], uid))
        return _parcel(item, "", self._printer.message([item], on, (), now))

    def _facts(self) -> Iterator[ChannelFacts]:
        families = self._reading.people().families.values()
        account, folder, guardians = self._rules.account, self._rules.folder, self._reading.guardians()
        for way in Channel:
            those = [family for family in families if way in ways_of(family, self._rules)]
            settled, wanted = "", None
            match way:
                case Channel.CLIPBOARD:
                    settled = "as a web page (HTML)" if self._rules.copies_page else "as Markdown"
                case Channel.FOLDER:
                    settled, wanted = folder or "", None if folder else "folder in [sending] in settings.toml"
                case Channel.DRAFT:
                    settled = "saved in drafts in the studio folder, for you to send from your email program"
                case Channel.MAIL:
                    settled = _account_words(account) if account is not None else ""
                    wanted = None if account is not None else "a section [sending.mail] in settings.toml"
            lost = [f.name for f in those if not addresses_of(guardians, f.id)] if way in TO_AN_ADDRESS else []
            if lost:
                wanted = f"{f'{wanted}; ' if wanted else ''}an address for {', '.join(lost)}"
            count = counted(len(those), "family", "families")
            yield ChannelFacts(way=way, families=count, settled=settled, wanted=wanted)


def _account_words(account: MailAccount) -> str:
    line = {Security.STARTTLS: "STARTTLS", Security.TLS: "TLS", Security.NONE: "on this computer"}[account.security]
    source = account.password_from.partition(":")[0]
    password = {"keyring": "from the keyring", "env": "from the environment", "command": "from a command"}[source]
    login = f", password {password}" if account.user is not None else ", without a password"
    return f"{account.sender} at {account.host}, port {account.port}, {line}{login}"


def _test_item(way: Channel, address: str, now: datetime) -> Outgoing:
    return Outgoing(
        id=OutgoingId(0),
        about=f"test-{now:%Y%m%d%H%M%S}",
        family_id=FamilyId(0),
        version=1,
        way=way,
        address=address,
        student="",
        title=_TITLE,
        text=_TEXT,
        page=f"<h1>{_TITLE}</h1>\n<p>{_TEXT}</p>\n",
        language="en",
        next_lesson=None,
        is_update=False,
        queued_at=now,
        not_before=now,
        fate=DeliveryStatus.GOING,
    )


def _parcel(item: Outgoing, name: str, content: bytes) -> Parcel:
    return Parcel(items=(item,), documents=(Document(name=name, content=content),))
