"""Where a mail password comes from; and that no fault, and nothing that hangs on one, has it in it."""

import shlex
import sys
import traceback

import keyring
import pytest
from keyring.backend import KeyringBackend
from keyring.backends.fail import Keyring as NoKeyring
from keyring.errors import KeyringLocked, PasswordSetError
from support.mails import ACCOUNT

from cockpit.outlets.passwords import SERVICE, keep_password, password_of
from cockpit.studio.errors import BadSettings, CockpitError, NotSaved, Refused
from cockpit.studio.post.channels import MailAccount, Security

PASSWORD = "s3cret-pa$$wörd ž"


class InMemory(KeyringBackend):
    """A keyring in memory."""

    priority = 1.0

    def __init__(self) -> None:
        super().__init__()
        self.kept: dict[tuple[str, str], str] = {}

    def get_password(self, service: str, username: str) -> str | None:
        return self.kept.get((service, username))

    def set_password(self, service: str, username: str, password: str) -> None:
        self.kept[service, username] = password


class Failing(KeyringBackend):
    """A keyring that raises, with the password in what it says."""

    priority = 1.0

    def __init__(self, fault: type[Exception]) -> None:
        super().__init__()
        self.fault = fault

    def get_password(self, service: str, username: str) -> str | None:
        raise self.fault(PASSWORD)

    def set_password(self, service: str, username: str, password: str) -> None:
        raise self.fault(password)


@pytest.fixture
def kept():
    before, here = keyring.get_keyring(), InMemory()
    keyring.set_keyring(here)
    yield here.kept
    keyring.set_keyring(before)


@pytest.fixture
def use(kept):
    return keyring.set_keyring


def account(password_from: str = "keyring", user: str | None = "ada", patience: int = 30) -> MailAccount:
    return MailAccount(
        host="mail.example.org",
        port=587,
        security=Security.STARTTLS,
        sender="teacher@example.org",
        user=user,
        password_from=password_from,
        patience_seconds=patience,
    )


def command(program: str) -> str:
    return f"command:{shlex.join([sys.executable, '-c', program])}"


def fault_of(action, kind: type[CockpitError] = BadSettings) -> str:
    """The sentence of a fault, after a look at everything that hangs on it."""
    with pytest.raises(kind) as caught:
        action()
    found: BaseException | None = caught.value
    while found is not None:
        assert PASSWORD not in repr(found)
        assert PASSWORD.encode() not in repr(vars(found)).encode()
        assert "s3cret" not in repr((found.args, vars(found)))
        found = found.__cause__ or found.__context__
    assert "s3cret" not in "".join(traceback.format_exception(caught.value))
    return str(caught.value)


def test_an_account_without_a_user_needs_no_password(kept):
    assert password_of(account(user=None)) is None
    assert password_of(ACCOUNT) is None


def test_what_the_keyring_keeps_is_had_again(kept):
    keep_password(account(), PASSWORD)
    assert kept == {(SERVICE, "ada"): PASSWORD}
    assert password_of(account()) == PASSWORD
    assert SERVICE == "lesson-day-cockpit"


def test_a_newer_password_takes_the_place_of_the_one_before(kept):
    keep_password(account(), "old")
    keep_password(account(), PASSWORD)
    assert password_of(account()) == PASSWORD


def test_a_keyring_without_it_has_none_and_each_user_has_one(kept):
    keep_password(account(user="another"), PASSWORD)
    assert password_of(account()) is None


def test_a_system_without_a_keyring_is_told_with_what_works_instead(use):
    use(NoKeyring())
    told = fault_of(lambda: password_of(account()))
    assert told.startswith("the password for ada could not be read from the keyring: this system has no keyring")
    assert "env:NAME or command:WORDS" in told
    assert "this system has no keyring" in fault_of(lambda: keep_password(account(), PASSWORD), NotSaved)


@pytest.mark.parametrize(
    ("fault", "told"),
    [(KeyringLocked, "it is locked"), (PasswordSetError, "failed (PasswordSetError)"), (KeyError, "failed (KeyError)")],
)
def test_a_keyring_that_fails_is_told_without_its_words(use, fault, told):
    use(Failing(fault))
    assert told in fault_of(lambda: password_of(account()))
    assert told in fault_of(lambda: keep_password(account(), PASSWORD), NotSaved)


@pytest.mark.parametrize("source", ["env:COCKPIT_TEST_PASSWORD", "command:true"])
def test_a_password_that_comes_from_elsewhere_is_not_kept(kept, source):
    fault_of(lambda: keep_password(account(source), PASSWORD), Refused)
    fault_of(lambda: keep_password(account(user=None), PASSWORD), Refused)
    assert kept == {}


def test_a_variable_has_it(monkeypatch):
    monkeypatch.setenv("COCKPIT_TEST_PASSWORD", PASSWORD)
    assert password_of(account("env:COCKPIT_TEST_PASSWORD")) == PASSWORD


@pytest.mark.parametrize("value", [None, ""])
def test_a_variable_that_is_not_set_is_told(monkeypatch, value):
    monkeypatch.delenv("COCKPIT_TEST_PASSWORD", raising=False)
    if value is not None:
        monkeypatch.setenv("COCKPIT_TEST_PASSWORD", value)
    told = fault_of(lambda: password_of(account("env:COCKPIT_TEST_PASSWORD")))
    assert told == "settings.toml, password_from: the variable COCKPIT_TEST_PASSWORD is not set"


@pytest.mark.parametrize("end", ["", "\n", "\r\n", "\nuser: ada\n"])
def test_a_command_says_it_in_its_first_line(end):
    program = f"import sys; sys.stdout.buffer.write({(PASSWORD + end).encode()!r})"
    assert password_of(account(command(program))) == PASSWORD


def test_a_command_gets_no_shell_and_no_keyboard():
    assert password_of(account("command:echo $HOME; true > x")) == "$HOME; true > x"
    assert password_of(account(command("import sys; print('at', repr(sys.stdin.read()))"))) == "at ''"


@pytest.mark.parametrize(
    ("source", "told"),
    [
        (command(f"print({PASSWORD!r}); raise SystemExit(3)"), "failed with status 3"),
        ("command:no-such-program-anywhere x", "no-such-program-anywhere could not be run (No such file or directory)"),
        ("command:'open", "the command could not be read (No closing quotation)"),
        ("command:", "nothing comes after command:"),
        ("command:a\0b", "could not be run (it has a character that is not allowed in a command)"),
        (command("pass"), "printed nothing"),
        (command(f"import sys; print(file=sys.stdout); print({PASSWORD!r})"), "printed nothing"),
    ],
)
def test_a_command_that_fails_is_told_without_what_it_said(source, told):
    assert told in fault_of(lambda: password_of(account(source)))


def test_a_command_that_does_not_end_is_ended():
    program = f"import signal; print({PASSWORD!r}, flush=True); signal.pause()"
    assert "took longer than 1 seconds" in fault_of(lambda: password_of(account(command(program), patience=1)))


def test_a_password_in_no_known_letters_comes_as_the_bytes_that_it_is():
    said = password_of(account(command("import sys; sys.stdout.buffer.write(b'\\xff\\xfe')")))
    assert said is not None
    assert said.encode("utf-8", "surrogateescape") == b"\xff\xfe"
