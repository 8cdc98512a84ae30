"""Documents compared byte by byte with the ones kept beside the tests.

With COCKPIT_WRITE_GOLDEN=1 in the environment they are written anew instead, and the test fails, so that nobody can
leave the switch on: look at the difference, then run again without it.
"""

import os
from pathlib import Path

GOLDEN = Path(__file__).parents[1] / "papers" / "golden"


def assert_golden(text: str, name: str) -> None:
    """The document is, to the byte, the one kept under `name`."""
    kept = GOLDEN / name
    if os.environ.get("COCKPIT_WRITE_GOLDEN") == "1":
        kept.write_bytes(text.encode())
        raise AssertionError(f"{name} was written anew; look at the difference and run without COCKPIT_WRITE_GOLDEN")
    assert text.encode() == kept.read_bytes()
