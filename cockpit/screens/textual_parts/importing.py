"""Imports Textual as the cockpit needs it: with its settings, and without what the first screen does not use."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import ModuleType


def import_textual() -> None:
    """Sets what Textual reads when it is imported, and imports it. Nothing may have imported it before.

    Two modules wait until something of ours asks for them, which saves 21 of the 180 ms that this takes:

    - `ssl`: asyncio can do without, and has no connections here; mail goes out by `smtplib` on a thread.
    - `textual.types`: it loads four widgets, of which we show one. Textual takes one name of it, which
      `textual._types` has too.
    """
    os.environ.setdefault("TEXTUAL_FPS", "120")
    os.environ.setdefault("TEXTUAL_ANIMATIONS", "none")
    # None of our keys needs the extended protocol, and some terminals lose accented letters with it.
    os.environ.setdefault("TEXTUAL_DISABLE_KITTY_KEY", "1")
    with _in_place_of("ssl", None):
        import asyncio  # noqa: F401 for its being loaded
    from textual import _types

    with _in_place_of("textual.types", _types):
        import textual.app  # noqa: F401 for its being loaded


@contextmanager
def _in_place_of(name: str, module: ModuleType | None) -> Iterator[None]:
    """Lets an import of a module find another module, or none. A module that is loaded already stays."""
    if name in sys.modules:
        yield
        return
    sys.modules[name] = module  # type: ignore[assignment]  # None is the import system's "there is none"
    try:
        yield
    finally:
        del sys.modules[name]
