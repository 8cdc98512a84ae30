"""Typed text arrives exactly as typed, and stays readable unrendered."""

import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from support.examples import examples
from support.rendering import COMMONMARK, GFM, inline_text, shown

from cockpit.papers.notes.literal import literal, literal_inline, literal_line

NASTY = (
    *"\\`*_{}[]()<>#+-.!|~&=:;\"'/?@^%$",
    *("**", "__", "~~", "~~~", "```", "---", "***", "___", "- - -", "* * *", "===", "-", "=", "- ", "+ ", "* "),
    *("1. ", "1) ", "123456789. ", "1234567890. ", "5. étude", "# ", "###### ", " #", " ##", "> ", "|---|", ":-:", "-|-"),
    *("[bowing]: slow", "[a](b)", "![a](b)", "[ ] ", "[x] ", "[^1]: ", "[foo]: /url 'title'", "](", "]:"),
    *("<b>", "</b>", "<!-- ", " -->", "<?", "<![CDATA[", "<a@b.c>", "<3@x.org>", "<http://x>", "<script>", "<br/>"),
    *("&ouml;", "&#65;", "&#x41;", "&amp", "&", "C#", "no. 5", "q = 72", "4/4", "snake_case", "5/8", "+1 finger"),
    *("http://", "https://x.org/a_b_c*d*", "https://x.org/(a)", "HTTPS://X.org/?a=1&copy;", "https://x.org/%41~", "www.x.org"),
    *(" ", "  ", "    ", "\t", "\u00a0", "\u3000", "\u2003", "\u200b", "\ufeff", "\u202e", "\x00", "\x1b[31m", "\x85"),
    *("\n", "\n\n", "\r\n", "\r", "\u2028", "\v", "a", "b", "é", "日本", "♩", "😀", "1", "२"),
)  # fmt: skip
TYPED = st.one_of(st.lists(st.sampled_from(NASTY), max_size=12).map("".join), st.text(max_size=40))


def expected(typed: str) -> str:
    """What a reader should show: the typed text but for the four exceptions that the module names."""
    lines = [re.sub(r"[\x00-\x08\x0e-\x1f\x7f-\x9f\ud800-\udfff]", "\ufffd", line) for line in typed.splitlines()]
    shown_lines = [_indented(line.rstrip()) for line in lines]
    return re.sub("\n{3,}", "\n\n", "\n".join(shown_lines).strip("\n"))


def _indented(line: str) -> str:
    words = line.lstrip(" \t")
    return "\u00a0" * len(line[: len(line) - len(words)].expandtabs(4)) + words


@examples(100, long=1500)
@given(TYPED)
@example("Dvořák\n-")
@example("tempo\n===")
@example("[bowing]: slow")
@example("\\")
@example("a\\\nb")
@example("\\https://x.org/*a*")
@example("*https://x.org/*")
@example("~5 min\n~10 min~")
@example("a\n|---|\n|b|")
@example("    indented code")
@example("a\n    b")
@example("\u3000- a")
@example("https://x.org/~a~ ~b~")
def test_typed_text_is_shown_as_it_was_typed(typed: str) -> None:
    markdown = literal(typed)
    assert shown(markdown) == expected(typed)
    assert shown(markdown, GFM) == expected(typed)


@examples(60, long=600)
@given(TYPED)
def test_a_single_line_is_shown_as_it_was_typed(typed: str) -> None:
    line = literal_line(typed)
    assert "\n" not in line
    assert shown(line) == expected(" ".join(typed.splitlines()))


@examples(60, long=600)
@given(TYPED)
def test_text_behind_other_words_is_shown_as_it_was_typed_in_a_heading_and_in_an_item(typed: str) -> None:
    said = " ".join(typed.splitlines()).strip()
    for before, label in (("# For", "For"), ("- For", "For"), ("- **For:**", "For:")):
        tokens = COMMONMARK.parse(f"{before} {literal_inline(said)}\n")
        inlines = [token for token in tokens if token.type == "inline"]
        assert len(inlines) == 1
        bold = {"strong_open", "strong_close"}
        inlines[0].children = [child for child in inlines[0].children or [] if child.type not in bold]
        assert inline_text(inlines[0]) == f"{label} {_cleaned(said)}".rstrip()


def _cleaned(said: str) -> str:
    return re.sub(r"[\x00-\x08\x0e-\x1f\x7f-\x9f\ud800-\udfff]", "\ufffd", said)


# What a teacher types every day is left alone. Common practice, no source; the signs are those of facts about CommonMark.
@pytest.mark.parametrize(
    "typed",
    [
        "C# minor, F# and B♭",
        "no. 5, op. 64",
        "q = 72 to 88",
        "♩ = 60",
        "4/4, then 5/8",
        "snake_case",
        "+1 finger",
        "#5 bolt",
        "-2 frets",
        "3x a day (slow!)",
        "p < mf > p",
        "~5 min, ~10 min",
        "Bach & sons; R&B",
        "left | right",
        "a 5 * 5 grid",
        "2026 was good",
        "1234567890. ten digits",
        'don\'t rush; "breathe" -- relax',
        "C:\\Users",
        "100% bow, $5",
        "ana@example.org",
        "see: measures 1-8",
    ],
)
def test_everyday_words_need_no_escape(typed: str) -> None:
    assert literal(typed) == typed
    assert shown(typed) == shown(typed, GFM) == typed


