"""A mail server in the test's own process, on loopback, which does at each step of SMTP what the test tells it to.

    with mail_server() as server:
        server.refuse("RCPT", "550 5.1.1 No such mailbox", to="gone@example.org")
        send(account_at(server), None, "gone@example.org", message)

The steps, in their order: greeting, EHLO, STARTTLS, AUTH, MAIL, RCPT, DATA, body (inside the message), end (the whole
message is here, the answer is still to come), QUIT. What is cut off or left without an answer at `end` was taken by the
server: it is among the messages.
"""

# ruff: noqa: N802 the names are those of the class below which ours stand

import asyncio
import ssl
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NoReturn

import trustme
from aiosmtpd.smtp import SMTP, AuthResult, LoginPassword

from cockpit.studio.post.channels import MailAccount, Security
from cockpit.studio.values import Value, replace

HOST = "127.0.0.1"
STEPS = ("greeting", "EHLO", "STARTTLS", "AUTH", "MAIL", "RCPT", "DATA", "body", "end", "QUIT")
_PATIENCE = 20.0  # seconds, for what takes milliseconds


class Arrived(Value):
    """A message that the server took, and how it came."""

    sender: str
    to: tuple[str, ...]
    content: bytes
    options: tuple[str, ...]
    was_protected: bool
    user: str | None


class _Fault(Value):
    """What happens at a step instead of the usual: an answer, a cut (`answer` is None), or nothing at all."""

    step: str
    answer: str | None = None
    is_silent: bool = False
    to: str | None = None
    times: int | None = None

    def fits(self, step: str, to: str | None) -> bool:
        return self.step == step and self.times != 0 and (self.to is None or self.to == to)


class MailServer:
    """The server; it listens between `start` and `stop`, and has the same port again afterwards."""

    def __init__(
        self,
        *,
        host: str = HOST,
        logins: Mapping[str, str] | None = None,
        tls: ssl.SSLContext | None = None,
        is_tls_at_once: bool = False,
        options: Any,
    ) -> None:
        self.host = host
        self.logins = logins
        self.messages: list[Arrived] = []
        self.heard = bytearray()
        self.connections = 0
        self.port = 0
        self._tls = tls
        self._is_tls_at_once = is_tls_at_once
        self._options = options
        self._faults: list[_Fault] = []
        self._reached = dict.fromkeys(STEPS, 0)
        self._changed = threading.Condition()
        self._open: set[asyncio.BaseTransport] = set()

    @property
    def security(self) -> Security:
        if self._tls is None:
            return Security.NONE
        return Security.TLS if self._is_tls_at_once else Security.STARTTLS

    def refuse(self, step: str, answer: str, *, to: str | None = None, times: int | None = None) -> None:
        """Answers with `answer` at a step: always or so many times, for one recipient or for all."""
        self._faults.append(_Fault(step=_checked(step), answer=answer, to=to, times=times))

    def drop(self, step: str, *, to: str | None = None, times: int | None = None) -> None:
        """Cuts the line at a step, without an answer."""
        self._faults.append(_Fault(step=_checked(step), to=to, times=times))

    def hang(self, step: str, *, to: str | None = None, times: int | None = None) -> None:
        """Keeps the line, and never answers."""
        self._faults.append(_Fault(step=_checked(step), is_silent=True, to=to, times=times))

    def behave(self) -> None:
        """Forgets every refusal, cut and silence."""
        self._faults.clear()

    def await_step(self, step: str, count: int = 1) -> None:
        """Blocks until clients have reached a step so many times since the server was made."""
        with self._changed:
            assert self._changed.wait_for(lambda: self._reached[_checked(step)] >= count, _PATIENCE), step

    def start(self) -> None:
        self._loop = asyncio.new_event_loop()
        self._thread = threading.Thread(target=self._loop.run_forever, name="mail server", daemon=True)
        self._thread.start()
        self._server = asyncio.run_coroutine_threadsafe(self._listen(), self._loop).result(_PATIENCE)
        self.port = self._server.sockets[0].getsockname()[1]

    def stop(self) -> None:
        """Goes away, with every line that is open."""
        asyncio.run_coroutine_threadsafe(self._close(), self._loop).result(_PATIENCE)
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join(_PATIENCE)
        self._loop.close()

    async def _listen(self) -> asyncio.Server:
        at_once = self._tls if self._is_tls_at_once else None
        return await self._loop.create_server(lambda: _Line(self), self.host, self.port, ssl=at_once)

    async def _close(self) -> None:
        self._server.close()
        for transport in list(self._open):
            transport.abort()  # type: ignore[attr-defined]  # made by a server of sockets: each has it
        await self._server.wait_closed()  # from Python 3.12 on, this waits for every line
        rest = asyncio.all_tasks() - {asyncio.current_task()}
        for task in rest:
            task.cancel()
        await asyncio.gather(*rest, return_exceptions=True)

    def _fault(self, step: str, to: str | None) -> _Fault | None:
        with self._changed:
            self._reached[step] += 1
            self._changed.notify_all()
        for place, fault in enumerate(self._faults):
            if fault.fits(step, to):
                if fault.times is not None:
                    self._faults[place] = replace(fault, times=fault.times - 1)
                return fault
        return None


