"""A real Chromium without a window, driven over its own pipe by the standard library alone.

It needs no network, and gets none: no name resolves for it, and nothing of its own is fetched.
"""

import base64
import json
import os
import select
import shutil
import subprocess
import time
from pathlib import Path
from typing import Any

PROGRAM = shutil.which("chromium") or shutil.which("chromium-browser")
PATIENCE = 30.0
_SWITCHES = (
    *("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars"),
    *("--no-first-run", "--no-default-browser-check", "--disable-extensions", "--disable-sync", "--disable-breakpad"),
    *("--disable-background-networking", "--disable-component-update", "--host-resolver-rules=MAP * ~NOTFOUND"),
)
# The browser reads its commands from 3 and answers on 4, whatever numbers our pipes have.
_WITH_PIPES = 'exec "$@" 3</dev/fd/{reads} 4>/dev/fd/{writes}'


class Chromium:
    """A browser with one tab; `folder` takes its profile and the pages that it opens."""

    def __init__(self, folder: Path) -> None:
        assert PROGRAM is not None
        self._file = folder / "page.html"
        self.address = self._file.as_uri()
        reads, self._commands = os.pipe()
        self._answers, writes = os.pipe()
        command = (PROGRAM, *_SWITCHES, f"--user-data-dir={folder / 'profile'}", "--remote-debugging-pipe")
        self._process = subprocess.Popen(
            ["bash", "-c", _WITH_PIPES.format(reads=reads, writes=writes), "bash", *command, "about:blank"],
            pass_fds=(reads, writes),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "HOME": str(folder)},
        )
        os.close(reads)
        os.close(writes)
        self._left = b""
        self._number = 0
        self._session: str | None = None
        self.events: list[dict[str, Any]] = []
        tabs = self.command("Target.getTargets")["targetInfos"]
        tab = next(each["targetId"] for each in tabs if each["type"] == "page")
        self._session = self.command("Target.attachToTarget", targetId=tab, flatten=True)["sessionId"]
        for part in ("Page", "Network", "Log", "Accessibility"):
            self.command(f"{part}.enable")

    def close(self) -> None:
        """Ends the browser and everything that it started."""
        self._session = None
        try:
            self.command("Browser.close")
            self._process.wait(PATIENCE)
        finally:
            os.close(self._commands)
            os.close(self._answers)
            self._process.kill()
            self._process.wait()

    def command(self, method: str, **parameters: object) -> dict[str, Any]:
        """Carries out a command of the DevTools protocol in the tab, and gives its result."""
        self._number += 1
        asked = {"id": self._number, "method": method, "params": parameters}
        if self._session is not None:
            asked["sessionId"] = self._session
        os.write(self._commands, json.dumps(asked).encode() + b"\0")
        while (said := self._next()).get("id") != self._number:
            self.events.append(said)
        assert "error" not in said, said
        result: dict[str, Any] = said["result"]
        return result

    def _next(self) -> dict[str, Any]:
        until = time.monotonic() + PATIENCE
        while b"\0" not in self._left:
            ready, _, _ = select.select([self._answers], [], [], max(0.0, until - time.monotonic()))
            fresh = os.read(self._answers, 1 << 16) if ready else b""
            assert fresh, "the browser has nothing more to say"
            self._left += fresh
        message, _, self._left = self._left.partition(b"\0")
        said: dict[str, Any] = json.loads(message)
        return said

    def open(self, page: str) -> None:
        """Opens a page from the file of `address` and waits until all of it is loaded."""
        self._file.write_text(page, encoding="utf-8")
        self.events.clear()
        self.command("Page.navigate", url=self.address)
        while not any(event.get("method") == "Page.loadEventFired" for event in self.events):
            self.events.append(self._next())

    def requested(self) -> list[str]:
        """Every address that was asked for since the page was opened, the page's own too; also one that was refused."""
        self.evaluate("new Promise(done => requestAnimationFrame(() => setTimeout(done)))")
        sent = (event for event in self.events if event.get("method") == "Network.requestWillBeSent")
        return [event["params"]["request"]["url"] for event in sent]

    def complaints(self) -> list[str]:
        """What the browser wrote in its log of errors about the page."""
        added = (event for event in self.events if event.get("method") == "Log.entryAdded")
        return [event["params"]["entry"]["text"] for event in added]

    def evaluate(self, script: str) -> Any:
        """The value of an expression in the page."""
        said = self.command("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in said, said
        return said["result"].get("value")

    def look(self, *, scheme: str = "light", media: str = "screen") -> None:
        """Shows the page in the light or dark scheme, on a screen or as it is printed."""
        features = [{"name": "prefers-color-scheme", "value": scheme}]
        self.command("Emulation.setEmulatedMedia", media=media, features=features)

    def width(self, pixels: int) -> None:
        """Shows the page on a phone of so many pixels."""
        metrics = {"width": pixels, "height": 800, "deviceScaleFactor": 2, "mobile": True}
        self.command("Emulation.setDeviceMetricsOverride", **metrics)

    def pdf(self, width: float, height: float) -> bytes:
        """The page as printed on paper of a size in inches, in the margins of its style sheet."""
        self.look(media="print")  # what it is asked to look like holds on paper too
        printed = self.command("Page.printToPDF", paperWidth=width, paperHeight=height, printBackground=False)
        return base64.b64decode(printed["data"])
