"""The style sheet that asks only what can be different, against Textual's own: every part has the same styles."""

from support.screens import on_screen
from textual.css.stylesheet import Stylesheet

from cockpit.screens.textual_parts.quick_style_sheet import QuickStyleSheet

KEYS = (
    *(
        "f2",
        "tab",
        "m",
        "x",
        "escape",
        "f12",
        "escape",
        "ctrl+p",
        "t",
        "escape",
        "f1",
        "escape",
        "f10",
        "down",
        "escape",
    ),
    *("ctrl+b", "tab", "escape", "f8", "escape", "f6", "f6", "f5", "ctrl+n", "escape"),
)


def parts(app):
    return [node for screen in app.screen_stack for node in screen.walk_children(with_self=True)] + [app]


def styles(app):
    """What is set on each part and on what it draws itself; a layout is equal to none but itself, so that it is told by its name."""
    return {
        node: {
            name: sorted(f"{rule}: {value!r}" for rule, value in each.base._rules.items())
            for name, each in (("", node.styles), *node._component_styles.items())
        }
        for node in parts(app)
    }


def test_every_part_of_every_screen_has_the_styles_that_textual_gives_it(tmp_path):
    async def steps(opened):
        app = opened.app
        quick = app.stylesheet
        assert isinstance(quick, QuickStyleSheet)
        stock = Stylesheet(variables=quick._variables)
        seen = set()
        for key in KEYS:
            await opened.press(key)
            seen.add(type(app.screen).__name__)
            shown = styles(app)
            stock._rules, stock._rules_map = quick.rules, None
            for node in shown:
                stock.replace_rules(node, {})
                stock.apply(node)
            assert styles(app) == shown, key
        assert seen >= {"AheadScreen", "CurtainScreen", "DayReviewScreen", "DayScreen", "FindScreen", "HelpScreen"}

    on_screen(tmp_path, steps)


def test_a_disabled_part_and_those_within_it_look_so_as_soon_as_it_is(tmp_path):
    async def steps(opened):
        opened.day.disabled = True
        await opened.done()
        assert opened.notes.text.styles.opacity == 0.7
        opened.day.disabled = False
        await opened.done()
        assert opened.notes.text.styles.opacity == 1.0

    on_screen(tmp_path, steps)
