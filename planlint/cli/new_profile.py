"""The profile that `planlint profiles new` writes: commented, valid as it stands, ready for the first local figure."""

import json
import re
import sys
from pathlib import Path

from planlint.book import Code
from planlint.book.editor_schemas import plain_schema, profile_schema

SCHEMAS = ".schema"
_NAME = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")

_START = """\
# yaml-language-server: $schema={schemas}/profile.schema.json
# The rule book of one place. Whoever can read a rule can keep this file; nothing in it is run as a program.
# Try it after each change: planlint profiles test {name}
profile: {name}
title: {title}
based-on: {base}

# Whom people ask. Every finding under this profile ends with it.
confirm-with:
  office: {office}
  # note: What to ask, or when.

# When somebody last held this file against the code that is in force here, who keeps it, and what put it in force.
# checked: 2026-01-31
# kept-by: who
# in-force-from: 2026-01-01
# adopted-by: Ordinance 12-4

# Figures that differ here. planlint profiles show {name} lists every setting with its value.
# settings:
#   trench-too-shallow.extra-cover: {{value: 2 in, because: "Ordinance, section 5"}}

# Rules that count more or less here, or are due at another inspection.
# changes:
#   total-voltage-drop: {{severity: correction, because: "Ordinance, section 3"}}

# Rules in force here though the base doesn't have them; and rules that are not. Each with its local clause.
# takes-up:
#   outdoor-emergency-disconnect-missing: "Ordinance, section 2"
# leaves-out:
#   surge-device-missing: "Not adopted, ordinance section 4"

# Rules of your own, a file each, beside this one; their first line for an editor that completes:
# "# yaml-language-server: $schema=../{schemas}/rule.schema.json"
# adds:
#   - rules/trench-photographed.yaml

# Figures that differ in a table of the book (rules/tables.md has their names, columns and rows): the columns that name the row,
# and those whose figure is another here.
# tables:
#   burial-cover:
#     - {{location: yard, nonmetallic: 24, because: "Ordinance, section 5"}}

# Plans that this profile is tried on, with the rules that must come out broken in each.
# cases:
#   - {{plan: cases/cottage.plan, expect: [trench-too-shallow]}}
"""


def write_profile(name: str, base: Code, folder: Path) -> int:
    """Write it into the folder, with the schemas beside it that let an editor complete and explain it.

    That of profiles knows the names of the rules, settings and tables under the base. Returns 2 where the name is no name of a
    profile, or the file is there already or can't be written.
    """
    if not _NAME.fullmatch(name):
        sys.stdout.write(
            f"'{name}' is no name of a profile: small letters and digits, words joined by hyphens, like tern-county\n"
        )
        return 2
    path = folder / f"{name}.yaml"
    title = name.replace("-", " ").title()
    text = _START.format(name=name, title=title, base=base.names[0], schemas=SCHEMAS, office="Building department")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
        (folder / SCHEMAS).mkdir(exist_ok=True)
        for kind, schema in (("profile", profile_schema(base)), ("rule", plain_schema("rule"))):
            whole = json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
            (folder / SCHEMAS / f"{kind}.schema.json").write_text(whole, encoding="utf-8", newline="\n")
    except FileExistsError:
        sys.stdout.write(f"{path.as_posix()} is there already; nothing was written\n")
        return 2
    except OSError as fault:
        sys.stdout.write(f"{path.as_posix()}: it can't be written: {fault.strerror}\n")
        return 2
    sys.stdout.write(f"{path.as_posix()} is written. Try it: planlint profiles test {name}\n")
    return 0
