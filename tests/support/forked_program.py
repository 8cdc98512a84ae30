"""The program in a process of its own that begins at once: a fork of one that has read every module of it.

To read them takes a second of a processor, as long as all that most tests in a terminal do. `Forks` is asked for a
process, and again for how it ended, since it is its parent.
"""

import atexit
import fcntl
import functools
import gc
import json
import os
import pkgutil
import pty
import socket
import subprocess
import sys
import termios
from collections.abc import Mapping
from importlib import import_module
from pathlib import Path

TESTS = Path(__file__).parents[1]
LARGEST = 200_000  # bytes of a request: an environment and a command line
BEGIN = "from support.forked_program import run; run({})"


class Forks:
    """A process that has read the program's modules, and forks when it is asked to."""

    def __init__(self) -> None:
        ours, theirs = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)
        terminal, slave = pty.openpty()  # Python opens its streams as it finds them
        command = [sys.executable, "-c", BEGIN.format(theirs.fileno())]
        path = os.pathsep.join([str(TESTS.parent), str(TESTS)])
        self._process = subprocess.Popen(
            command,
            stdin=slave,
            stdout=slave,
            stderr=slave,
            pass_fds=[theirs.fileno()],
            env={**os.environ, "PYTHONPATH": path},
            start_new_session=True,
        )
        os.close(slave)
        theirs.close()
        self._socket, self._terminal = ours, terminal
        atexit.register(self._end)

    def begin(self, arguments: tuple[str, ...], environment: Mapping[str, str], slave: int) -> int:
        """Begins `python -m cockpit` with a terminal; the number of its process."""
        asked = {"arguments": arguments, "environment": dict(environment), "folder": str(Path.cwd())}
        socket.send_fds(self._socket, [json.dumps(asked).encode()], [slave])
        return int(self._socket.recv(LARGEST))

    def _end(self) -> None:
        self._socket.close()
        self._process.wait()

    def wait(self, pid: int, options: int) -> tuple[int, int]:
        """As `os.waitpid`."""
        self._socket.send(json.dumps({"pid": pid, "options": options}).encode())
        found, status = json.loads(self._socket.recv(LARGEST))
        return found, status


@functools.cache
def forks() -> Forks:
    """The one of this process, begun when it is first asked for."""
    return Forks()


def run(asking: int) -> None:
    """Reads the program, answers for as long as somebody asks; in each fork, runs the program."""
    from cockpit.screens.textual_parts.importing import import_textual

    import_textual()
    import cockpit

    for module in pkgutil.walk_packages(cockpit.__path__, "cockpit."):
        import_module(module.name)
    import_module("textual.drivers.linux_driver")
    gc.collect()
    gc.freeze()
    arguments = _forked(socket.socket(fileno=asking))
    if arguments is not None:
        sys.argv = ["cockpit", *arguments]
        import_module("cockpit.__main__").main()


def _forked(asking: socket.socket) -> list[str] | None:
    """Returns in a fork, with its arguments, or when nobody asks any more."""
    while True:
        asked, slaves, _, _ = socket.recv_fds(asking, LARGEST, 1)
        if not asked:
            return None
        request = json.loads(asked)
        if not slaves:
            answer = json.dumps(os.waitpid(request["pid"], request["options"]))
        elif pid := os.fork():
            os.close(slaves[0])
            answer = str(pid)
        else:
            asking.close()
            _take_terminal(slaves[0])
            os.environ.clear()
            os.environ.update(request["environment"])
            os.chdir(request["folder"])
            return list(request["arguments"])
        asking.send(answer.encode())


def _take_terminal(slave: int) -> None:
    os.setsid()
    fcntl.ioctl(slave, termios.TIOCSCTTY, 0)
    for stream in range(3):
        os.dup2(slave, stream)
    os.close(slave)
