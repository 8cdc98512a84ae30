"""The files with the fixed phrases of families' papers: the program's, and the teacher's own, which come first."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.studio.errors import BadInput

if TYPE_CHECKING:
    from cockpit.papers.words.phrases import Phrases

_ENGLISH = "en"
_LANGUAGE = re.compile(r"[a-z]{2,3}(?:-[A-Z]{2})?")  # es, en-GB
_WHERE = Path("themes") / "phrases"


def phrases_of(language: str, folder: Path | None) -> "Phrases":
    """The phrases of a language, with a studio folder's own ones that can be used; English where there are none.

    A language of a country, such as `en-GB`, has the phrases of its language and, of its own, those that differ.
    """
    from cockpit.papers.words.phrases import Phrases  # 3 ms, which opening the day need not pay

    if not _LANGUAGE.fullmatch(language):  # it comes out of a roster or the settings, and must not lead elsewhere
        return phrases_of(_ENGLISH, folder)
    known, found = _bundled(_ENGLISH), dict[str, str]()
    for name in dict.fromkeys((language.partition("-")[0], language)):
        own, _ = _own(folder / _WHERE / f"{name}.toml", known) if folder is not None else ({}, ())
        found |= {**_bundled(name), **own}
    if not found and language != _ENGLISH:
        return phrases_of(_ENGLISH, folder)
    return Phrases(language=language, by_key={**known, **found})


def phrase_faults(folder: Path, language: str) -> tuple[str, ...]:
    """A sentence for each own phrase that cannot be used, and one where the settings' `language` has no phrases.

    Another one where the English ones of the program are gone: papers are made all the same.
    """
    paths = sorted((folder / _WHERE).glob("*.toml"))
    english = _bundled_folder() / f"{_ENGLISH}.toml"
    sentences = (
        []
        if english.is_file()
        else [f"{english} is missing, and with it the fixed words of papers in English. Install the cockpit again."]
    )
    if not paths and language == _ENGLISH:
        return tuple(sentences)
    known = _bundled(_ENGLISH)
    sentences += [sentence for path in paths for sentence in _own(path, known)[1]]
    bundled = sorted(path.stem for path in _bundled_folder().glob("*.toml"))
    if not {language, language.partition("-")[0]} & {*bundled, *(path.stem for path in paths)}:
        sentences.append(
            f'settings.toml, sending, language: there are no phrases for "{language}". Use one of {", ".join(bundled)}, '
            "or add a file to themes/phrases. Until then, families get English."
        )
    return tuple(sentences)


def _bundled_folder() -> Path:
    from cockpit.screens.look.theming import themes_folder  # what only reads the studio needs no colors

    return themes_folder() / "phrases"


def _bundled(language: str) -> Mapping[str, str]:
    from cockpit.papers.words.phrases import read_phrases

    path = _bundled_folder() / f"{language}.toml"
    try:
        return read_phrases(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, BadInput):  # a paper can be made without them
        return {}


def _own(path: Path, known: Mapping[str, str]) -> tuple[Mapping[str, str], tuple[str, ...]]:
    """The phrases of an own file that can be used, and a sentence for each that cannot; nothing where there is none."""
    from cockpit.papers.words.phrases import read_phrases, sound_phrases

    if not _LANGUAGE.fullmatch(path.stem):
        return {}, (f"{path}: name this file with a language code, such as it.toml.",)
    try:
        found, faults = sound_phrases(read_phrases(path.read_text(encoding="utf-8-sig")), known)
    except FileNotFoundError:
        return {}, ()
    except UnicodeDecodeError as fault:
        return {}, (f"{path} is not UTF-8 (byte {fault.start + 1}). Save it as UTF-8.",)
    except OSError as fault:
        return {}, (f"{path} could not be read: {fault.strerror}.",)
    except BadInput as fault:
        return {}, (f"{path}, {fault}. None of its phrases are used.",)
    return found, tuple(f"{path}, {fault}." for fault in faults)
