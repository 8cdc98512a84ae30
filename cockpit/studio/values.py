"""What a value is: frozen, made by the names of its fields, and equal to another of its class whose fields are equal.

msgspec makes the class of a value in a fortieth of the time of a frozen dataclass, and a start makes a hundred of them. For mypy
a value is a dataclass, so that it holds what is made and what is replaced against the fields.
"""

from typing import TYPE_CHECKING, Any, dataclass_transform

if TYPE_CHECKING:
    from dataclasses import field, replace

    @dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
    class Value:
        """A frozen value with the fields that its class names."""

        __struct_fields__: tuple[str, ...]

else:
    from msgspec import Struct, StructMeta, field
    from msgspec.structs import replace

    class _Kind(StructMeta):
        def __new__(cls, name: str, bases: tuple[type, ...], namespace: dict[str, Any]) -> type:
            # A class does not inherit from its base that it is keyword-only.
            return super().__new__(cls, name, bases, namespace, frozen=True, kw_only=True)

    class Value(Struct, metaclass=_Kind):
        """A frozen value with the fields that its class names."""


__all__ = ["Value", "field", "replace"]
