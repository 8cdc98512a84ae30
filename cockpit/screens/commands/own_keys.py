"""The teacher's own keys in the place of ours."""

import difflib
from collections.abc import Mapping, Sequence

from cockpit.screens.commands.commands import BY_ID, COMMANDS, Command
from cockpit.studio.errors import BadSettings
from cockpit.studio.values import replace

_CAME_LATER = frozenset(
    {"app.show_curtain", "lesson.show_page", "student.find", "queue.mark_absent", "queue.mark_cancelled"}
    | {"board.keep", "board.take_off", "board.open_page", "board.show_notes"}
)
"""Commands whose keys may be hers already, for another command: that one keeps them."""


def with_own_keys(own: Mapping[str, str]) -> tuple[Command, ...]:
    """The commands with the teacher's own keys, given by id as `f9,ctrl+s`.

    Raises:
        BadSettings: an id that is not known, a letter where letters are typed, or one key for two commands in one place.
    """
    if not own:
        return COMMANDS
    for name in own:
        if name not in BY_ID:
            near = difflib.get_close_matches(name, BY_ID, n=3) or sorted(BY_ID)[:3]
            raise BadSettings(f"settings.toml, keys: found {name}. Use a command such as {', '.join(near)}.")
        if BY_ID[name].place.is_typed_in and any(len(key) == 1 for key in _split(own[name])):
            raise BadSettings(
                f'settings.toml, keys.{name}: found {own[name]}. Use keys that do not type a letter, such as "f9,ctrl+s".'
            )
    hers = [replace(BY_ID[name], keys=_split(keys)) for name, keys in own.items()]
    changed = {command.id: command for command in (*COMMANDS, *hers)}
    for name in _CAME_LATER - own.keys():
        command = changed[name]
        taken = {key for other in hers if other.place.is_heard_with(command.place) for key in other.keys}
        changed[name] = replace(command, keys=tuple(key for key in command.keys if key not in taken))
    commands = tuple(changed.values())
    refuse_clashes(commands)
    return commands


def _split(keys: str) -> tuple[str, ...]:
    return tuple(key.strip().lower() for key in keys.split(",") if key.strip())


def refuse_clashes(commands: Sequence[Command]) -> None:
    """Refuses commands of which two have one key that is heard for both.

    Raises:
        BadSettings: the key, and the two commands.
    """
    heard: dict[str, list[Command]] = {}
    for command in commands:
        for key in dict.fromkeys(command.keys):  # hers may name one twice
            for other in heard.setdefault(key, []):
                if other.place.is_heard_with(command.place):
                    raise BadSettings(
                        f"settings.toml, keys: {other.id} and {command.id} both use {key}. Give one of them another key."
                    )
            heard[key].append(command)
