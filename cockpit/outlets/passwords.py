"""Where a mail password comes from: the system's keyring, a variable, a command. It is never in a file or a fault."""

import os
import shlex
import subprocess

from cockpit.studio.errors import BadSettings, NotSaved, Refused
from cockpit.studio.post.channels import MailAccount

SERVICE = "lesson-day-cockpit"
_KEYRING = "keyring"


def password_of(account: MailAccount) -> str | None:
    """The password of an account; None where it has no user, or the keyring has none yet. May wait for a person.

    Raises:
        BadSettings: it cannot be had; the sentence says why, and never what it is.
    """
    if account.user is None:
        return None
    source, _, rest = account.password_from.partition(":")
    if source == "env":
        return _from_variable(rest)
    if source == "command":
        return _from_command(rest, account.patience_seconds)
    return _from_keyring(account.user)


def keep_password(account: MailAccount, password: str) -> None:
    """Gives the password of an account to the system's keyring, in place of one that it has.

    Raises:
        Refused: the settings have it come from elsewhere, or name no user.
        NotSaved: the keyring did not take it.
    """
    if account.password_from != _KEYRING:
        raise Refused("settings.toml, password_from: the password for this account does not come from the keyring")
    if account.user is None:
        raise Refused("settings.toml names no user for this account, so no password is needed")
    import keyring  # 67 ms, which only who has a password pays

    fault = None
    try:
        keyring.set_password(SERVICE, account.user, password)
    except Exception as raised:  # noqa: BLE001 a keyring is a plug-in of the system, and may raise anything
        fault = _told(raised)
    if fault is not None:
        raise NotSaved(f"the keyring could not save the password: {fault}")


def _from_keyring(user: str) -> str | None:
    import keyring  # 67 ms, which only who has a password pays

    password = fault = None
    try:
        password = keyring.get_password(SERVICE, user)
    except Exception as raised:  # noqa: BLE001 a keyring is a plug-in of the system, and may raise anything
        fault = _told(raised)
    if fault is not None:
        raise BadSettings(f"the password for {user} could not be read from the keyring: {fault}")
    return password


def _told(fault: Exception) -> str:
    """What a keyring's fault means. Its own words are left out: nobody knows what a plug-in puts into them."""
    from keyring.errors import KeyringLocked, NoKeyringError

    match fault:
        case NoKeyringError():
            return "this system has no keyring; in settings.toml, set password_from to env:NAME or command:WORDS"
        case KeyringLocked():
            return "it is locked"
        case _:
            return f"it failed ({type(fault).__name__})"


def _from_variable(name: str) -> str:
    password = os.environ.get(name)
    if not password:
        raise BadSettings(f"settings.toml, password_from: the variable {name} is not set")
    return password


def _from_command(words: str, patience_seconds: int) -> str:
    """The first line of what a command says; it gets no shell and no keyboard."""
    try:
        command = shlex.split(words)
    except ValueError as fault:
        raise BadSettings(f"settings.toml, password_from: the command could not be read ({fault})") from None
    if not command:
        raise BadSettings("settings.toml, password_from: nothing comes after command:")
    said = _said_by(command, patience_seconds)
    if isinstance(said, str):
        raise BadSettings(f"settings.toml, password_from: the command {command[0]} {said}")
    # What is no UTF-8 comes to the server as it is.
    password = said.split(b"\n", 1)[0].removesuffix(b"\r").decode("utf-8", "surrogateescape")
    if not password:
        raise BadSettings(f"settings.toml, password_from: the command {command[0]} printed nothing")
    return password


def _said_by(command: list[str], patience_seconds: int) -> bytes | str:
    """What a command says as bytes; or as a text, what was wrong with it.

    A fault is raised elsewhere: one of this place would carry what was said so far.
    """
    try:
        done = subprocess.run(  # noqa: S603 the teacher's own command, without a shell
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=patience_seconds,
            check=False,
        )
    except subprocess.TimeoutExpired:
        return f"took longer than {patience_seconds} seconds"
    except (OSError, ValueError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else None
        return f"could not be run ({why or 'it has a character that is not allowed in a command'})"
    return done.stdout if done.returncode == 0 else f"failed with status {done.returncode}"
