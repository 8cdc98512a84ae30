"""The text of a file of a table, whatever its encoding; what was assumed is told."""

import codecs

from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import BadInput
from cockpit.studio.roster.columns import quoted

_WANTED = 'Save it as "CSV UTF-8" and try again.'
_MOST_SHOWN = 5


def decoded(data: bytes) -> tuple[str, tuple[str, ...]]:
    """The text of a file, and a sentence where its encoding was a guess.

    UTF-8, UTF-16 with or without a byte-order mark, or else Windows-1252, in which spreadsheets write what they call CSV.

    Raises:
        BadInput: it is none of these, without the name of the file before it.
    """
    if (utf_16 := _utf_16(data)) is not None:
        try:
            return data.decode(utf_16), ("The file was read as UTF-16.",)
        except UnicodeDecodeError as fault:
            raise BadInput(f"is not whole UTF-16 (byte {fault.start + 1}). {_WANTED}") from fault
    try:
        return data.decode("utf-8-sig"), ()
    except UnicodeDecodeError as fault:
        where = f"line {_line_of(fault)}, byte {fault.start + 1} is {fault.object[fault.start]:#04x}"
        try:
            text = data.decode("cp1252")
        except UnicodeDecodeError as other:
            raise BadInput(f"is not UTF-8 ({where}). {_WANTED}") from other
    return text, (_assumed(text),)


def _utf_16(data: bytes) -> str | None:
    """Which UTF-16 a file is in: by its mark, or because each second byte of its beginning is nearly always 0."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    head = data[:400]
    pairs = len(head) // 2
    for first, name in ((1, "utf-16-le"), (0, "utf-16-be")):
        if pairs > 4 and head[first::2].count(0) > 0.7 * pairs and not head[1 - first :: 2].count(0):
            return name
    return None


def _assumed(text: str) -> str:
    words = dict.fromkeys(word for word in text.replace(",", " ").replace(";", " ").split() if not word.isascii())
    shown = ", ".join(quoted(word.strip('"')) for word in list(words)[:_MOST_SHOWN])
    more = f" and {counted(len(words) - _MOST_SHOWN, 'more word')}" if len(words) > _MOST_SHOWN else ""
    return (
        f"The file is not UTF-8, so it was read as Windows-1252: {shown}{more}. "
        'If a word is wrong, save the file as "CSV UTF-8" and import it again.'
    )


def _line_of(fault: UnicodeDecodeError) -> int:
    return len(fault.object[: fault.start].splitlines()) + fault.object[: fault.start].endswith((b"\n", b"\r")) or 1
