"""How many examples a property is tried on."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import settings

_LOOKING = 20  # times as many with `--hypothesis-profile=long`
_is_long_run = False


def note_run(chosen: str) -> None:
    """Takes in which tests were asked for, before any of them is loaded."""
    global _is_long_run
    _is_long_run = chosen == "long"


def examples(usual: int, *, long: int = 0) -> Callable[[Any], Any]:
    """This many; where there is a longer number, that many among the tests that take long."""
    if long and _is_long_run:
        return lambda test: pytest.mark.long(settings(max_examples=long)(test))
    return settings(max_examples=usual * (_LOOKING if settings.get_current_profile_name() == "long" else 1))
