"""The register of tables against the schema: reading, exporting, forgetting and restoring go by it, and miss what it lacks."""

import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime, time
from enum import Enum
from importlib import import_module
from types import NoneType
from typing import get_args, get_origin

import pytest
from support.studio import TO_DENVER

from cockpit.store.schema import migrate
from cockpit.store.tables import TABLES, key_of, records_of, row_of, table_of
from cockpit.studio.changes.records import Record
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.post.family_letter import FamilyLetter, FamilyLetterId

_OF_THE_STUDIO = {"numbering", "studio_calendar"}  # a row each, of nobody
_OF_A_LIBRARY = {"_sqlite_migrations"}
KINDS = [getattr(import_module(module), name) for module, name in (table.record.split(":") for table in TABLES)]


@pytest.fixture
def database():
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        connection.row_factory = sqlite3.Row
        migrate(connection)
        yield connection


def values_of(kind):
    """Values that a field of a type can have; every one of an enumeration, and None where it may be."""
    kinds = get_args(kind) if NoneType in get_args(kind) else (kind,)
    if kind == Zone:
        yield from (
            "America/Phoenix",
            TO_DENVER,
        )
        return
    for each in kinds:
        known = getattr(each, "__supertype__", each)
        if known is NoneType:
            yield None
        elif get_origin(known) is frozenset:
            yield from (
                frozenset(),
                frozenset(get_args(known)[0]) if issubclass(get_args(known)[0], Enum) else frozenset({0, 3, 6}),
            )
        elif issubclass(known, Enum):
            yield from known
        else:
            yield from {
                bool: (True, False),
                int: (0, 7),
                str: ("", "Ö\n'"),
                datetime: (datetime(2026, 12, 1, 22, 5, 0, 7, tzinfo=UTC),),
                date: (date(2026, 12, 1),),
                time: (time(15, 50),),
            }[known]


def examples_of(kind):
    """Records in which every field has each of its values once at least."""
    found = {name: tuple(values_of(each)) for name, each in kind.__annotations__.items()}
    for number in range(max(map(len, found.values()))):
        yield kind(**{name: values[number % len(values)] for name, values in found.items()})


def test_every_table_of_the_schema_is_in_the_register_or_the_studios_alone(database):
    there = {row["name"] for row in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    assert {table.name for table in TABLES} == there - _OF_THE_STUDIO - _OF_A_LIBRARY
    assert [table_of(kind) for kind in KINDS] == list(TABLES)
    assert {kind.__name__ for kind in KINDS} == {name.__forward_arg__ for name in get_args(Record)}


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_a_record_has_the_columns_of_its_table_and_is_told_apart_by_its_keys(database, kind):
    columns = {row["name"]: row["pk"] for row in database.execute(f"PRAGMA table_info({table_of(kind).name})")}
    assert set(kind.__struct_fields__) == set(columns)
    assert table_of(kind).keys == tuple(sorted(filter(columns.get, columns), key=columns.get))


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_a_record_comes_back_from_its_row_as_it_was(database, kind):
    database.execute("PRAGMA foreign_keys = OFF")
    database.execute("PRAGMA ignore_check_constraints = ON")
    name = table_of(kind).name
    for record in examples_of(kind):
        row = row_of(record)
        database.execute(f"DELETE FROM {name}")
        database.execute(f"INSERT INTO {name} ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})", [*row.values()])
        (found,) = records_of(kind, database.execute(f"SELECT * FROM {name}").fetchall())
        assert found == record
        assert [type(value) for value in vars_of(found)] == [type(value) for value in vars_of(record)]
        assert key_of(found) == tuple(row[key] for key in table_of(kind).keys)


def vars_of(record):
    return [getattr(record, name) for name in record.__struct_fields__]


def test_each_table_comes_after_those_that_it_refers_to(database):
    seen = set()
    for table in TABLES:
        referred_to = {row["table"] for row in database.execute(f"PRAGMA foreign_key_list({table.name})")}
        assert referred_to <= seen
        seen.add(table.name)


def test_no_text_is_one_that_the_database_cannot_hold():
    # Half of a pair of surrogates, which a paste can have, is in no UTF-8.
    row = row_of(
        FamilyLetter(id=FamilyLetterId(1), whom="a\ud83d", text="\udc00é😀", made_at=datetime(2026, 12, 1, tzinfo=UTC))
    )
    assert (row["whom"], row["text"]) == ("a\ufffd", "\ufffdé😀")
