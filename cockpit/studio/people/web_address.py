"""Which texts are addresses of the web, and open in a browser."""

from urllib.parse import urlsplit

from cockpit.studio.shown import can_be_shown

_SCHEMES = frozenset({"http", "https"})


def web_address(text: str) -> str | None:
    """The web address that a text is, its scheme in small letters (RFC 3986, 3.1); None for all else, a file or a script too."""
    said = text.strip()
    try:
        parts = urlsplit(said)
    except ValueError:
        return None
    # `urlsplit` drops tabs and breaks of lines, and so it would not see what stands behind them.
    if parts.scheme not in _SCHEMES or not parts.hostname or said.split() != [said] or not can_be_shown(said):
        return None
    return f"{parts.scheme}{said[len(parts.scheme) :]}"
