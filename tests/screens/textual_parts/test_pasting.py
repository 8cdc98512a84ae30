"""A paste arrives whole, wherever the terminal cuts it; what is typed around it is read as before."""

import pytest
from textual._xterm_parser import XTermParser
from textual.events import Key, Paste

from cockpit.screens.textual_parts.pasting import PasteParser

BEGINS, ENDS = "\x1b[200~", "\x1b[201~"


def read(parser, parts):
    events = [event for part in parts for event in parser.feed(part)]
    return [
        (event.text if isinstance(event, Paste) else event.key) for event in events if isinstance(event, Key | Paste)
    ]


PASTED = "a\x1b[31mred\x1b[0m \x1b]2;title\x07 \x11\x1b[20 \x1b[201 end\x1b"
SENT = f"x{BEGINS}{PASTED}{ENDS}\x1bOQy{BEGINS}second{ENDS}z"
ARRIVES = ["x", PASTED.replace("\x1b", "\ufffd"), "f2", "y", "second", "z"]


@pytest.mark.parametrize("size", [1, 2, 3, 5, 7, 11, 64, 4096])
def test_a_paste_with_escapes_arrives_whole_in_parts_of_any_size(size):
    parts = [SENT[at : at + size] for at in range(0, len(SENT), size)]
    assert read(PasteParser(), parts) == ARRIVES


def test_textual_alone_takes_a_part_of_such_a_paste_for_keys():
    """When this fails, Textual has mended it, and the parser can go."""
    assert "ctrl+q" in read(XTermParser(), [SENT])


@pytest.mark.parametrize("sent", ["abc\x1b[A\x1bOP", "\x1b[<0;3;4M", "\x1b[200~plain\r\ntext\x1b[201~", "é\x1b[I"])
def test_all_else_is_read_as_textual_reads_it(sent):
    assert read(PasteParser(), [sent]) == read(XTermParser(), [sent])
