"""What a page of ours shows, read with the standard library's own parser of HTML."""

from html.parser import HTMLParser
from pathlib import Path

THEMES = Path(__file__).parents[2] / "themes"
STYLE = (THEMES / "family.css").read_text(encoding="utf-8")
STYLE_OF_SHEET = STYLE + (THEMES / "staves.css").read_text(encoding="utf-8")
_BLOCKS = frozenset({"h1", "h2", "h3", "h4", "p", "li"})


class Shown(HTMLParser):
    """The blocks of text of a page in order, each with the name of its element; `<br>` is a line end.

    All other white space is as it stands in the page: its style sheet keeps it. `within` are the elements met inside
    of blocks.
    """

    def __init__(self, page: str) -> None:
        super().__init__()
        self.blocks: list[tuple[str, str]] = []
        self.within: set[str] = set()
        self._element = ""
        self._words: list[str] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "hr":
            self._end_block()
            self.blocks.append(("rule", ""))
        elif tag in _BLOCKS:
            self._end_block()  # a list within an item begins a block of its own
            self._element = tag
        elif self._element:
            self.within.add(tag)
            if tag == "br":
                self._words.append("\n")

    def handle_endtag(self, tag: str) -> None:
        if tag == self._element:
            self._end_block()

    def _end_block(self) -> None:
        if self._element:
            self.blocks.append((self._element, "".join(self._words)))
        self._element, self._words = "", []

    def handle_data(self, data: str) -> None:
        self._words.append(data)

    def under(self, heading: str) -> list[str]:
        """The texts of the blocks between a heading and the next one or a rule; none if there is no such heading."""
        headings = [place for place, (element, _) in enumerate(self.blocks) if element[0] in "hr"]
        for begin, end in zip(headings, [*headings[1:], len(self.blocks)], strict=True):
            if self.blocks[begin][1] == heading:
                return [text for _, text in self.blocks[begin + 1 : end]]
        return []
