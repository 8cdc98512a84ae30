"""Keys do what they did when each waited for the one before, however many arrive at once.

The bytes of a terminal go through its own parser into the open program: all in one read, in pieces of any size, or
a key at a time. `esc` alone ends a read: before another key in the same read it would be that key with alt, in every
terminal program.
"""

import asyncio
import tempfile
from pathlib import Path

import pytest
import textual
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.screens import cockpit
from support.terminal_bytes import BYTES, TypedBytes, in_pieces

ONE_READ = [10_000]
A_LINE = st.sampled_from(
    ["Piece: AAA\r", "Scales: D major, q=72, 5 min\r", "Private: tired\r", "hum", "é日", " ", "\x7f", "\x7f\x7f"]
)
KEYS = "up down left right home end tab delete f2 f3 f4 f5 f6 f9 f10"
A_KEY = st.sampled_from([BYTES[name] for name in KEYS.split()])
A_PASTE = st.sampled_from(["\x1b[200~Etude: no. 5\x1b[201~", "\x1b[200~two\rlines\r\x1b[201~"])
FOUND = st.sampled_from(["nal\r", "ishaan\r", "il", "zzz\r"]).map(lambda name: BYTES["f8"] + name)
IN_LAST = st.lists(st.sampled_from([*"dmnxrc72", BYTES["down"], "\r", "\x7f"]), max_size=5).map(
    lambda keys: BYTES["tab"] + "".join(keys)
)
IN_QUEUE = st.tuples(
    st.sampled_from(["", BYTES["down"], BYTES["down"] * 3]),
    st.sampled_from(
        ["mthu 4:30pm\r", "mthu 4:30pm\r\r", "esat 10am 45m\r\r", "b24 dec holidays\r", "u", "a", "c", "\r"]
    ),
).map(lambda typed: BYTES["tab"] * 2 + "".join(typed))
ESC = st.just(BYTES["escape"])
A_TAP = st.tuples(st.integers(0, 70), st.integers(36, 39)).map(
    lambda at: f"\x1b[<0;{at[0] + 1};{at[1] + 1}M\x1b[<0;{at[0] + 1};{at[1] + 1}m"
)
SEQUENCES = st.lists(
    st.one_of(A_LINE, A_LINE, A_KEY, A_KEY, A_PASTE, FOUND, IN_LAST, IN_QUEUE, ESC, A_TAP), min_size=1, max_size=12
)


async def _left_by(bytes_typed: str, sizes: list[int] | None) -> dict[str, object]:
    with tempfile.TemporaryDirectory() as folder:
        async with cockpit(Path(folder)) as opened:
            terminal = TypedBytes(opened)
            for piece, is_esc in in_pieces(bytes_typed, sizes):
                await terminal.read(piece, is_esc=is_esc)
                if sizes is None:
                    await terminal.rest()
            await terminal.rest()
            await opened.pilot.pause()
            return await terminal.state()


def same_in_any_pieces(sequence: list[str], sizes: list[int]) -> None:
    typed = "".join(sequence)
    slowly = asyncio.run(_left_by(typed, None))
    assert asyncio.run(_left_by(typed, ONE_READ)) == slowly
    assert asyncio.run(_left_by(typed, sizes)) == slowly


@pytest.mark.parametrize(
    "sequence",
    [
        ["Piece: AAA", BYTES["f9"], "BBB"],
        [BYTES["f8"], "nal\r", "Piece: BBB"],
        *(
            pytest.param(sequence, marks=pytest.mark.long)
            for sequence in (
                ["Piece: AAA", BYTES["f5"], "BBB"],
                ["Private: tired", BYTES["f9"], "BBB"],
                ["abq\x7fcd"],
                ["abc", BYTES["tab"], "def"],
                ["hum", BYTES["tab"], "dd", BYTES["escape"], "more"],
                [BYTES["tab"] * 2, BYTES["down"], "mthu 4:30pm\r", "x"],
            )
        ),
    ],
)
def test_keys_that_come_at_once_do_what_they_do_one_by_one(sequence):
    same_in_any_pieces(sequence, [3])


def test_the_private_names_that_keep_keys_in_order_were_tried_with_this_version_of_textual():
    assert textual.__version__ == "8.2.8"


@pytest.mark.long
@examples(2, long=5)
@given(SEQUENCES, st.lists(st.integers(1, 9), min_size=1, max_size=8))
def test_any_keys_do_the_same_in_pieces_of_any_size(sequence, sizes):
    same_in_any_pieces(sequence, sizes)
