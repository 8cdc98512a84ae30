"""The weekdays and months as people write them in English, German, French, and Spanish.

A short form is known where it is none of another day or month in these languages, no English word, and nobody's name: not
"mar" for mardi and martes, which is March, nor "ago", "dom", or "sam". All of it is common practice, no source.
"""

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import MONTHS

# Of the French and Spanish ones only these forms: "jui" could be June or July.
_OTHER_MONTHS = (
    "janvier janv enero ene", "février fevrier févr fevr fév febrero", "mars marzo", "avril avr abril abr", "mayo", "juin junio",
    "juillet juil julio", "août aout agosto", "septembre septiembre setiembre", "octobre octubre", "novembre noviembre",
    "décembre decembre déc diciembre dic",
)  # fmt: skip
_GERMAN_MONTHS = (
    "januar jänner", "februar", "märz maerz mrz", "april", "mai", "juni",
    "juli", "august", "september", "oktober", "november", "dezember",
)  # fmt: skip
_FULL_WEEKDAYS = (
    "montag lundi lunes", "dienstag mardi martes", "mittwoch mercredi miércoles miercoles", "donnerstag jeudi jueves",
    "freitag vendredi viernes", "samstag sonnabend samedi sábado sabado", "sonntag dimanche domingo",
)  # fmt: skip
_SHORT_WEEKDAYS = ("lun", "di", "mi mer mié mie", "do jeu jue", "ven vie", "sáb sab", "so dim")
_SHORTEST = 3


def _beginnings(names: Iterable[str], shortest: int) -> Iterator[str]:
    return (name[:end].casefold() for name in names for end in range(shortest, len(name) + 1))


MONTH_WORDS: Mapping[str, int] = MappingProxyType(
    {
        word: number
        for number, (english, german, others) in enumerate(zip(MONTHS, _GERMAN_MONTHS, _OTHER_MONTHS, strict=True), 1)
        for word in (*_beginnings((english, *german.split()), _SHORTEST), *others.split())
    }
)
"""The number of each month, by its names and by what the English and German ones begin with."""
WEEKDAY_WORDS: Mapping[str, int] = MappingProxyType(
    {
        word: number
        for number, (english, others, short) in enumerate(zip(WEEKDAYS, _FULL_WEEKDAYS, _SHORT_WEEKDAYS, strict=True))
        for word in (*_beginnings((english,), 2), *others.split(), *short.split())
    }
    | {"weds": 2}
)
"""The number of each weekday, Monday 0, by its names and by what the English ones begin with."""
WEEKDAY_PLURALS: Mapping[str, int] = MappingProxyType(
    {
        name if name.endswith("s") else f"{name}s": number  # a Spanish one is its own plural
        for number, (english, others) in enumerate(zip(WEEKDAYS, _FULL_WEEKDAYS, strict=True))
        for name in (english.casefold(), *others.split())
    }
)
"""The number of each weekday, by the word for all of them."""
