"""What a typed line says is reached already. Common practice, no source."""

import pytest
from support.reading import ranges, read

from cockpit.studio.assignments.assignment import Hands


@pytest.mark.parametrize(
    "text",
    [
        "mm. 1-16 are great, work mm. 17-24",
        "mm. 1-8 done! next mm. 17-24",
        "mm. 1-8 done work mm. 17-24",
        "mm. 1-8 (done), mm. 17-24",
        "mm. 1-8 ✓ mm. 17-24",
        "mm. 1-8: great. Now mm. 17-24",
        "mm. 1-8 went well, mm. 17-24",
        "mm. 1-8 is memorized, so mm. 17-24",
        "mm. 1-8 is already better, mm. 17-24",
        "mm. 1-8 sounded lovely, mm. 17-24",
        "m. 5 is fine, mm. 17-24",
        "finished mm. 1-8, now mm. 17-24",
        "great job on mm. 1-8, now mm. 17-24",
        "worked on mm. 1-8 today, mm. 17-24",
        "mm. 1-8 later, mm. 17-24",
        "mm. 1-8 not yet, mm. 17-24",
        "leave mm. 1-8 for now, mm. 17-24",
    ],
)
def test_finished_measures_are_not_claimed_beside_others(text):
    assert ranges(f"Gavotte {text}") == [(17, 24)]
    assert read(f"Gavotte {text}").title == "Gavotte"


@pytest.mark.parametrize(
    "text",
    [
        "mm. 1-8 are great",
        "mm. 1-8 great",
        "mm. 1-8, great",
        "mm. 1-8 are solid now",
        "mm. 1-8, 17-24 done",
        "mm. 1-16 done, mm. 9-24",
        "mm. 9-end are good, mm. 20-24",
        "mm. 20-24 are good, mm. 9-end",
        "no mm. 1-8 yet",
        "learned mm. 1-8",
        "once mm. 1-8 are easy, mm. 9-16",
        "when you finished mm. 1-8, mm. 9-16",
        "mm. 1-8, when done mm. 9-16",
    ],
)
def test_where_nothing_else_is_clear_no_measures_are_claimed(text):
    assert ranges(f"Gavotte {text}") == []


@pytest.mark.parametrize(
    "text",
    [
        "mm. 1-8 good tone",
        "mm. 1-8, good bow",
        "mm. 1-8, nice and slow",
        "mm. 1-8 easy bowing",
        "mm. 1-8 well in tune",
        "mm. 1-8 are still shaky",
        "mm. 1-8 not good yet",
        "mm. 1-8 aren't good",
        "mm. 1-8 are almost done",
        "mm. 1-8 should be good by Friday",
        "mm. 1-8 need to be memorized",
        "mm. 1-8 ready for the recital",
        "have fun! mm. 1-8",
        "done with the first line, mm. 1-8",
        "good bow work, mm. 1-8",
        "mm. 1-8 never louder than p",
        "mm. 1-8 don't rush",
        "mm. 1-8 until they are easy",
        "mm. 1-8 as you did mm. 9-16",
    ],
)
def test_measures_that_are_still_to_be_worked_on_are_claimed(text):
    assert ranges(f"Gavotte {text}") == [(1, 8)]


def test_finished_pages_and_hands_are_not_claimed_either():
    assert [each.first for each in read("p. 12 is done, p. 13").pages] == [13]
    assert read("HS is solid, now HT").hands is Hands.TOGETHER
    assert read("HS is solid").hands is None
