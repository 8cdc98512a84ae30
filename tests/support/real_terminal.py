"""The program in a real pseudo-terminal, with the screen that a person would see."""

import atexit
import contextlib
import ctypes
import fcntl
import functools
import io
import os
import pty
import select
import shutil
import signal
import struct
import sys
import tempfile
import termios
import time
from collections.abc import Callable
from pathlib import Path

import pyte
from support.forked_program import forks

KEYS = {
    "f1": "\x1bOP",
    "f2": "\x1bOQ",
    "f4": "\x1bOS",
    "f5": "\x1b[15~",
    "f9": "\x1b[20~",
    "f10": "\x1b[21~",
    "ctrl+p": "\x10",
    "ctrl+q": "\x11",
    "enter": "\r",
    "ctrl+s": "\x13",
}
PATIENCE = 20.0
STARTED = ("-m", "cockpit")


class RealTerminal:
    """`python -m cockpit ...` in a terminal of columns x rows.

    It is a fork of one that waits, unless something is to be done before it starts, or a `program` is given: those are
    started from nothing, as hers is.
    """

    def __init__(
        self,
        *arguments: str,
        columns: int = 80,
        rows: int = 30,
        before: Callable[[], None] | None = None,
        program: tuple[str, ...] | None = None,
        **more: str,
    ) -> None:
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.screen)
        self.written = bytearray()
        # An environment of its own: readline sets COLUMNS and LINES behind Python's back, and they would hide our size.
        environment = {**os.environ, "TERM": "xterm-256color", "COLORTERM": "truecolor", **more}
        environment = {name: value for name, value in environment.items() if name not in {"COLUMNS", "LINES"}}
        size = struct.pack("HHHH", rows, columns, 0, 0)
        self._wait: Callable[[int, int], tuple[int, int]] = os.waitpid
        if before is None and program is None:
            self._wait = forks().wait
            self.fd, slave = pty.openpty()
            fcntl.ioctl(self.fd, termios.TIOCSWINSZ, size)
            self.pid = forks().begin(arguments, environment, slave)
            os.close(slave)
            return
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            if before is not None:
                before()
            os.execve(sys.executable, [sys.executable, *(program or STARTED), *arguments], environment)
        fcntl.ioctl(self.fd, termios.TIOCSWINSZ, size)

    def __enter__(self) -> "RealTerminal":
        return self

    def __exit__(self, *_: object) -> None:
        try:
            os.kill(self.pid, signal.SIGKILL)
            self._wait(self.pid, 0)
        except (ProcessLookupError, ChildProcessError):
            pass
        if self.fd >= 0:
            os.close(self.fd)

    def text(self) -> str:
        return "\n".join(line.rstrip() for line in self.screen.display)

    def read(self, patience: float) -> bool:
        """Takes in what was written within a span; whether there was anything, and the terminal is still there."""
        ready, _, _ = select.select([self.fd], [], [], patience)
        if not ready:
            return False
        try:
            fresh = os.read(self.fd, 65536)
        except OSError:
            return False
        self.written += fresh
        # pyte would print these two sequences as letters: the mode question and the keyboard protocol.
        self._stream.feed(fresh.replace(b"\x1b[?2026$p", b"").replace(b"\x1b[?2048$p", b"").replace(b"\x1b[>4;1m", b""))
        return bool(fresh)

    def _read_on(self) -> None:
        """Takes in what comes next and all that is there with it: to look at the screen costs more than to wait."""
        until = time.monotonic() + 0.2
        more = self.read(0.2)
        while more and time.monotonic() < until:
            more = self.read(0)

    def wait_for(self, wanted: str) -> None:
        """Reads until a text is on the screen."""
        until = time.monotonic() + PATIENCE
        while wanted not in self.text():
            assert time.monotonic() < until, f"{wanted!r} never came:\n{self.text()}"
            self._read_on()

    def wait_until_gone(self, unwanted: str) -> None:
        """Reads until a text is no longer on the screen."""
        until = time.monotonic() + PATIENCE
        while unwanted in self.text():
            assert time.monotonic() < until, f"{unwanted!r} never went:\n{self.text()}"
            self._read_on()

    def send(self, text: str) -> None:
        os.write(self.fd, text.encode())

    def key(self, name: str) -> None:
        self.send(KEYS[name])

    def kill(self, number: int) -> None:
        os.kill(self.pid, number)

    def close(self) -> None:
        """Takes the terminal away, as closing its window does."""
        os.close(self.fd)
        self.fd = -1

    def stopped(self) -> None:
        """Waits until the program has stopped itself."""
        until = time.monotonic() + PATIENCE
        while self._wait(self.pid, os.WNOHANG | os.WUNTRACED)[0] == 0:
            assert time.monotonic() < until, f"it never stopped:\n{self.text()}"
            self.read(0.05)
        while self.read(0.05):  # what it wrote right before
            pass

    def ended(self) -> int:
        """Waits for the end; the exit status, or the negative number of the signal."""
        until = time.monotonic() + PATIENCE
        while True:
            pid, status = self._wait(self.pid, os.WNOHANG)
            if pid:
                if self.fd >= 0:
                    self.read(0.05)
                return os.waitstatus_to_exitcode(status)
            assert time.monotonic() < until, f"it never ended:\n{self.text()}"
            if self.fd < 0 or not self.read(0.05):
                select.select([], [], [], 0.02)

    def ended_unread(self) -> int:
        """Waits for the end without taking in what is written; the exit status, or the negative number of the signal."""
        until = time.monotonic() + PATIENCE
        while True:
            pid, status = self._wait(self.pid, os.WNOHANG)
            if pid:
                return os.waitstatus_to_exitcode(status)
            assert time.monotonic() < until, "it never ended"
            select.select([], [], [], 0.02)


