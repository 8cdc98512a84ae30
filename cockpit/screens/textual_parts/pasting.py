"""Reads a paste whole: Textual would take a part of it for pressed keys."""

from collections.abc import Iterable

from textual._xterm_parser import XTermParser
from textual.drivers import linux_driver
from textual.message import Message

_BEGINS, _ENDS = "\x1b[200~", "\x1b[201~"
_LOST = str.maketrans({"\x1b": "\ufffd", "\x00": "\ufffd"})


class PasteParser(XTermParser):
    """Textual's own, in which an escape within a paste would take the next 32 characters out of it and press them as keys.

    So a color in a pasted text could lose words, and a pasted ctrl+q close the program. Here an escape in a paste is
    seen as U+FFFD before Textual reads it. It leans on a private module of Textual, which is why that is pinned to one
    version; a test pastes into a real terminal.
    """

    _is_pasting = False
    _before = ""  # the last characters: the mark of a paste can come in two parts
    _held = ""

    def feed(self, data: str) -> Iterable[Message]:
        """Reads on; an empty text is the end."""
        if not data:
            return super().feed(data)
        plain = self._plain(data)
        return super().feed(plain) if plain else ()

    def _plain(self, data: str) -> str:
        read = ""
        while data:
            if self._is_pasting:
                pasted, mark, data = (self._held + data).partition(_ENDS)
                self._is_pasting = not mark
                self._held = "" if mark else _begun(pasted)
                read += pasted[: len(pasted) - len(self._held)].translate(_LOST) + mark
                continue
            begins = (self._before + data).find(_BEGINS)
            ends = len(data) if begins < 0 else begins + len(_BEGINS) - len(self._before)
            self._is_pasting = begins >= 0
            self._before = "" if self._is_pasting else (self._before + data)[1 - len(_BEGINS) :]
            read, data = read + data[:ends], data[ends:]
        return read


def _begun(pasted: str) -> str:
    """The end of a part, if it may be the beginning of the mark that ends a paste."""
    return next((_ENDS[:length] for length in range(len(_ENDS) - 1, 0, -1) if pasted.endswith(_ENDS[:length])), "")


def read_pastes_whole() -> None:
    """Makes Textual read the terminal with our parser."""
    linux_driver.XTermParser = PasteParser  # type: ignore[attr-defined] # where the driver finds it
