"""Checks a document of --format json with a general-purpose parser: against
the schema, and value by value against the CSV files of the same run.
usage: results.py SCHEMA DOCUMENT FOLDER-OF-CSV [TABLE-THAT-IS-NO-FILE...]"""

import csv
import json
import pathlib
import sys


class Number(str):
    """A number as it stands in the document."""


def no_constant(word):
    raise ValueError(f"{word} is no JSON")


TYPES = {
    "object": dict,
    "array": list,
    "string": str,
    "number": (int, float),
    "null": type(None),
}
KNOWN = {"$schema", "title", "description", "type", "required", "properties",
         "items", "enum"}


def validate(value, schema, where):
    """The keywords that the schema uses; another one is a fault."""
    assert set(schema) <= KNOWN, f"{where}: keywords {set(schema) - KNOWN}"
    kinds = schema.get("type", list(TYPES))
    kinds = [kinds] if isinstance(kinds, str) else kinds
    assert any(isinstance(value, TYPES[k]) for k in kinds), f"{where}: {value!r} is no {kinds}"
    assert value in schema.get("enum", [value]), f"{where}: {value!r}"
    if isinstance(value, dict):
        missing = set(schema.get("required", [])) - set(value)
        assert not missing, f"{where}: no {missing}"
        for key, inner in value.items():
            assert key in schema["properties"], f"{where}: what is {key}?"
            validate(inner, schema["properties"][key], f"{where}.{key}")
    if isinstance(value, list):
        for i, inner in enumerate(value):
            validate(inner, schema["items"], f"{where}[{i}]")


def shown(value):
    """As in CSV, where a line feed is a blank and another control `?`."""
    value = ("" if value is None else value).replace("\n", " ")
    return "".join("?" if c < " " or c == "\x7f" else c for c in value)


def compare(name, rows, path):
    with open(path, encoding="utf-8", newline="") as file:
        table = list(csv.reader(file))
    assert len(rows) == len(table) - 1, f"{name}: {len(rows)} rows of {len(table) - 1}"
    for line, row in zip(table[1:], rows):
        assert list(row) == table[0], f"{name}: other columns"
        assert [shown(v) for v in row.values()] == line, f"{name}: {row} is not {line}"
        for value in row.values():
            assert isinstance(value, (Number, str, type(None)))
    return len(rows)


def main(schema, document, folder, *alone):
    text = pathlib.Path(document).read_text(encoding="utf-8")
    rules = json.loads(pathlib.Path(schema).read_text(encoding="utf-8"))
    plain = json.loads(text, parse_constant=no_constant)
    validate(plain, rules, "document")
    try:
        import jsonschema
        jsonschema.Draft202012Validator.check_schema(rules)
        jsonschema.Draft202012Validator(rules).validate(plain)
    except ImportError:
        print("SKIPPED: no validator of JSON Schema here but our own")
    exact = json.loads(text, parse_float=Number, parse_int=Number)
    files = {path.stem for path in pathlib.Path(folder).glob("*.csv")}
    assert set(exact["tables"]) == files, f"{set(exact['tables']) ^ files}"
    rows = sum(compare(name, table, pathlib.Path(folder) / f"{name}.csv")
               for name, table in exact["tables"].items() if name not in alone)
    assert rows > 0, "no row"


main(*sys.argv[1:])
