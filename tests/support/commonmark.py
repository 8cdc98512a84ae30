"""The published examples of CommonMark 0.31.2, from the specification itself.

Its text (spec.commonmark.org/0.31.2, 2024-01-28) ships in two packages, the same to the last byte. It is fetched once and
kept with the tests' cache. Of other versions of the specification the examples differ, so that its checksum is held.
"""

import hashlib
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

_SHA256 = "257c41ad946f7a1414a499aca402a1aa8fdac3678532266611348c1cf54f4b80"
_PIP = (
    sys.executable,
    "-m",
    "pip",
    "download",
    "--quiet",
    "--disable-pip-version-check",
    "--retries=1",
    "--timeout=15",
)
_SOURCES = (
    # In its source distribution alone; which version of it is installed does not matter.
    ((*_PIP, "--no-deps", "--no-binary=markdown-it-py", "markdown-it-py==4.3.0"), "tests/test_cmark_spec/spec.md"),
    (("npm", "pack", "--silent", "commonmark-spec@0.31.2"), "package/spec.txt"),
)
_EXAMPLE = re.compile(r"^`{32} example\n(.*?)^\.\n.*?^`{32}$", re.MULTILINE | re.DOTALL)


def specification(cache: Path) -> str | None:
    """The text of the specification, kept in the folder `cache`; None where it can be had from nowhere."""
    kept = cache / "commonmark-0.31.2.txt"
    if not kept.exists() and not any(_fetch(command, name, kept) for command, name in _SOURCES):
        return None
    text = kept.read_bytes()
    assert hashlib.sha256(text).hexdigest() == _SHA256, f"{kept} is not the published text; delete it"
    return text.decode()


def examples(text: str) -> dict[int, str]:
    """The Markdown of each example by its number, tabs as tabs: the specification prints them as arrows."""
    return {number: found[1].replace("→", "\t") for number, found in enumerate(_EXAMPLE.finditer(text), start=1)}


def _fetch(command: tuple[str, ...], name: str, kept: Path) -> bool:
    if shutil.which(command[0]) is None:
        return False
    with tempfile.TemporaryDirectory() as folder:
        try:
            subprocess.run(command, cwd=folder, capture_output=True, timeout=120, check=True)
        except (subprocess.CalledProcessError, subprocess.TimeoutExpired):
            return False
        (packed,) = Path(folder).iterdir()
        with tarfile.open(packed) as package:
            member = next(each for each in package if each.name.endswith(name))
            text = package.extractfile(member)
            assert text is not None
            # In one step: two runs of the tests may share the cache.
            fresh = kept.with_name(f"{kept.name}.{Path(folder).name}")
            fresh.write_bytes(text.read())
            fresh.replace(kept)
    return True
