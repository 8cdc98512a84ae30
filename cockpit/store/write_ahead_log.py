"""Whether SQLite could read a write-ahead log to its end, when a cockpit that ended suddenly has left one.

The log's form is section 4 of https://www.sqlite.org/fileformat2.html: a header of 32 bytes, then frames, each with a
header of 24 bytes before its page. A frame belongs to the log while it bears the log's salts; frames of older salts are
what an earlier round has left, and say nothing. A frame that ends a transaction says so in its bytes 4 to 7. SQLite stops
without a word at the first frame whose checksum is wrong. How many frames it took is what it says at a checkpoint: it did
the checksums, and they need not be done again.
"""

import shutil
import sqlite3
import struct
from pathlib import Path

_HEADER, _FRAME_HEADER = 32, 24
_MAGIC = (0x377F0682, 0x377F0683)  # the last bit says in which order of bytes the checksums are
_WORD = 0xFFFFFFFF


def keep_if_damaged(database: Path, connection: sqlite3.Connection) -> str | None:
    """Keeps a copy of a log that SQLite has opened and could not read to its end; a sentence about it, or None.

    To be called when the connection has read once and nothing has been written. The shared memory beside the log tells
    the same, but must not be read: a process that closes it loses its locks on it, and the next program that opens the
    database cuts it off under the running cockpit, which dies of that.
    """
    log = database.with_name(f"{database.name}-wal")
    try:
        content = log.read_bytes()
    except OSError:
        return None
    if len(content) <= _HEADER:
        return None
    _, taken, _ = connection.execute("PRAGMA wal_checkpoint(PASSIVE)").fetchone()  # leaves the log as it is
    if taken < 0 or not has_lost_words(content, taken):
        return None
    said = (
        "The cockpit ended suddenly, and some of what you typed last could not be read. Words from the last minutes may be "
        "missing. Check the notes of that lesson."
    )
    try:
        return f"{said} What is left is kept as {_set_aside(log)}."
    except OSError:
        return said


def has_lost_words(content: bytes, taken: int) -> bool:
    """Whether a log holds the end of a transaction beyond the frames that were taken, which were so many.

    A transaction that has no end was never saved. One whose last frame was cut off or torn was, and counts: nobody can
    tell a power cut from damage here, and in both a word that was seen is missing.
    """
    if len(content) <= _HEADER:
        return False
    if not _has_sound_header(content):
        return True
    page_size = struct.unpack_from(">I", content, 8)[0]
    salts = content[16:24]
    first = _HEADER + taken * (_FRAME_HEADER + page_size)
    return any(
        content[at + 8 : at + 16] == salts and content[at + 4 : at + 8] != b"\0\0\0\0"
        for at in range(first, len(content) - _FRAME_HEADER, _FRAME_HEADER + page_size)
    )


def _has_sound_header(content: bytes) -> bool:
    magic, version, page_size = struct.unpack_from(">III", content)
    if magic not in _MAGIC or version != 3007000 or page_size < 512:
        return False
    words = struct.unpack_from((">" if magic & 1 else "<") + "6I", content)
    first = second = 0
    for one, other in zip(words[::2], words[1::2], strict=True):
        first = (first + one + second) & _WORD
        second = (second + other + first) & _WORD
    return struct.unpack_from(">II", content, 24) == (first, second)


def _set_aside(log: Path) -> Path:
    number = 1
    while (aside := log.with_name(f"{log.name}.set-aside-damaged-{number}")).exists():
        number += 1
    shutil.copyfile(log, aside)
    aside.chmod(0o600)
    return aside
