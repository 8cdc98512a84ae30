"""With the engraver of staves, and as if its extra were not installed."""

import sys

import pytest

from cockpit.printing import staves


@pytest.fixture
def without_verovio(monkeypatch):
    """As where the extra is not installed."""
    monkeypatch.setitem(sys.modules, "verovio", None)
    forget()
    yield
    monkeypatch.undo()
    forget()


@pytest.fixture(params=[True, False], ids=["with", "without"])
def has_verovio(request):
    """Whether the extra is there: once so, once not."""
    if not request.param:
        request.getfixturevalue("without_verovio")
    return request.param


def forget():
    staves._engraver.cache_clear()
    staves._drawn.cache_clear()