def make_studio(folder: Path) -> None:
    """A studio with the sample's roster, made by the program itself."""
    shutil.copytree(_studio(), folder, dirs_exist_ok=True)


@functools.cache
def _studio() -> Path:
    """One that others are copied from, for each process once; nobody writes into it."""
    from cockpit.cli.main import main

    folder = Path(tempfile.mkdtemp(prefix="studio-"))
    atexit.register(shutil.rmtree, folder)
    (folder / "settings.toml").write_text('home_zone = "America/Chicago"\nearly_minutes = 240\n', encoding="utf-8")
    roster = Path(__file__).parents[2] / "cockpit" / "sample" / "roster.csv"
    with contextlib.redirect_stdout(io.StringIO()):
        assert main(["roster", str(roster), "--folder", str(folder)]) == 0
    return folder


def wait_for_backup(terminal: RealTerminal, folder: Path, day: str = "2026-12-01") -> None:
    """Reads until the day's backup is made, so that a disk that refuses from then on refuses nothing but words."""
    until = time.monotonic() + PATIENCE
    while not list((folder / "backups").glob(f"studio-{day}*.db")):
        assert time.monotonic() < until, f"the backup was never made:\n{terminal.text()}"
        terminal.read(0.05)


def finish_a_lesson(terminal: RealTerminal, student: str, notes: str) -> None:
    """Begins the lesson that is shown, types its notes, and presses the finish key."""
    terminal.wait_for(student)
    terminal.key("f2")
    terminal.wait_for("has begun")
    terminal.send(notes)
    terminal.wait_for(notes.rpartition("\r")[2])
    terminal.key("f9")


def without_the_powers_of_root() -> None:
    """Takes from a child what lets root write where nobody may (PR_CAPBSET_DROP of CAP_DAC_OVERRIDE and _READ_SEARCH)."""
    if os.geteuid() == 0:
        library = ctypes.CDLL(None)
        for capability in (1, 2):
            assert library.prctl(24, capability, 0, 0, 0) == 0
