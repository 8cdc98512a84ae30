"""A question to the reader of typed lines, and its answer for a line."""

import json
from collections.abc import Mapping, Sequence
from datetime import date
from types import MappingProxyType

from cockpit.studio.values import Value, field


class Question(Value):
    """The lines to read, for a student's lesson on a date of the teacher's clock; `is_whole` reads them as one text."""

    lines: Sequence[str]
    is_whole: bool = False
    student: str | None = None
    on: date | None = None


class LineAnswer(Value):
    """A sentence that says what a line means, or why it is refused. `fields` has every part, None where the line has none."""

    understood: str | None = None
    refused: str | None = None
    fields: Mapping[str, object] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def as_json(self) -> str:
        """The answer as JSON on one row."""
        return json.dumps({"understood": self.understood, "refused": self.refused, **self.fields}, ensure_ascii=True)

    @property
    def as_text(self) -> str:
        """The answer in words, with what she should know of the line, and what would clash."""
        said = self.understood if self.refused is None else self.refused
        troubles = self.fields.get("troubles") if self.refused is None else None
        known = [self.fields.get("warning"), *(troubles if isinstance(troubles, list) else [])]
        return " ".join(" · ".join(str(each) for each in [said, *known] if each).split())
