"""The section [sending] of settings.toml: how practice notes go out, and by which account."""

from cockpit.settings.reading import TomlTable
from cockpit.studio.errors import BadInput
from cockpit.studio.post.channels import (
    Channel,
    MailAccount,
    NextLesson,
    OwnWords,
    Security,
    SendingRules,
    read_channels,
)

_KEYS = (
    "ways", "copy_as", "folder", "mail", "words", "greeting", "signature", "language", "next_lesson", "one_mail_a_day",
    "wait_seconds",
)  # fmt: skip
_MAIL_KEYS = (
    "host",
    "port",
    "security",
    "sender",
    "name",
    "user",
    "password_from",
    "ca_file",
    "patience_seconds",
    "mails_a_minute",
)
_USUAL_PORT = {Security.STARTTLS: 587, Security.TLS: 465, Security.NONE: 25}  # RFC 6409, RFC 8314, RFC 5321
_AT_HOME = ("localhost", "127.0.0.1", "::1")


def sending_rules(table: TomlTable) -> SendingRules:
    """The rules in the section; what is not in it is as usual.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    table.only(_KEYS, f"one of {', '.join(_KEYS)}")
    usual = SendingRules()
    folder, account = table.words("folder"), _account(table)
    ways = _ways(table)
    if Channel.FOLDER in ways and not folder:
        raise table.fault("folder", "nothing", "the path of a folder, because ways names folder")
    if Channel.MAIL in ways and account is None:
        raise table.fault("mail", "nothing", "a section [sending.mail], because ways names mail")
    language = table.word("language", usual.language)
    return SendingRules(
        ways=ways,
        copies_page=table.choice("copy_as", "markdown", ("markdown", "page")) == "page",
        folder=folder or None,
        account=account,
        words=_words(table, language),
        language=language,
        next_lesson=NextLesson(table.choice("next_lesson", usual.next_lesson, tuple(NextLesson))),
        one_mail_a_day=table.yes_or_no("one_mail_a_day", default=usual.one_mail_a_day),
        wait_seconds=table.number("wait_seconds", usual.wait_seconds, range(3601), "0 to 3600 seconds"),
    )


def _ways(table: TomlTable) -> frozenset[Channel]:
    said = table.word("ways", "clipboard")
    try:
        return read_channels(said)
    except BadInput as fault:
        raise table.fault("ways", f'"{said}"', f"one or more of {', '.join(Channel)}, or none") from fault


def _words(table: TomlTable, language: str) -> dict[str, OwnWords]:
    """Her words by language: those in the section itself are in `language`."""
    found = {language: _own_words(table)}
    by_language = table.table("words")
    for other in table.section("words"):
        own = by_language.table(other)
        own.only(("greeting", "signature"), "greeting or signature")
        found[other] = _own_words(own)
    return {spoken: words for spoken, words in found.items() if words != OwnWords()}


def _own_words(table: TomlTable) -> OwnWords:
    return OwnWords(greeting=table.words("greeting"), signature=table.words("signature"))


def _account(sending: TomlTable) -> MailAccount | None:
    if not sending.section("mail"):
        return None
    table = sending.table("mail")
    if "password" in sending.section("mail"):
        # What was found is not repeated: an error is shown, and may be copied somewhere.
        raise table.fault("password", "a password", "no password in this file; use password_from instead (see Help)")
    table.only(_MAIL_KEYS, f"one of {', '.join(_MAIL_KEYS)}")
    host, security = table.word("host"), Security(table.choice("security", Security.STARTTLS, tuple(Security)))
    user = table.words("user") or None
    if security is Security.NONE and host not in _AT_HOME:
        raise table.fault("security", '"none"', f"starttls or tls, because {host} is not this computer")
    source = table.word("password_from", "keyring")
    if source != "keyring" and not source.startswith(("env:", "command:")):
        raise table.fault("password_from", "something else", "keyring, env:NAME, or command:WORDS")
    return MailAccount(
        host=host,
        port=table.number("port", _USUAL_PORT[security], range(1, 65536), "a port from 1 to 65535"),
        security=security,
        sender=_address(table),
        name=table.words("name"),
        user=user,
        password_from=source,
        ca_file=table.words("ca_file") or None,
        patience_seconds=table.number("patience_seconds", 30, range(1, 601), "1 to 600 seconds"),
        mails_a_minute=table.number("mails_a_minute", 20, range(1, 601), "1 to 600 emails"),
    )


def _address(table: TomlTable) -> str:
    from cockpit.studio.roster.values import read_emails

    said = table.word("sender")
    try:
        found = read_emails(said)
    except BadInput as fault:
        raise table.fault("sender", f'"{said}"', "your address, such as name@example.org") from fault
    if ", " in found:
        raise table.fault("sender", f'"{said}"', "one address")
    return found
