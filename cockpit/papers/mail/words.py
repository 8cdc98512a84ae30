"""The words of a mail around practice notes: its subject, and the notes between a greeting and a signature."""

import re
from collections.abc import Sequence
from html import escape

from cockpit.papers.notes.page import page_frame
from cockpit.papers.notes.theory import without_staves
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.post.channels import SendingRules
from cockpit.studio.post.outgoing import Outgoing, Paper
from cockpit.studio.shown import one_line, typed_lines

_RULE = "-" * 40
_RULE_ON_PAGE = "<hr />\n"


def subject(items: Sequence[Outgoing], phrases: Phrases, day: str) -> str:
    """What the mail is called, by the notes in it; it says so where all of them take the place of earlier ones."""
    title = items[0].title
    if items[0].paper is Paper.PROGRAM and items[0].is_update:
        return phrases.say("mail.updated_subject", subject=title)
    if items[0].paper is not Paper.NOTES:
        return title
    if len(items) > 1:
        title = phrases.say("mail.title_of_several", students=_students(items, phrases))
    plain = phrases.say("mail.subject", title=title, day=day)
    return phrases.say("mail.updated_subject", subject=plain) if all(each.is_update for each in items) else plain


def plain_words(items: Sequence[Outgoing], rules: SendingRules, phrases: Phrases) -> str:
    """The mail as plain text: greeting, the notes of each lesson, a caution that they share once, signature."""
    texts = ["\n".join(typed_lines(each.text)).strip("\n") for each in items]
    texts, caution = _once(texts, "\n\n")
    if caution and one_line(caution) != phrases.say(
        "notes.caution"
    ):  # siblings can have the same last block of another kind
        texts, caution = ["\n".join(typed_lines(each.text)).strip("\n") for each in items], ""
    notes = [_blocks(_updated(item, phrases), text) for item, text in zip(items, texts, strict=True)]
    return (
        _blocks(
            _greeting(items, rules, phrases),
            f"\n\n{_RULE}\n\n".join(notes),
            caution,
            _signature(items, rules, phrases),
        )
        + "\n"
    )


def page_words(items: Sequence[Outgoing], rules: SendingRules, phrases: Phrases, title: str, style: str) -> str:
    """The same as a self-contained page with the style sheet `style` in it, and without staves, which mail programs drop."""
    pages, caution = _once([without_staves(each.page).strip("\n") for each in items], _RULE_ON_PAGE)
    notes = [
        _blocks_on_page(paragraphs(_updated(item, phrases)), page) for item, page in zip(items, pages, strict=True)
    ]
    body = _blocks_on_page(
        paragraphs(_greeting(items, rules, phrases)),
        f"\n{_RULE_ON_PAGE}".join(notes),
        f"{_RULE_ON_PAGE}{caution}" if caution else "",
        paragraphs(_signature(items, rules, phrases)),
    )
    return page_frame(title, f"{body}\n", style, items[0].language)


def _updated(item: Outgoing, phrases: Phrases) -> str:
    """That it takes the place of an earlier one, where it does."""
    if not item.is_update:
        return ""
    return phrases.say("recital.updated" if item.paper is Paper.PROGRAM else "mail.updated")


def _students(items: Sequence[Outgoing], phrases: Phrases) -> str:
    return phrases.joined(list(dict.fromkeys(one_line(each.student) for each in items)))


def _greeting(items: Sequence[Outgoing], rules: SendingRules, phrases: Phrases) -> str:
    """Her words before the notes; a letter is none, and begins with what it says."""
    is_notes = items[0].paper is Paper.NOTES
    return _own_words(rules.in_language(items[0].language).greeting, items, phrases) if is_notes else ""


def _signature(items: Sequence[Outgoing], rules: SendingRules, phrases: Phrases) -> str:
    """Her words after all; an answer to an inquiry has them already, where she wants them."""
    if items[0].paper is Paper.REPLY:
        return ""
    return _own_words(rules.in_language(items[0].language).signature, items, phrases)


def _own_words(text: str, items: Sequence[Outgoing], phrases: Phrases) -> str:
    return "\n".join(typed_lines(text.replace("{student}", _students(items, phrases)))).strip("\n")


def _once(texts: list[str], before_last: str) -> tuple[list[str], str]:
    """Texts without the end that all of them share, and that end; it begins after the last `before_last`."""
    parts = [text.rpartition(before_last) for text in texts]
    ends = {end for _, _, end in parts}
    if len(texts) < 2 or len(ends) > 1 or not all(start for start, _, _ in parts):
        return texts, ""
    return [start.rstrip("\n") for start, _, _ in parts], ends.pop()


def _blocks(*blocks: str) -> str:
    return "\n\n".join(filter(None, blocks))


def _blocks_on_page(*blocks: str) -> str:
    return "\n".join(filter(None, blocks))


def paragraphs(text: str) -> str:
    """Plain text as paragraphs of a page."""
    found = (escape(part.strip("\n")).replace("\n", "<br>") for part in re.split(r"\n(?:[ \t]*\n)+", text))
    return "\n".join(f"<p>{part}</p>" for part in found if part.strip())
