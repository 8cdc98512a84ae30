"""The thread of the index: asked while it works it looks again, and whatever ends it does not end it for good."""

import threading

import pytest

from cockpit.store.index_thread import IndexThread


class Index:
    """An index that takes a while, and that fails when it is told to."""

    def __init__(self) -> None:
        self.looks = 0
        self.fails = False
        self.goes_on = threading.Event()

    def catch_up(self, pause, is_stopped) -> None:
        self.looks += 1
        self.goes_on.wait(5)
        if self.fails:
            raise ValueError("no note is read so")


def test_asked_while_it_works_it_looks_once_more():
    index = Index()
    thread, done = IndexThread(index), []
    for number in range(3):
        thread.catch_up_soon(lambda number=number: done.append(number))
    index.goes_on.set()
    thread.wait()
    assert sorted(done) == [0, 1, 2]
    assert index.looks in {1, 2}
    thread.stop()
    thread.catch_up_soon(lambda: done.append(3))
    thread.wait()
    assert 3 not in done


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
def test_after_a_fault_it_begins_again():
    index = Index()
    thread, done = IndexThread(index), []
    index.goes_on.set()
    index.fails = True
    thread.catch_up_soon(lambda: done.append(1))
    thread.wait()
    index.fails = False
    thread.catch_up_soon(lambda: done.append(2))
    thread.wait()
    assert done == [2]
