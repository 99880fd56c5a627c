"""Says of each text whether a JSON Schema validator that is not ours accepts it.

usage: validate.py SCHEMA DEFINITION < texts

A line of the input is one text in hexadecimal; a line of the output is "accept" or "refuse: why". DEFINITION is the part of the
schema to hold the texts against: "#" for all of it, "#/$defs/plan" for a plan, "" for none: any JSON is accepted.
"""
import json
import math
import sys

import jsonschema


def unique(pairs):
    """json.loads keeps the last of duplicate members; RFC 8259 leaves them open, this format refuses them."""
    members = dict(pairs)
    if len(members) != len(pairs):
        raise ValueError("duplicate member")
    return members


def number(text):
    value = float(text)
    if not math.isfinite(value):
        raise ValueError("number out of range")
    return value


def constant(name):
    raise ValueError(name + " is not JSON")


def verdict(line, validator):
    try:
        text = bytes.fromhex(line).decode("utf-8")
        value = json.loads(text, object_pairs_hook=unique, parse_float=number, parse_constant=constant)
    except (ValueError, RecursionError) as error:
        return "refuse: " + " ".join(str(error).split())
    error = jsonschema.exceptions.best_match(validator.iter_errors(value))
    return "accept" if error is None else "refuse: " + error.json_path


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    parts = {"": True, "#": schema}
    part = parts.get(sys.argv[2], {"$ref": sys.argv[2], "$defs": schema["$defs"]})
    validator = jsonschema.Draft202012Validator(part)
    for line in sys.stdin:
        print(verdict(line.strip(), validator)[:120])


main()
