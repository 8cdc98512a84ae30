"""Commands by what the teacher calls them."""

from collections.abc import Iterable

from textual.content import Content

from cockpit.screens.commands.commands import Command, key_name
from cockpit.studio.searching import Span, has_words, searched_words, spans_of


def commands_named(commands: Iterable[Command], typed: str) -> list[Command]:
    """The commands that all typed words stand for: first those whose label has them, then those called so, then by their help."""
    words = searched_words(typed)
    ranked: list[list[Command]] = [[], [], []]
    for command in commands:
        label = command.label
        called = f"{label} {command.words} {command.short} {' '.join(map(key_name, command.keys))}"
        texts = (label, called, f"{called} {command.help}")
        rank = next((rank for rank, text in enumerate(texts) if has_words(words, text)), None)
        if rank is not None:
            ranked[rank].append(command)
    return [command for rank in ranked for command in rank]


def marked(text: str, typed: str, style: str, *, within: bool = False) -> Content:
    """A text in a style, with the typed words that it has underlined."""
    words = Content.styled(text, style)
    for begins, ends in _spans(text, typed, within=within):
        words = words.stylize("bold underline", begins, ends)
    return words


def _spans(text: str, typed: str, *, within: bool) -> Iterable[Span]:
    for word in searched_words(typed):
        yield from spans_of((word,), text, within=within) or ()
