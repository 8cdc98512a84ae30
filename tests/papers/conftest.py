"""What the tests of papers share: a real browser, where there is one."""

import pytest
from support.chromium import PROGRAM, Chromium


@pytest.fixture(scope="module")
def browser(tmp_path_factory):
    if PROGRAM is None:  # a computer without one can still run all other tests
        pytest.skip("Chromium is not installed; on Debian: apt install chromium")
    chromium = Chromium(tmp_path_factory.mktemp("chromium"))
    yield chromium
    chromium.close()
