"""How many examples a property is tried on."""

from hypothesis import settings

_LOOKING = 20  # times as many with `--hypothesis-profile=long`


def examples(usual: int, *, long: int = 0) -> settings:
    """Two in five of as many as are usual; among the tests that take long half the longer number, or the rest as others."""
    match settings.get_current_profile_name():
        case "many":
            return settings(max_examples=max(1, long // 2 or usual - _first(usual)))
        case "long":
            return settings(max_examples=max(usual, long) * _LOOKING)
        case _:
            return settings(max_examples=_first(usual))


def _first(usual: int) -> int:
    return max(1, usual * 2 // 5)
