"""The practice notes as one self-contained HTML page, made from their Markdown."""

from html import escape
from typing import TYPE_CHECKING

from cockpit.papers.notes import sentences
from cockpit.papers.notes.text import practice_notes_markdown
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.shown import one_line

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

# Nothing is fetched, run or sent from the page, whatever was typed; a typed link that is followed tells no referrer.
_PAGE = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; \
base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>
{style}</style>
</head>
<body>
<main>
{body}</main>
</body>
</html>
"""


def practice_notes_page(paper: PracticeNotes, style: str, phrases: Phrases) -> str:
    """The practice notes of a lesson as an HTML page with the style sheet `style` in it."""
    title, body = sentences.title(paper, phrases), practice_notes_body(paper, phrases)
    return page_frame(title, body, style, phrases.language)


def practice_notes_body(paper: PracticeNotes, phrases: Phrases) -> str:
    """What stands on the page of a lesson's practice notes, without its frame."""
    body: str = _reader().render(practice_notes_markdown(paper, phrases))
    return body


def page_frame(title: str, body: str, style: str, language: str = "en") -> str:
    """A page around a body that is HTML already; the title is text. `language` is its code: `es`, `en-GB`."""
    return _PAGE.format(
        language=escape(language),
        title=escape(one_line(title)),
        style=style.replace("</", "<\\/"),  # or a style sheet could close its own element
        body=body,
    )


def _reader() -> "MarkdownIt":
    """A CommonMark reader that lets no HTML and no picture through, and shows everything as it was typed."""
    from markdown_it import MarkdownIt  # 23 ms, which opening the day and every other export need not pay

    class TypedTextReader(MarkdownIt):
        def normalizeLinkText(self, link: str) -> str:  # noqa: N802 the name it overrides
            return link

    reader = TypedTextReader("commonmark", {"html": False}).disable("image")
    reader.add_render_rule("hardbreak", _line_break)
    return reader


def _line_break(*_: object) -> str:
    return "<br>"  # without the usual line end: the style sheet keeps white space as typed
