"""What a reader of Markdown shows: the words of each block, with line breaks as line breaks."""

from markdown_it import MarkdownIt
from markdown_it.token import Token


class _AsWritten(MarkdownIt):
    """Shows a web address as it is written; by itself the library shows `%41` as `A`."""

    def normalizeLinkText(self, link: str) -> str:  # noqa: N802 the name it overrides
        return link


COMMONMARK = _AsWritten("commonmark", {"html": True})
GFM = _AsWritten("commonmark", {"html": True}).enable(["table", "strikethrough"])
_SHOWN = {"text": None, "softbreak": " ", "hardbreak": "\n", "link_open": "", "link_close": ""}


def shown(markdown: str, reader: MarkdownIt = COMMONMARK) -> str:
    """The text that a document of plain paragraphs shows, an empty line between two; anything else is an error."""
    tokens = reader.parse(markdown)
    kinds = {token.type for token in tokens}
    assert kinds <= {"paragraph_open", "inline", "paragraph_close"}, kinds
    return "\n\n".join(inline_text(token) for token in tokens if token.type == "inline")


def inline_text(token: Token) -> str:
    """The text of a block's inline content, which may hold nothing but text, breaks and links of bare addresses."""
    parts = []
    for child in token.children or []:
        assert child.type in _SHOWN, child.type
        assert child.type != "link_open" or child.info == "auto", "a link that nobody typed"
        said = _SHOWN[child.type]
        parts.append(child.content if said is None else said)
    return "".join(parts)
