"""Looks: what a theme file must say, and that everything in a bundled one can be read.

The ratios are those of WCAG 2.2: 1.4.3 (4.5 for text), 1.4.6 (7 for text, enhanced), 1.4.11 (3 for what is no text).
"""

import asyncio
import re
import subprocess
import sys
from itertools import combinations, pairwise

import pytest
from textual.app import App, ComposeResult
from textual.color import Color
from textual.constants import DIM_FACTOR
from textual.content import Content
from textual.widgets import Footer, Input, OptionList, Static, TextArea

from cockpit.screens.look.legible import GROUNDS, PAIRS, contrast
from cockpit.screens.look.roles import ROLES, Face, Look, face_of, tinted
from cockpit.screens.look.styles import DAY_STYLES, STYLES_OVER_DAY
from cockpit.screens.look.theming import bundled_looks, looks_of, read_look, to_textual
from cockpit.studio.errors import BadSettings

NAMES = ("ebony", "footlights", "ivory", "rosin", "spruce")
LOOKS = bundled_looks()
TEXT, NO_TEXT, ENHANCED = 4.5, 3.0, 7.0
GOOD = (
    'name = "my-oak"\ntitle = "Oak"\nis_dark = false\n[colors]\n'
    + "\n".join(f'{role} = "{"#000000" if role in GROUNDS else "#10aF09"}"' for role in ROLES)
    + "\n"
)


def needed(look: Look) -> float:
    return ENHANCED if look.name == "footlights" else TEXT


# WCAG 2.2, relative luminance and contrast ratio; black on white is the standard's own 21, the others were computed with
# its formula apart from this code.
@pytest.mark.parametrize(
    ("first", "second", "ratio"),
    [
        ("#000000", "#FFFFFF", 21.0),
        ("#767676", "#FFFFFF", 4.5422),
        ("#777777", "#FFFFFF", 4.4781),
        ("#949494", "#FFFFFF", 3.0335),
        ("#959595", "#FFFFFF", 2.9953),
        ("#595959", "#FFFFFF", 7.0047),
        ("#5A5A5A", "#FFFFFF", 6.8969),
        ("#FF0000", "#FFFFFF", 3.9985),
        ("#0000FF", "#FFFFFF", 8.5925),
        ("#0000FF", "#000000", 2.4440),
        ("#757575", "#000000", 4.5578),
        ("#E69F00", "#1E1E1E", 7.40),
    ],
)
def test_the_contrast_is_that_of_the_published_formula(first, second, ratio):
    places = 5e-3 if ratio == 7.40 else 5e-5
    assert contrast(first, second) == pytest.approx(ratio, abs=places)
    assert contrast(second, first) == contrast(first, second)


def test_five_themes_come_with_the_program_and_the_dark_one_is_first():
    assert sorted(LOOKS) == list(NAMES)
    assert next(iter(LOOKS)) == "ebony"
    assert {name for name, look in LOOKS.items() if not look.is_dark} == {"ivory", "spruce"}


@pytest.mark.parametrize("name", NAMES)
def test_every_text_can_be_read_on_every_ground_it_stands_on(name):
    colors = {**LOOKS[name].colors, **tinted(LOOKS[name])}
    ratios = {(role, ground): contrast(colors[role], colors[ground]) for role, ground in PAIRS}
    assert {pair: ratio for pair, ratio in ratios.items() if ratio < needed(LOOKS[name])} == {}


@pytest.mark.parametrize("name", NAMES)
def test_the_dimmed_words_of_the_chosen_row_in_the_palette_can_be_read(name):
    """Textual dims the help of a found command by mixing its color with the ground it stands on."""
    behind, front = (Color.parse(LOOKS[name].colors[role]) for role in ("cursor_ground", "cursor_text"))
    assert contrast(behind.blend(front, DIM_FACTOR).hex6, behind.hex6) >= TEXT


@pytest.mark.parametrize("name", NAMES)
def test_rules_and_the_chosen_row_stand_out_from_what_they_lie_on(name):
    colors = LOOKS[name].colors
    for ground in ("ground", "pane"):
        assert contrast(colors["line"], colors[ground]) >= NO_TEXT
        assert contrast(colors["cursor_ground"], colors[ground]) >= NO_TEXT


@pytest.mark.parametrize("name", NAMES)
def test_a_theme_is_as_dark_as_it_says(name):
    look = LOOKS[name]
    lighter_than_text = contrast(look.colors["ground"], "#000000") > contrast(look.colors["text"], "#000000")
    assert lighter_than_text is not look.is_dark


@pytest.mark.parametrize("name", NAMES)
def test_the_clock_changes_its_color_visibly_as_the_lesson_goes_on(name):
    """At least 60 of 441 apart in red, green and blue: common practice, no source."""
    for first, second in combinations(("clock_running", "clock_wrap_up", "clock_over", "clock_waiting"), 2):
        one, other = (Color.parse(LOOKS[name].colors[role]).rgb for role in (first, second))
        assert sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) ** 0.5 >= 60, (first, second)


