"""The signs of a terminal that draws ours over two cells."""

import pytest
from rich.segment import Segment
from support.screens import on_screen
from textual.color import Color

from cockpit.screens.look import show
from cockpit.screens.look.ascii_signs import AsciiSigns
from cockpit.settings.settings import parse_settings
from cockpit.studio.errors import BadSettings

MEANINGS = [
    show.HAPPENED, show.OPEN, show.MORE_WORK, show.NOW, show.NOT, show.NEEDS_HER,
    show.PRIVATE, show.REMEMBER, show.FREE, show.CHOSEN, show.BREAK, show.CHANGES,
]  # fmt: skip


def as_ascii(text):
    return "".join(segment.text for segment in AsciiSigns().apply([Segment(text)], Color(0, 0, 0)))


def test_each_sign_has_an_ascii_one_of_its_own():
    drawn = as_ascii("".join(MEANINGS))
    assert drawn.isascii()
    assert len(set(drawn)) == len(MEANINGS) == len(drawn)


def test_what_was_typed_stays():
    assert as_ascii("Étude für Zoë, Søren ř ß 日本") == "Étude für Zoë, Søren ř ß 日本"


@pytest.mark.parametrize("size", [(44, 20), pytest.param((150, 45), marks=pytest.mark.long)])
def test_every_screen_is_drawn_with_letters_and_ascii_alone(tmp_path, size):
    ways = [
        [],
        ["tab"],
        ["f7"],
        ["m"],
        ["escape", "escape", "f1"],
        ["escape", "f10"],
        ["escape", "ctrl+a"],
        ["y"],
        ["escape", "ctrl+b"],
        ["f6"],
    ]

    async def steps(opened):
        opened.day.look_ahead()  # the queue goes on to the end of her hours, and to tomorrow
        for keys in ways:
            await opened.press(*keys)
            await opened.pilot.pause()
            drawn = opened.drawn()
            assert {sign for sign in drawn if not sign.isascii() and not sign.isalpha()} <= {"\xa0", "\u202f"}, keys

    on_screen(tmp_path / "studio", steps, size=size, signs="ascii")


def test_the_setting_says_what_works():
    assert parse_settings('home_zone = "UTC"\nsigns = "ascii"', "settings.toml").signs == "ascii"
    with pytest.raises(BadSettings, match=r'settings\.toml, signs: found "plain"\. Use one of drawn, ascii\.'):
        parse_settings('home_zone = "UTC"\nsigns = "plain"', "settings.toml")
