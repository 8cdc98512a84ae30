"""What came before what: a standing time and those whose place it took, a make-up and what it makes up."""

from collections.abc import Callable
from typing import TypeVar

Key = TypeVar("Key")


def origin_of(key: Key, before: Callable[[Key], Key | None]) -> Key:
    """The first of those that came before a key, one before the other; itself, where there are none.

    Damaged rows that go in a circle do not hold anybody up.
    """
    passed = {key}
    while (earlier := before(key)) is not None and earlier not in passed:
        passed.add(earlier)
        key = earlier
    return key