def test_no_two_themes_share_a_ground():
    assert len({look.colors["ground"] for look in LOOKS.values()}) == len(NAMES)


class Bare(App[None]):
    """Nothing but a look."""

    def __init__(self) -> None:
        super().__init__()
        for look in LOOKS.values():
            self.register_theme(to_textual(look))


class Stock(Bare):
    """Textual's own widgets, as they come."""

    BINDINGS = [("f9", "finish", "Finish")]

    def compose(self) -> ComposeResult:
        text = TextArea("Scales: D major")
        text.cursor_blink = False
        yield text
        yield OptionList("Ilse", "Teodor")
        yield Input("typed", select_on_focus=False)
        yield Input(placeholder="a hint")
        yield Static(Content.from_markup("[$text-muted]m[/] [$text-warning]w[/] [$text-error]e[/] [$text-success]s[/]"))
        yield Footer()


def faint(app: App[None], least: float) -> set[tuple[str, float]]:
    """The texts on the screen that have less contrast to what lies behind them, each with its contrast."""
    found = set()
    for strip in app.screen._compositor.render_strips():
        for segment in strip:
            style, text = segment.style, segment.text.strip()
            if style is None or style.color is None or style.bgcolor is None or not re.search(r"\w", text):
                continue
            front, behind = (Color.from_rich_color(color).hex6 for color in (style.color, style.bgcolor))
            if style.reverse:
                front, behind = behind, front
            if contrast(front, behind) < least:
                found.add((text, round(contrast(front, behind), 2)))
    return found


def test_stock_widgets_can_be_read_in_every_theme():
    async def look_at_them() -> None:
        app, grounds = Stock(), set()
        async with app.run_test(size=(80, 40)) as pilot:
            for name in NAMES:
                app.theme = name
                await pilot.pause()
                grounds.add(app.screen.styles.background)
                for _ in range(4):
                    assert faint(app, needed(LOOKS[name])) == set(), name
                    await pilot.press("tab")
        assert len(grounds) == len(NAMES)

    asyncio.run(look_at_them())


def shown(app: App[None]) -> str:
    return "\n".join(strip.text for strip in app.screen._compositor.render_strips())


@pytest.mark.parametrize("name", NAMES)
def test_every_variable_of_our_style_sheet_is_a_role(name):
    variables = to_textual(LOOKS[name]).variables
    used = set(re.findall(r"\$([a-z-]+)", DAY_STYLES + STYLES_OVER_DAY))
    assert used
    assert used <= variables.keys()


def test_a_theme_reads_back_as_it_was_written():
    look = read_look(GOOD, "oak.toml")
    assert (look.name, look.title, look.is_dark) == ("my-oak", "Oak", False)
    assert dict(look.colors) == {role: "#000000" if role in GROUNDS else "#10aF09" for role in ROLES}


@pytest.mark.parametrize(
    ("old", "new", "key", "found", "expected"),
    [
        ('text = "#10aF09"\n', "", "colors.text", "nothing", '"#1C1A15"'),
        ('text = "#10aF09"', 'text = "#10aG09"', "colors.text", "#10aG09", '"#1C1A15"'),
        ('text = "#10aF09"', 'text = "#FFF"', "colors.text", "#FFF", '"#1C1A15"'),
        ('text = "#10aF09"', 'text = "#10aF0900"', "colors.text", "#10aF0900", '"#1C1A15"'),
        ('text = "#10aF09"', 'text = "#10aF09\\n"', "colors.text", "#10aF09", '"#1C1A15"'),
        ('text = "#10aF09"', 'text = "red"', "colors.text", "red", '"#1C1A15"'),
        ('text = "#10aF09"', "text = 7", "colors.text", "7", '"#1C1A15"'),
        ("[colors]", '[colors]\nclock = "#000000"', "colors.clock", "unknown role", "clock_running"),
        ("[colors]", "[hues]", "hues", "unknown key", "name, title, is_dark, colors"),
        ("is_dark = false", "is_dark = 0", "is_dark", "0", "true or false"),
        ("is_dark = false", "", "is_dark", "nothing", "true or false"),
        ('name = "my-oak"', "", "name", "nothing", "my-oak"),
        ('name = "my-oak"', 'name = "My oak"', "name", "My oak", "lowercase"),
        ('name = "my-oak"', 'name = "oak,elm"', "name", "oak,elm", "lowercase"),
        ('title = "Oak"', "", "title", "nothing", "in quotes"),
        ('title = "Oak"', 'title = " "', "title", " ", "in quotes"),
        ("[colors]", '[face]\nrest = "waves"\n[colors]', "face.rest", "waves", '"dots"'),
        ("[colors]", "[face]\nstroke = 1\n[colors]", "face.stroke", "1", '"even", "thin"'),
        ("[colors]", '[face]\nhands = "two"\n[colors]', "face.hands", "unknown key", "stroke, corners, rest"),
        ("is_dark = false", 'is_dark = false\nface = "round"', "face", "round", "section [face]"),
    ],
)
def test_a_fault_names_the_file_the_key_what_was_found_and_what_would_work(old, new, key, found, expected):
    assert GOOD.count(old) >= 1
    text = re.sub(rf"^{re.escape(old)}", lambda _: new, GOOD, count=1, flags=re.MULTILINE)
    with pytest.raises(BadSettings) as refused:
        read_look(text, "oak.toml")
    assert re.fullmatch(
        rf"oak\.toml, {re.escape(key)}: found .*{re.escape(found)}\s*\. Use .*{re.escape(expected)}.*\.",
        str(refused.value),
        re.DOTALL,
    )


