"""Typed text as Markdown that renders to exactly what was typed, and still reads well unrendered.

A sign is escaped only where CommonMark 0.31.2 or a GFM reader would take it for markup. Four things are not kept to
the letter: blanks that begin a line become no-break spaces (nothing else indents in every reader), blanks that end it
are dropped, empty lines in a row count as one, and a control character becomes U+FFFD.
"""

import re
from itertools import groupby

from cockpit.studio.shown import one_line, typed_lines

# A web address ends before whatever a reader could decode or take for a border; it never begins inside a word.
_ADDRESS = r'(?<![\w\\])(?i:https?)://[^\W_](?:(?!&#?\w+;)[^\s<>"`|\\])*'
_SIGN = "|".join(
    (
        r"\\(?![^\W_])",  # before a letter or digit a backslash is itself
        r"[`\[]",  # without an opening bracket the closing one is itself
        r"<(?=[A-Za-z/!?]|[^\s<>]*@)",  # a tag, a comment, an address in angle brackets
        r"&(?=#?\w+;)",  # an entity
        r"(?:(?<=\s)|^)#+$",  # the end of a heading
    )
)
_MARKS = re.compile(rf"(?P<address>{_ADDRESS})|(?P<run>\*+|_+|~+)|(?P<sign>{_SIGN})")
# What makes a block of a line, up to the sign to escape. Stars, underscores, waves and brackets are escaped already.
_BLOCK = re.compile(
    r"""(?=\#{1,6}(?:[ \t]|$))          # a heading
      | (?=[-+](?:[ \t]|$))             # a list item
      | [0-9]{1,9}(?=[.)](?:[ \t]|$))   # a numbered item
      | (?=>)                           # a quotation
      | (?=[-:|][-:| \t]*$|=+$)         # a rule, a table's second row (GFM), what makes a heading of the line above
    """,
    re.VERBOSE,
)
_NO_BREAK_SPACE = "\u00a0"
_HARD_BREAK = "  \n"
_AFTER_AN_ADDRESS = ".,;:!?'*~"
_PAIRS = {")": "(", "]": "[", "}": "{"}


def literal(text: str) -> str:
    """Typed text as Markdown: lines joined by hard breaks, paragraphs where lines were left empty."""
    paragraphs = groupby(typed_lines(text), key=lambda line: bool(line.strip()))
    return "\n\n".join(_paragraph(list(lines)) for has_words, lines in paragraphs if has_words)


def literal_line(text: str) -> str:
    """Typed text as one Markdown line that begins a block; a line break in it becomes a blank."""
    return _paragraph([one_line(text)])


def literal_inline(text: str) -> str:
    """Typed text as Markdown that follows other words and a blank on its line; a line break in it becomes a blank."""
    return _inline(one_line(text).rstrip())


def _paragraph(lines: list[str]) -> str:
    first, *others = (_line(line.rstrip()) for line in lines)
    if first[:1].isspace():
        # Some readers trim a paragraph of every kind of blank, but none trims an entity.
        entity = "&nbsp;" if first[0] == _NO_BREAK_SPACE else f"&#{ord(first[0])};"
        first = entity + first[1:]
    return _HARD_BREAK.join([first, *others])


def _line(line: str) -> str:
    words = line.lstrip(" \t")
    if indent := line[: len(line) - len(words)]:
        # Behind a no-break space nothing begins a block.
        return _NO_BREAK_SPACE * len(indent.expandtabs(4)) + _inline(words)
    escaped = _inline(words)
    if block := _BLOCK.match(escaped):
        return f"{escaped[: block.end()]}\\{escaped[block.end() :]}"
    return escaped


def _inline(text: str) -> str:
    return _MARKS.sub(_escaped, text)


def _escaped(found: re.Match[str]) -> str:
    if found["address"]:
        return _autolink(found["address"])
    if found["run"]:
        return found[0] if _is_harmless(found) else "".join(f"\\{sign}" for sign in found[0])
    return f"\\{found[0]}"


def _is_harmless(found: re.Match[str]) -> bool:
    """Whether a run of `*`, `_` or `~` can neither open nor close anything (CommonMark 0.31.2, 6.2; GFM 6.5)."""
    before = found.string[: found.start()][-1:]
    after = found.string[found.end() :][:1]
    if found[0] == "~":  # it may open, for no other one closes: `~5 min` is common
        return not before or before.isspace()
    if before == after == " ":
        return True
    return found[0][0] == "_" and before.isalnum() and after.isalnum()


def _autolink(address: str) -> str:
    """A web address in angle brackets, where no sign in it counts as markup; the sentence's own signs stay outside."""
    end = len(address)
    while address[end - 1] in _AFTER_AN_ADDRESS or _closes_nothing(address[:end]):
        end -= 1
    tail = re.sub("[*~]", r"\\\g<0>", address[end:])
    return f"<{address[:end]}>{tail}"


def _closes_nothing(address: str) -> bool:
    opening = _PAIRS.get(address[-1])
    return opening is not None and address.count(address[-1]) > address.count(opening)
