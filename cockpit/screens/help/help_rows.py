"""What Help shows as rows: the keys of the place, what the guide says of it, the signs, and the rest in groups."""

from collections.abc import Iterable, Sequence
from itertools import groupby, zip_longest

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.screens.commands.commands import Command, Place
from cockpit.screens.help.find import command_row
from cockpit.screens.help.guide import PAGES, page_sections, page_title
from cockpit.screens.help.markdown import Section
from cockpit.screens.help.searching import commands_named, marked
from cockpit.screens.look.show import HAPPENED, MORE_WORK, NEEDS_HER, NOT, NOW, PRIVATE, cut_at_word, hung, padded, role
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.notes.notes import read_line
from cockpit.studio.searching import has_words, searched_words
from cockpit.studio.values import Value

PAGE, OF_THE_PLACE, OPENING = "page:", "of the place", "opening"
_SIGN_COLUMN, _BESIDE = 44, 3
_SIGNS = "lesson", "The signs"
_SIGN_STYLES = {
    HAPPENED: role("finished"),
    MORE_WORK: role("warning", "bold"),
    NOW: role("clock_running"),
    NOT: role("cancelled", "bold"),
    NEEDS_HER: role("warning", "bold"),
    PRIVATE: role("private"),
}


class HelpView(Value):
    """The place that Help was asked for in, the commands of its screen, those of the moment first, and what opening told."""

    place: Place
    commands: Sequence[Command]
    moment: Sequence[str]
    footnote: str

    def here(self) -> list[Command]:
        """The commands of the place, most used first; where she types, those of the screen are too."""
        places = {self.place, self.place.screen} if self.place.is_typed_in else {self.place}
        by_id = {command.id: command for command in self.commands if command.place in places}
        used = [by_id[name] for name in self.moment if name in by_id]
        return [*used, *(each for each in by_id.values() if each.place is self.place and each not in used)]


def page_option(page: str, heading: str = "") -> str:
    """The id of the row that opens a page of the guide at a heading, or at its beginning."""
    return f"{PAGE}{page}#{heading}"


def page_of(option: str) -> tuple[str, str]:
    """The page and the heading that a row opens."""
    page, _, heading = option.removeprefix(PAGE).partition("#")
    return page, heading


def help_rows(view: HelpView, typed: str, width: int) -> list[Option]:
    """The rows of Help in a width; where something is typed, those that fit it."""
    return _found(view, typed, width) if searched_words(typed) else _all(view, width)


def _all(view: HelpView, width: int) -> list[Option]:
    here = view.here()
    named = "Here, while you type" if view.place is Place.NOTES else "Here"
    rest = [command for command in view.commands if command not in here and command.place is not Place.EVERYWHERE]
    everywhere = [command for command in view.commands if command.place is Place.EVERYWHERE]
    options = [*_group(named, here, width), *_of_the_guide(view.place, width), *_signs(width)]
    options += _group("Everywhere", everywhere, width)
    for place, commands in groupby(
        sorted(rest, key=lambda each: list(Place).index(each.place)), lambda each: each.place
    ):
        options += _group(str(place), list(commands), width)
    pages = [Option(Content(f"  {page_title(page)}"), id=page_option(page)) for page in PAGES]
    options += [group("The guide", width, len(pages)), *pages, group("This cockpit", width)]
    footnote = [line for words in view.footnote.split("\n") for line in hung(Content(f"  {words}"), width)]
    return [*options, Option(Content("\n").join(footnote), id=OPENING)]


def _group(words: str, commands: Sequence[Command], width: int) -> list[Option]:
    rows = [Option(command_row(command, width, has_help=True), id=command.id) for command in commands]
    return [group(words, width), *rows] if rows else []


