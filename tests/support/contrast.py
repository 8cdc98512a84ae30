"""The contrast of two colors by the formula of WCAG 2.2 (w3.org/TR/WCAG22, relative luminance and contrast ratio)."""


def contrast(first: str, second: str) -> float:
    """The contrast ratio, 1 to 21, of two sRGB colors written `#rrggbb`; never rounded."""
    lighter, darker = sorted((_luminance(first), _luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def _luminance(color: str) -> float:
    red, green, blue = (_linear(int(color[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4