def test_a_theme_from_before_faces_has_the_usual_one_and_may_color_what_is_no_role_any_more():
    look = read_look(GOOD.replace("[colors]", '[colors]\nbooked = "#10aF09"'), "oak.toml")
    assert look.face == Face()
    assert set(look.colors) == set(ROLES)


def test_no_two_themes_share_a_face():
    assert len({look.face for look in LOOKS.values()}) == len(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_a_face_comes_through_the_variables_of_a_theme(name):
    assert face_of(to_textual(LOOKS[name]).variables) == LOOKS[name].face


def test_a_theme_without_colors_is_refused():
    with pytest.raises(BadSettings, match=r"oak.toml, colors: found nothing. Use a section \[colors\]"):
        read_look(GOOD.split("[colors]")[0], "oak.toml")


def test_a_text_that_is_no_toml_is_refused_with_the_line():
    with pytest.raises(BadSettings, match=r"oak.toml could not be read as TOML: .*line 2"):
        read_look('name = "oak"\ntitle = \n', "oak.toml")


def test_a_theme_of_hers_is_added_and_one_of_the_same_name_replaces_ours(tmp_path):
    (tmp_path / "themes").mkdir()
    (tmp_path / "themes" / "oak.toml").write_text("\ufeff" + GOOD, encoding="utf-8")
    (tmp_path / "themes" / "dark.toml").write_text(GOOD.replace("my-oak", "ebony"), encoding="utf-8")
    looks, sentences = looks_of(tmp_path)
    assert sentences == ()
    assert set(looks) == {*NAMES, "my-oak"}
    assert looks["ebony"].title == "Oak"
    assert looks["ivory"] == LOOKS["ivory"]


def test_a_theme_of_hers_that_is_hard_to_read_is_told_and_can_be_used(tmp_path):
    (tmp_path / "themes").mkdir()
    faint = GOOD.replace('quiet = "#10aF09"', 'quiet = "#333333"')
    (tmp_path / "themes" / "oak.toml").write_text(faint, encoding="utf-8")
    looks, (sentence,) = looks_of(tmp_path)
    assert "my-oak" in looks
    assert sentence == (
        f"{tmp_path / 'themes' / 'oak.toml'} is hard to read. The contrast of quiet on ground is 1.6; it must be at least 4.5. 2 more are too faint."
    )


def test_a_broken_theme_of_hers_is_told_and_the_others_stay(tmp_path):
    folder = tmp_path / "themes"
    folder.mkdir()
    (folder / "a.toml").write_text(GOOD.replace("#10aF09", "brown"), encoding="utf-8")
    (folder / "b.toml").write_bytes(b'name = "\xe9b\xe8ne"\n')
    (folder / "c.toml").mkdir()
    (folder / "oak.toml").write_text(GOOD, encoding="utf-8")
    looks, sentences = looks_of(tmp_path)
    assert set(looks) == {*NAMES, "my-oak"}
    first, second, third = sentences
    assert first.startswith(f"{folder / 'a.toml'}, colors.text: found brown. Use")
    assert second == f"{folder / 'b.toml'} is not UTF-8 (byte 9). Save it as UTF-8."
    assert third.startswith(f"{folder / 'c.toml'} could not be read: ")


def test_without_a_studio_folder_or_themes_in_it_ours_are_there(tmp_path):
    assert looks_of(None) == (LOOKS, ())
    assert looks_of(tmp_path) == (LOOKS, ())


def test_themes_are_read_without_textual():
    code = (
        "import sys\nfrom cockpit.screens.look import theming\ntheming.bundled_looks()\nprint('textual' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"


@pytest.mark.parametrize("name", NAMES)
def test_a_theme_is_titled_in_words_that_begin_with_its_name(name):
    """The title of one was a color once: what a search and replace leaves."""
    title = LOOKS[name].title
    assert re.fullmatch(rf"{name.capitalize()}, [a-z ]+", title), title


def test_the_roles_are_in_every_file_in_one_order():
    for name, look in LOOKS.items():
        assert list(look.colors) == list(ROLES), name
    assert all(first != second for first, second in pairwise(ROLES))