class _Line(SMTP):
    """One client's line."""

    _to: str | None = None  # whom the mail is for, from RCPT on

    def __init__(self, server: MailServer) -> None:
        self.server = server
        starttls = None if server._is_tls_at_once else server._tls
        options = {"enable_SMTPUTF8": True, "hostname": "mail.example.org", "ident": "invented"} | server._options
        if server.logins is None:
            options["auth_exclude_mechanism"] = ("PLAIN", "LOGIN")
        super().__init__(
            self,
            tls_context=starttls,
            authenticator=self._authenticate_login,
            auth_require_tls=starttls is not None,
            loop=asyncio.get_running_loop(),
            **options,
        )

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        self.server._open.add(transport)
        if self._original_transport is None:
            self.server.connections += 1
        super().connection_made(transport)

    def connection_lost(self, error: Exception | None) -> None:
        self.server._open.discard(self.transport)  # type: ignore[arg-type]  # None is in no set, and asked for in vain
        if self.session is not None:
            super().connection_lost(error)

    def data_received(self, data: bytes) -> None:
        self.server.heard += data
        super().data_received(data)

    async def _handle_client(self) -> None:
        if not await self._meets("greeting"):
            await super()._handle_client()

    async def smtp_EHLO(self, hostname: str) -> None:
        if not await self._meets("EHLO"):
            await super().smtp_EHLO(hostname)

    async def smtp_STARTTLS(self, arg: str) -> None:
        if not await self._meets("STARTTLS"):
            await super().smtp_STARTTLS(arg)

    async def smtp_AUTH(self, arg: str) -> None:
        if not await self._meets("AUTH"):
            await super().smtp_AUTH(arg)

    async def smtp_MAIL(self, arg: str | None) -> None:
        if self.server.logins is not None and not self.session.authenticated:
            await self.push("530 5.7.0 Authentication required")
        elif not await self._meets("MAIL"):
            await super().smtp_MAIL(arg)

    async def smtp_RCPT(self, arg: str | None) -> None:
        self._to = (arg or "").partition("<")[2].partition(">")[0]
        if not await self._meets("RCPT"):
            await super().smtp_RCPT(arg)

    async def smtp_DATA(self, arg: str) -> None:
        if await self._meets("DATA"):
            return
        if any(fault.fits("body", self._to) for fault in self.server._faults):
            await self.push("354 Go on")
            await self._reader.readline()
            await self._meets("body")
        await super().smtp_DATA(arg)

    async def smtp_QUIT(self, arg: str) -> None:
        if not await self._meets("QUIT"):
            await super().smtp_QUIT(arg)

    async def handle_DATA(self, _server: SMTP, session: Any, envelope: Any) -> str:
        fault = self.server._fault("end", envelope.rcpt_tos[0])
        if fault is None or fault.answer is None:
            data = session.auth_data
            self.server.messages.append(
                Arrived(
                    sender=envelope.mail_from,
                    to=tuple(envelope.rcpt_tos),
                    content=envelope.content,
                    options=tuple(envelope.mail_options),
                    was_protected=session.ssl is not None or self.server._is_tls_at_once,
                    user=data.login.decode() if isinstance(data, LoginPassword) else None,
                )
            )
        if fault is None:
            return "250 2.0.0 Taken"
        return fault.answer or await self._without_answer(fault)

    def _authenticate_login(self, _server: SMTP, _session: Any, _envelope: Any, _how: str, data: Any) -> AuthResult:
        known = (self.server.logins or {}).get(data.login.decode())
        return AuthResult(success=known == data.password.decode(), handled=False, auth_data=data)

    async def _meets(self, step: str) -> bool:
        """Whether the answer at a step was another than the usual one."""
        fault = self.server._fault(step, self._to)
        if fault is None:
            return False
        if fault.answer is None:
            await self._without_answer(fault)
        await self.push(fault.answer)
        if fault.answer.startswith("421") or step == "greeting":
            self.transport.close()
        return True

    async def _without_answer(self, fault: _Fault) -> NoReturn:
        if not fault.is_silent:
            self.transport.abort()
        await asyncio.Event().wait()  # until the line is lost, which ends this task
        raise AssertionError


@contextmanager
def mail_server(
    *,
    logins: Mapping[str, str] | None = None,
    tls: ssl.SSLContext | None = None,
    is_tls_at_once: bool = False,
    host: str = HOST,
    **options: Any,
) -> Iterator[MailServer]:
    """A server that listens. With `logins` it takes mail from these users with these passwords only.

    With `tls` it offers STARTTLS, or TLS from the first byte. Other options are those of aiosmtpd's SMTP:
    `enable_SMTPUTF8=False`, `data_size_limit=1000`.
    """
    server = MailServer(host=host, logins=logins, tls=tls, is_tls_at_once=is_tls_at_once, options=options)
    server.start()
    try:
        yield server
    finally:
        server.stop()


def account_at(server: MailServer, **values: Any) -> MailAccount:
    """The account of an invented teacher at a server."""
    usual = {"host": server.host, "port": server.port, "security": server.security, "sender": "teacher@example.org"}
    return MailAccount(**usual | values)


def certificate(folder: Path, *names: str) -> tuple[ssl.SSLContext, str]:
    """A server's certificate for these names, HOST without any, and the file of the authority that vouches for it."""
    authority = trustme.CA()
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    authority.issue_cert(*(names or (HOST,))).configure_cert(context)
    file = folder / "authority.pem"
    authority.cert_pem.write_to_path(str(file))
    return context, str(file)


def _checked(step: str) -> str:
    assert step in STEPS, f"{step} is none of {STEPS}"
    return step
