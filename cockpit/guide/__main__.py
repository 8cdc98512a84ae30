"""Writes the tables of keys, of settings, and of theory into the guide: `python -m cockpit.guide`.

What the tables say is asked of the program itself: the keys of its commands, the comments of a new settings file, and of
each setting what the program answers to a value that does not work. Examples of theory stand beside their answers.
"""

import re
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

from cockpit.screens.commands.commands import COMMANDS, Command, key_name
from cockpit.settings.settings import parse_settings
from cockpit.settings.text import FIRST
from cockpit.studio.errors import BadSettings
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.reading import Unclear, read_theory
from cockpit.studio.values import Value, field
from cockpit.wording.theory import answer_words

GUIDE = Path(__file__).parent
_NEW = FIRST.format(zone="America/Chicago")
_SETTING = re.compile(r'(?:# )?(?P<key>[\w-]+|"[^"]+") = (?P<value>.+)')
_SECTION = re.compile(r"(?:# )?\[\[?(?P<name>[\w.]+)\]\]?")
_WORKS = re.compile(r"(?:, expected|\. Use) (?P<what>.+)\.$")
# The first that is refused tells what works: a word where a choice, a number or a date is expected, else a number.
_UNFIT = ('"?"', "0", "[]")


def keys_table() -> str:
    """The commands with their keys, one table for each place."""
    places: dict[str, list[Command]] = {}
    for command in COMMANDS:
        places.setdefault(str(command.place), []).append(command)
    return "\n\n".join(
        "\n".join([f"## {place[0].upper()}{place[1:]}", "", *_table(("keys", "does", "id"), map(_key_row, commands))])
        for place, commands in places.items()
    )


def settings_table() -> str:
    """The settings of a new file with its comments, one table for each section, and what each can be."""
    parts = []
    for section in _sections():
        rows = [["; ".join(dict.fromkeys(cells)) for cells in zip(*row, strict=True)] for row in _rows_of(section)]
        about = [section.comment, ""] if section.comment else []
        heads = ("setting, as in a new file", "can be", "what it is")
        parts.append("\n".join([f"## {section.heading}", "", *about, *_table(heads, rows)]))
    return "\n\n".join(parts)


def theory_table() -> str:
    """What works in braces, with its answers, one table for each group."""
    parts = []
    for group, examples in EXAMPLES.items():
        rows = [(f"`{{{_cell(each)}}}`", _cell(_answer(each))) for each in examples]
        parts.append("\n".join([f"## {group}", "", *_table(("typed", "answer"), rows)]))
    return "\n\n".join(parts)


def _answer(words: str) -> str:
    meaning = read_theory(words)
    return "" if isinstance(meaning, Unclear) else answer_words(meaning)


def _cell(words: str) -> str:
    return words.replace("|", "\\|").replace("[", "\\[")


def with_fresh_tables(page: str) -> str:
    """A page of the guide with its tables written again."""
    for name, table in (("keys", keys_table), ("settings", settings_table), ("theory", theory_table)):
        begins, ends = f"<!-- {name} -->\n", f"<!-- end of {name} -->"
        if begins in page:
            before, after = page.split(begins)[0], page.split(ends)[1]
            page = f"{before}{begins}\n{table()}\n\n{ends}{after}"
    return page


class _Setting(Value):
    key: str
    value: str
    comment: str
    line: str


class _Section(Value):
    heading: str
    comment: str
    settings: list[_Setting] = field(default_factory=list)


def _key_row(command: Command) -> tuple[str, ...]:
    keys = " or ".join(f"`{key_name(key)}`" for key in command.keys) or "in Find"
    return keys, f"**{command.label}.** {command.help}", f"`{command.id}`"


def _sections() -> list[_Section]:
    """The sections of a new settings file with their settings, those that are commented out too."""
    sections = [_Section(heading="At the top of the file", comment="")]
    comment: list[str] = []
    for line in _NEW.splitlines()[1:]:
        above, comment = " ".join(comment), [*comment, line.removeprefix("# ")] if line.startswith("# ") else []
        if found := _SECTION.fullmatch(line):
            sections.append(_Section(heading=f"`{found['name']}`", comment=above))
        elif found := _SETTING.fullmatch(line):
            setting = _Setting(key=found["key"], value=found["value"], comment=above, line=line)
            sections[-1].settings.append(setting)
        else:
            continue
        comment = []
    return sections


def _rows_of(section: _Section) -> list[list[tuple[str, ...]]]:
    """Each row as what its settings say, one by one: a comment holds for all the settings right below it."""
    rows: list[list[tuple[str, ...]]] = []
    for setting in section.settings:
        said = (f"`{setting.key} = {setting.value}`", _works(setting), setting.comment)
        if rows and not setting.comment and (rows[-1][0][-1] or rows[-1][-1][-2] == said[-2]):
            rows[-1].append((*said[:-1], rows[-1][0][-1]))
        else:
            rows.append([said])
    return rows


def _works(setting: _Setting) -> str:
    """What a setting can be, in the words in which the program refuses a value."""
    for value in _UNFIT:
        unfit = _NEW.replace(f"\n{setting.line}\n", f"\n{setting.key} = {value}\n", 1)
        try:
            parse_settings(_spoken_out(unfit), "settings.toml")
        except BadSettings as refused:
            found = _WORKS.search(str(refused))
            if found is not None:
                return found["what"]
    return ""


def _spoken_out(text: str) -> str:
    """A settings file with its commented settings and sections in force."""
    lines = []
    for line in text.splitlines():
        bare = line.removeprefix("# ")
        lines.append(bare if _SECTION.fullmatch(bare) or _SETTING.fullmatch(bare) else line)
    return "\n".join(lines)


def _table(heads: tuple[str, ...], rows: Iterable[Iterable[str]]) -> Iterator[str]:
    yield f"| {' | '.join(heads)} |"
    yield "|" + "---|" * len(heads)
    for row in rows:
        yield f"| {' | '.join(row)} |"


def main(guide: Path = GUIDE) -> None:
    """Writes the tables, and says which pages have changed."""
    for path in sorted(guide.glob("*.md")):
        page = path.read_text(encoding="utf-8")
        fresh = with_fresh_tables(page)
        if fresh != page:
            path.write_text(fresh, encoding="utf-8")
            sys.stdout.write(f"{path.name} has new tables.\n")


if __name__ == "__main__":
    main()
