"""Large numerals out of blocks, and the lesson as a ruler; of our own drawing."""

# Each numeral on a grid of 4 by 5: broad feet and open bowls, so that 6, 8, 9 and 0 differ from across a room.
_GRID = {
    "0": (" ## ", "#  #", "#  #", "#  #", " ## "),
    "1": ("  # ", " ## ", "  # ", "  # ", " ###"),
    "2": ("### ", "   #", " ## ", "#   ", "####"),
    "3": ("### ", "   #", " ## ", "   #", "### "),
    "4": ("#  #", "#  #", "####", "   #", "   #"),
    "5": ("####", "#   ", "### ", "   #", "### "),
    "6": (" ## ", "#   ", "### ", "#  #", " ## "),
    "7": ("####", "   #", "  # ", " #  ", " #  "),
    "8": (" ## ", "#  #", " ## ", "#  #", " ## "),
    "9": (" ## ", "#  #", " ###", "   #", " ## "),
    ":": ("  ", " #", "  ", " #", "  "),
    "+": ("   ", " # ", "###", " # ", "   "),
    "-": ("   ", "   ", "###", "   ", "   "),
    " ": ("  ", "  ", "  ", "  ", "  "),
}
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


def big_figures(text: str, height: int) -> list[str]:
    """The text as rows of blocks, 3 or 5 high: at 3 two dots share a row, at 5 each dot is two columns wide."""
    rows = ["".join(_GRID[sign][line] + " " for sign in text).rstrip("\n") for line in range(5)]
    if height >= 5:
        return [row.replace("#", "██").replace(" ", "  ") if "#" in row else "  " * len(row) for row in rows]
    rows.append(" " * len(rows[0]))
    return [
        "".join(_HALVES[above == "#", below == "#"] for above, below in zip(rows[line], rows[line + 1], strict=True))
        for line in (0, 2, 4)
    ]


def ruler(share: float, cue: float, width: int) -> tuple[str, str, str, str]:
    """A lesson as a line of `width` columns: what passed, what is left up to the wrap-up cue, the cue, the rest.

    `share` and `cue` are parts of the lesson, 0 to 1. What passed is thick; the cue is a bar until it has passed.
    """
    passed = min(width, max(0, round(share * width)))
    mark = min(width - 1, max(0, round(cue * width)))
    if passed > mark:
        return "━" * passed, "─" * (width - passed), "", ""
    return "━" * passed, "─" * (mark - passed), "┼", "─" * (width - mark - 1)
