"""Values as the panes say them."""

from datetime import timedelta

from support.studio import CLOCK, CUES, STARTS_AT, TEODOR, booking

from cockpit.screens.lessons.countdown import clock_words
from cockpit.studio.lessons.countdown import read_clock


def test_an_end_seconds_after_a_minute_agrees_with_how_late_the_next_lesson_starts():
    running = booking(began_at=STARTS_AT + timedelta(seconds=7), gives_full_length=True)
    following = booking(TEODOR, starts_at=STARTS_AT + timedelta(minutes=30))
    face = read_clock([running, following], STARTS_AT + timedelta(minutes=1), CUES)
    assert clock_words(face, CLOCK, 15) == ("left", "ends 4:31 pm", "Teodor starts 1 minute late")


def test_an_end_at_a_whole_minute_is_that_minute():
    face = read_clock([booking(began_at=STARTS_AT)], STARTS_AT + timedelta(minutes=1), CUES)
    assert clock_words(face, CLOCK, 15)[1] == "ends 4:30 pm"
