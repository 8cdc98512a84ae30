"""The fixed phrases of a language, as one file has them."""

import tomllib
from collections.abc import Mapping

from cockpit.studio.errors import BadInput


def read_phrases(text: str) -> Mapping[str, str]:
    """The phrases in a TOML text by section and name: `mail.updated`.

    Raises:
        BadInput: it cannot be read, or is anything else than sections of texts.
    """
    found: dict[str, str] = {}
    try:
        sections = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadInput(f"the phrases are not readable as TOML: {fault}") from fault
    for section, phrases in sections.items():
        if not isinstance(phrases, dict):
            raise BadInput(f"{section}: found {phrases!r}, expected a section of phrases")
        for name, phrase in phrases.items():
            if not isinstance(phrase, str):
                raise BadInput(f"{section}.{name}: found {phrase!r}, expected a text in quotes")
            found[f"{section}.{name}"] = phrase
    return found
