"""The section [sending] of settings.toml: every key, and a sentence for each fault."""

import pytest

from cockpit.settings.settings import parse_settings
from cockpit.settings.text import FIRST
from cockpit.studio.errors import BadSettings
from cockpit.studio.post.channels import Channel, MailAccount, NextLesson, OwnWords, Security, SendingRules

HOME = 'home_zone = "America/Chicago"\n'
MAIL = '[sending.mail]\nhost = "mail.example.org"\nsender = "me@example.org"\n'


def sending(text: str) -> SendingRules:
    return parse_settings(f"{HOME}{text}", "settings.toml").preferences.sending


def test_without_a_section_notes_go_to_the_clipboard_alone():
    assert (
        sending("") == SendingRules() == parse_settings(FIRST.format(zone="UTC"), "settings.toml").preferences.sending
    )
    assert sending("").ways == {Channel.CLIPBOARD}


def test_every_key_is_read():
    found = sending(
        '[sending]\nways = "mail, folder"\ncopy_as = "page"\nfolder = "~/Notes"\ngreeting = "Dear family,"\n'
        'signature = "Yours"\nlanguage = "es"\nnext_lesson = "within"\none_mail_a_day = true\nwait_seconds = 0\n'
        '[sending.words.fr]\ngreeting = "Chère famille,"\n'
        f'{MAIL}port = 2525\nsecurity = "tls"\nname = "Ms. Oyelaran"\nuser = "me"\npassword_from = "env:MAIL"\n'
        'ca_file = "ca.pem"\npatience_seconds = 5\nmails_a_minute = 7\n'
    )
    account = MailAccount(
        host="mail.example.org",
        port=2525,
        security=Security.TLS,
        sender="me@example.org",
        name="Ms. Oyelaran",
        user="me",
        password_from="env:MAIL",
        ca_file="ca.pem",
        patience_seconds=5,
        mails_a_minute=7,
    )
    assert found == SendingRules(
        ways=frozenset({Channel.MAIL, Channel.FOLDER}),
        copies_page=True,
        folder="~/Notes",
        account=account,
        words={
            "es": OwnWords(greeting="Dear family,", signature="Yours"),
            "fr": OwnWords(greeting="Chère famille,", signature=""),
        },
        language="es",
        next_lesson=NextLesson.WITHIN,
        one_mail_a_day=True,
        wait_seconds=0,
    )


@pytest.mark.parametrize(
    ("security", "host", "port"),
    # RFC 6409 (submission), RFC 8314 (implicit TLS), RFC 5321.
    [("starttls", "mail.example.org", 587), ("tls", "mail.example.org", 465), ("none", "localhost", 25)],
)
def test_the_usual_port_goes_with_the_line(security, host, port):
    text = f'[sending.mail]\nhost = "{host}"\nsender = "me@example.org"\nsecurity = "{security}"\n'
    found = sending(text).account
    assert found is not None
    assert found.port == port


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            '[sending]\nways = "pigeon"',
            'sending, ways: found "pigeon". Use one or more of clipboard, folder, draft, mail',
        ),
        ('[sending]\nways = "folder"', "sending, folder: found nothing. Use the path of a folder"),
        ('[sending]\nways = "mail"', "sending, mail: found nothing. Use a section"),
        ('[sending]\ncopy_as = "pdf"', 'sending, copy_as: found "pdf". Use one of markdown, page'),
        ("[sending]\ngreeting = 4", "sending, greeting: found 4. Use words in quotes"),
        (f"{MAIL}mails_a_minute = 0", "sending, mail, mails_a_minute: found 0. Use 1 to 600 emails"),
        ("[sending]\nwait_seconds = -1", "sending, wait_seconds: found -1. Use 0 to 3600 seconds"),
        ("[sending.words.fr]\nhello = 4", "sending, words, fr, hello: found an unknown key"),
        ("[sending]\npigeons = 4", "sending, pigeons: found an unknown key"),
        (f"{MAIL}port = 0", "mail, port: found 0. Use a port"),
        (f'{MAIL}security = "ssl"', 'mail, security: found "ssl". Use one of starttls, tls, none'),
        (f'{MAIL}security = "none"', "mail.example.org is not this computer"),
        (f'{MAIL}password_from = "hunter2"', "mail, password_from: found something else"),
        ('[sending.mail]\nhost = "h"\nsender = "me"', 'mail, sender: found "me". Use your address'),
        ('[sending.mail]\nhost = "h"\nsender = "a@b.cd, e@f.gh"', "Use one address"),
    ],
)
def test_a_fault_is_told_with_what_would_work(text, told):
    with pytest.raises(BadSettings) as fault:
        sending(text)
    assert told in str(fault.value)


@pytest.mark.parametrize("line", ['password = "hunter2"', 'password_from = "hunter2"'])
def test_a_password_in_the_file_is_refused_and_never_repeated(line):
    with pytest.raises(BadSettings) as fault:
        sending(f"{MAIL}{line}")
    assert "hunter2" not in str(fault.value)