@pytest.mark.parametrize(
    ("typed", "markdown"),
    [
        ("x*y*z", "x\\*y\\*z"),
        ("_legato_", "\\_legato\\_"),
        ("[bowing]: slow", "\\[bowing]: slow"),
        ("1. étude", "1\\. étude"),
        ("2) scale", "2\\) scale"),
        ("# 3", "\\# 3"),
        ("<b>", "\\<b>"),
        ("&ouml;", "\\&ouml;"),
        ("- slow", "\\- slow"),
        ("+ slow", "\\+ slow"),
        ("> p", "\\> p"),
        ("Dvořák\n-", "Dvořák  \n\\-"),
        ("Dvořák\n====", "Dvořák  \n\\===="),
        ("list:\n  - slow\n\t- fast", "list:  \n\u00a0\u00a0- slow  \n\u00a0\u00a0\u00a0\u00a0- fast"),
        ("one\n\n\ntwo  \nthree", "one\n\ntwo  \nthree"),
        ("nul\x00", "nul\ufffd"),
        ("in C #", "in C \\#"),
        ("~~fast~~", "\\~\\~fast\\~\\~"),
        ("5~10 min~", "5\\~10 min\\~"),
        ("~~~", "\\~\\~\\~"),
        ("a | b\n--|--", "a | b  \n\\--|--"),
    ],
)
def test_only_the_sign_that_needs_it_is_escaped(typed: str, markdown: str) -> None:
    assert literal(typed) == markdown


@pytest.mark.parametrize(
    ("typed", "markdown"),
    [
        ("https://example.org/a_b_*c*?d=1&e=2", "<https://example.org/a_b_*c*?d=1&e=2>"),
        ("see https://example.org/a.", "see <https://example.org/a>."),
        ("(https://example.org/a)", "(<https://example.org/a>)"),
        ("https://example.org/a_(b)", "<https://example.org/a_(b)>"),
        ("**https://example.org**", "\\*\\*<https://example.org>\\*\\*"),
        ("https://example.org/a~", "<https://example.org/a>\\~"),
        ("https://example.org/?a=1&copy;b", "<https://example.org/?a=1>\\&copy;b"),
        ("http://", "http://"),
        ("xhttps://example.org", "xhttps://example.org"),
    ],
)
def test_a_web_address_stays_whole_and_becomes_a_link(typed: str, markdown: str) -> None:
    assert literal(typed) == markdown
    links = [
        child for token in COMMONMARK.parse(markdown) for child in token.children or [] if child.type == "link_open"
    ]
    assert len(links) == markdown.count("<")


# The sources of CommonMark 0.31.2's own examples (spec.commonmark.org/0.31.2), read as if a teacher had typed them.
# The texts are written from memory of the published examples; their numbers are those of the specification.
SPECIFICATION = {
    12: "\\!\\\"\\#\\$\\%\\&\\'\\(\\)\\*\\+\\,\\-\\.\\/\\:\\;\\<\\=\\>\\?\\@\\[\\\\\\]\\^\\_\\`\\{\\|\\}\\~",
    13: "\\\t\\A\\a\\ \\3\\φ\\«",
    14: "\\*not emphasized*\n\\<br/> not a tag\n\\[not a link](/foo)\n\\`not code`\n1\\. not a list\n"
    "\\* not a list\n\\# not a heading\n\\[foo]: /url \"not a reference\"\n\\&ouml; not a character entity",
    15: "\\\\*emphasis*",
    16: "foo\\\nbar",
    17: "`` \\[\\` ``",
    18: "    \\[\\]",
    19: "~~~\n\\[\\]\n~~~",
    20: "<https://example.com?find=\\*>",
    21: '<a href="/bar\\/)">',
    22: '[foo](/bar\\* "ti\\*tle")',
    23: '[foo]\n\n[foo]: /bar\\* "ti\\*tle"',
    24: "``` foo\\+bar\nfoo\n```",
    43: "***\n---\n___",
    59: "Foo\n***\nbar",
    62: "# foo\n## foo\n### foo\n#### foo\n##### foo\n###### foo",
    64: "#5 bolt\n\n#hashtag",
    80: "Foo *bar*\n=========\n\nFoo *bar*\n---------",
    192: '[foo]: /url "title"\n\n[foo]',
    193: "   [foo]: \n      /url  \n           'the title'  \n\n[foo]",
    194: "[Foo*bar\\]]:my_(url) 'title (with parens)'\n\n[Foo*bar\\]]",
    265: "123456789. ok",
    266: "1234567890. not ok",
    304: "The number of windows in my house is\n14.  The number of doors is 6.",
    305: "The number of windows in my house is\n1.  The number of doors is 6.",
}  # fmt: skip

HARMLESS = {13, 64, 266}


def is_shown(markdown: str, as_typed: str) -> bool:
    try:
        return shown(markdown) == expected(as_typed)
    except AssertionError:  # there is more in it than words
        return False


@pytest.mark.parametrize("number", SPECIFICATION)
def test_the_specifications_own_examples_are_shown_as_typed(number: int) -> None:
    typed = SPECIFICATION[number]
    assert shown(literal(typed)) == expected(typed)
    assert shown(literal(typed), GFM) == expected(typed)


@pytest.mark.parametrize("number", SPECIFICATION)
def test_the_specifications_own_examples_need_their_escapes(number: int) -> None:
    typed = SPECIFICATION[number]
    assert is_shown(typed, as_typed=typed) == (number in HARMLESS)
