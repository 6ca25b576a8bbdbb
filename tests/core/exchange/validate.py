#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds files to a JSON Schema by an outside validator (python3-jsonschema): validate.py SCHEMA GOOD... [-- BAD...].

Prints a line for each good file that the schema refuses and each bad one that it takes, and ends with status 1 if there is any."""

import json
import sys

from jsonschema import Draft202012Validator


def load(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


def main():
    arguments = sys.argv[1:]
    split = arguments.index("--") if "--" in arguments else len(arguments)
    schema = load(arguments[0])
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    wrong = []
    for path in arguments[1:split]:
        errors = sorted(validator.iter_errors(load(path)), key=lambda error: list(map(str, error.path)))
        wrong += [f"{path}: {error.json_path}: {error.message[:200]}" for error in errors[:3]]
    for path in arguments[split + 1:]:
        if validator.is_valid(load(path)):
            wrong.append(f"{path}: the schema takes it")
    print("\n".join(wrong))
    return 1 if wrong else 0


sys.exit(main())
