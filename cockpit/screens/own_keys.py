"""The teacher's own keys in the place of ours."""

import difflib
import itertools
from collections.abc import Mapping
from dataclasses import replace

from cockpit.screens.command import Command, Where
from cockpit.screens.commands import BY_ID, COMMANDS
from cockpit.studio.errors import BadSettings

_HEARD_WITH: Mapping[Where, frozenset[Where]] = {
    Where.EVERYWHERE: frozenset(Where),
    Where.DAY: frozenset({Where.EVERYWHERE, Where.DAY, Where.NOTES, Where.LAST, Where.QUEUE}),
    Where.NOTES: frozenset({Where.EVERYWHERE, Where.DAY, Where.NOTES}),
    Where.QUEUE: frozenset({Where.EVERYWHERE, Where.DAY, Where.QUEUE}),
    Where.LAST: frozenset({Where.EVERYWHERE, Where.DAY, Where.LAST}),
    Where.AHEAD: frozenset({Where.EVERYWHERE, Where.AHEAD}),
    Where.REVIEW: frozenset({Where.EVERYWHERE, Where.REVIEW}),
    Where.WEEK: frozenset({Where.EVERYWHERE, Where.WEEK}),
    Where.YEAR: frozenset({Where.EVERYWHERE, Where.YEAR}),
    Where.OUTBOX: frozenset({Where.EVERYWHERE, Where.OUTBOX}),
    Where.WAYS: frozenset({Where.EVERYWHERE, Where.WAYS}),
    Where.PREVIEW: frozenset({Where.EVERYWHERE, Where.PREVIEW}),
}


def with_own_keys(own: Mapping[str, str]) -> tuple[Command, ...]:
    """The commands with the teacher's own keys, given by id as `f9,ctrl+s`.

    Raises:
        BadSettings: an id that is not known, or one key for two commands in one place.
    """
    for name in own:
        if name not in BY_ID:
            near = difflib.get_close_matches(name, BY_ID, n=3) or sorted(BY_ID)[:3]
            raise BadSettings(f"settings.toml, keys: found {name}, expected a command such as {', '.join(near)}.")
    changed = tuple(
        replace(command, keys=_split(own[command.id])) if command.id in own else command for command in COMMANDS
    )
    _refuse_clashes(changed)
    return changed


def _split(keys: str) -> tuple[str, ...]:
    return tuple(key.strip().lower() for key in keys.split(",") if key.strip())


def _refuse_clashes(commands: tuple[Command, ...]) -> None:
    for first, second in itertools.combinations(commands, 2):
        both = set(first.keys) & set(second.keys)
        if both and second.where in _HEARD_WITH[first.where]:
            raise BadSettings(
                f"settings.toml, keys: {min(both)} is given to {first.id} and to {second.id}. "
                "Give one of them another key."
            )
