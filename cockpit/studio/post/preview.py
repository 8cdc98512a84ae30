"""What a family gets, as it will read it, before it goes."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """`heading` is the subject of a mail, or the title; `facts` say how and to whom; `page` is a whole HTML page."""

    heading: str
    facts: tuple[str, ...]
    text: str
    page: str