def _of_the_guide(place: Place, width: int) -> list[Option]:
    """What the guide says of a place in short: the tables under its heading, else its first words; and the way to all of it."""
    sections = page_sections(place.page)
    section = next((each for each in sections if each.heading == place.heading), sections[0])
    named = section.heading or page_title(place.page)
    lines = [line for table in section.tables for line in _table(table, width)]
    lines = lines or [Content("  ") + line for line in Content(section.paragraph).wrap(max(1, width - 2))]
    title = "A line is" if any(table[0][0] == "line" for table in section.tables) else named
    where = page_title(place.page) + (f", {section.heading}" if section.heading else "")
    all_of_it = "  All of it: "
    words = cut_at_word(where, width - len(all_of_it))
    more = Option(Content.assemble((all_of_it, role("quiet")), words), id=OF_THE_PLACE)
    return [group(title, width), Option(Content("\n").join(lines), disabled=True), more]


def _table(table: Sequence[Sequence[str]], width: int) -> list[Content]:
    """The rows of a table: the first cell as it is typed in the notes, the second beside it, or below it where it is narrow."""
    cells = [(_typed(first), second) for first, second, *_ in table[1:]]
    wide = max(first.cell_length for first, _ in cells)
    room = width - wide - _BESIDE
    lines: list[Content] = []
    for first, second in cells:
        words = Content.styled(second, role("quiet"))
        if room < width // 3:
            lines += [*hung(first, width), *(Content("    ") + line for line in words.wrap(max(1, width - 4)))]
        else:
            beside = words.wrap(room)
            firsts = [first, *[Content("")] * (len(beside) - 1)]
            lines += [
                Content.assemble(one, " " * (wide + _BESIDE - one.cell_length), other)
                for one, other in zip(firsts, beside, strict=True)
            ]
    return lines


def _typed(text: str) -> Content:
    """A line as the notes show it: with the sign of what is hers alone, or with its label in its color."""
    line = read_line(text)
    if line.line.is_kept_back:
        return Content.assemble((f"{PRIVATE} ", role("private")), (text, role("private", "italic")))
    words = Content.styled(text, role("text"))
    return Content("  ") + (words.stylize(role("asked", "bold"), 0, text.find(":") + 1) if line.label else words)


def _signs(width: int) -> list[Option]:
    """The signs, in two columns where all of them fit."""
    page, heading = _SIGNS
    (table,) = next(each for each in page_sections(page) if each.heading == heading).tables
    signs = [_sign(sign, means) for sign, means in table[1:]]
    wide, longest = min((width + _BESIDE) // 2, _SIGN_COLUMN), max(each.cell_length for each in signs)
    half = -(-len(signs) // 2) if longest < wide else len(signs)
    lines = [
        left + " " * (wide - left.cell_length) + right if right is not None else left
        for left, right in zip_longest(signs[:half], signs[half:])
    ]
    return [group("Signs", width), Option(Content("\n").join(lines), disabled=True)]


def _sign(sign: str, means: str) -> Content:
    return Content.assemble("  ", (sign, _SIGN_STYLES.get(sign, role("text"))), " ", (means, role("quiet")))


def _found(view: HelpView, typed: str, width: int) -> list[Option]:
    commands = commands_named(view.commands, typed)
    rows = [Option(command_row(each, width, typed, has_help=True), id=each.id) for each in commands]
    options: list[Option] = [group("Commands", width, len(rows)), *rows] if rows else []
    pages = list(_pages(typed))
    if pages:
        wide = max(cell_len(page_title(page)) for page, _ in pages)
        options.append(group("The guide", width, len(pages)))
        for page, section in pages:
            title = Content.assemble("  ", marked(padded(page_title(page), wide), typed, role("text")), "   ")
            row = title + marked(cut_at_word(section.heading, max(4, width - title.cell_length)), typed, role("quiet"))
            options.append(Option(row, id=page_option(page, section.heading)))
    return options or [Option(Content.styled(f"  Nothing in Help has {typed.strip()}.", role("quiet")), disabled=True)]


def _pages(typed: str) -> Iterable[tuple[str, Section]]:
    """The parts of the guide that have all typed words, those first whose heading has them."""
    words = searched_words(typed)
    found = [(page, section) for page in PAGES for section in page_sections(page)]
    named = [(page, section) for page, section in found if has_words(words, f"{page_title(page)} {section.heading}")]
    return [*named, *(each for each in found if each not in named and has_words(words, each[1].text))]
