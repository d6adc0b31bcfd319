# SPDX-License-Identifier: GPL-3.0-or-later
"""The plan schema against a general JSON Schema validator (python3-jsonschema),
over the same files the loader is tested with.

usage: plan-schema.py ROOT

Every good and bundled plan is valid. Every bad one is not, but for those that
a schema cannot judge: they are listed, and listed only where that is so.
"""
import json
import pathlib
import re
import sys

import jsonschema
import yaml

# Ranges of values with a unit, sums, and what stands elsewhere in the file.
BEYOND = re.compile(r"""^(
    range-(day-dose|day-between-blocks|gap-after|run-min|micro-rest-(after|length|reserve-at-least|wait-for-gap)
      |block-limits-.*|tighten-up-.*|next-day-(cut-to|step-up-by|at-most)|matches-counts|on-air-(every|notice|length)
      |drill-.*)-(low|high)
    |rest-after-too-late|day-adds-up-too-long|dose-no-block|dose-over-at-most|split-without-time|split-nothing-to-go
    |split-too-few-runs|split-too-long
    )$""", re.X)
# What a reader of YAML drops before a schema sees it: marks, places, repeated keys, which quotation marks.
BEFORE = {"escapes", "fixed-where-it-means-nothing", "key-twice", "turned-text"}
# A range whose wrong end is written in a form that is itself no value: a minus sign.
NOT_A_FORM = {"range-day-between-blocks-low", "range-block-limits-finish-run-low", "range-next-day-step-up-by-low",
              "range-matches-counts-low", "range-on-air-notice-low"}


class Core(yaml.SafeLoader):
    """YAML 1.2's core schema in place of PyYAML's 1.1."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in (
        ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
        ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
        ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", list("-+0123456789")),
        ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", list("-+.0123456789"))):
    Core.add_implicit_resolver("tag:yaml.org,2002:" + tag, re.compile(f"^(?:{pattern})$"), first)


def fixed(loader, node):
    """`!fixed` before a value: the value."""
    if isinstance(node, yaml.ScalarNode):
        node.tag = loader.resolve(yaml.ScalarNode, node.value, (node.style is None, False))
        return loader.construct_object(yaml.ScalarNode(node.tag, node.value, style=node.style))
    return loader.construct_sequence(node, deep=True) if isinstance(node, yaml.SequenceNode) else \
        loader.construct_mapping(node, deep=True)


Core.add_constructor("!fixed", fixed)


def read(path):
    """The file's JSON value, None where it is no single YAML document. PyYAML does not take JSON's tabs."""
    text = path.read_text(encoding="utf-8")
    try:
        return json.loads(text) if text.startswith("{\n\t") else yaml.load(text, Core)
    except (yaml.YAMLError, TypeError):
        return None


def main(root):
    schema = json.loads((root / "src/data/carpace-plan.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    plans = root / "tests/data/plans"
    good = sorted((plans / "good").glob("*.plan.yaml")) + sorted((root / "src/data/plans").glob("*.plan.yaml"))
    bad = sorted((plans / "bad").glob("*.plan.yaml"))
    faults = []
    for path in good:
        faults += [f"{path.name}: {error.json_path}: {error.message}" for error in validator.iter_errors(read(path))]
    for path in bad:
        name = path.name.removesuffix(".plan.yaml")
        expected = name in BEFORE or (bool(BEYOND.match(name)) and name not in NOT_A_FORM)
        valid = validator.is_valid(read(path))
        if valid != expected:
            faults.append(f"{path.name}: {'valid' if valid else 'not valid'} by the schema, expected otherwise")
    print("\n".join(faults) or f"{len(good)} good and {len(bad)} bad files as expected")
    return 1 if faults or len(good) < 19 or len(bad) < 100 else 0


sys.exit(main(pathlib.Path(sys.argv[1])))
