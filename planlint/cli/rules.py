"""`planlint rules`: the rules in force under a profile; one rule in full, with where each of its figures came from."""

import argparse
import sys
from pathlib import Path

from planlint.book import Code, RuleRecord, resolve
from planlint.cli.writing import page_width, wants_color
from planlint.faults import Faults
from planlint.nearest import proposal
from planlint.output.check.page import faults_page
from planlint.output.layout import Page, print_page

NEWEST = "model-2023"


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.add_argument("name", nargs="?", metavar="NAME", help="a rule")
    parser.add_argument("--profile", action="append", default=[], metavar="NAME", help=f"the rule book (otherwise {NEWEST})")
    parser.add_argument(
        "--profiles", action="append", default=[], type=Path, metavar="DIR", help="search this folder for rule books"
    )
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Print the list, or the one rule."""
    page = Page.of(page_width(sys.stdout))
    try:
        code = resolve(tuple(chosen.profile) or (NEWEST,), beside=Path("profiles"), folders=tuple(chosen.profiles))
    except Faults as faults:
        print_page(faults_page(faults.faults, page.width), sys.stdout, wants_color(sys.stdout))
        return 2
    if chosen.name is None:
        _list(page, code)
    else:
        name = code.renamed.get(chosen.name, chosen.name)
        if name not in code.known_rules:
            sys.stdout.write(f"'{chosen.name}' is no rule.{proposal(chosen.name, code.known_rules)}\n")
            return 2
        _rule(page, code, code.known_rules[name])
    print_page(page, sys.stdout, wants_color(sys.stdout))
    return 0


def _list(page: Page, code: Code) -> None:
    page.text(f"{code.title}: {len(code.rules)} rules in force", style="title")
    if code.preview:
        page.text(code.preview)
    rules = [rule for _, rule in sorted(code.rules.items())]
    rows = [(rule.record.name, rule.severity, rule.inspection) for rule in rules]
    starts = page.starts(rows, 2)
    for topic in sorted({rule.record.topic for rule in rules}):
        page.heading(topic.upper())
        for row, rule in zip(rows, rules, strict=True):
            if rule.record.topic == topic:
                page.columns(row, starts)


def _rule(page: Page, code: Code, record: RuleRecord) -> None:
    rule = code.rules.get(record.name)
    page.text(record.name, style="title")
    if code.preview:
        page.text(code.preview)
    page.text(record.why)
    page.blank()
    if rule is None:
        page.text(f"Not in force under {code.title}.")
    else:
        page.text(
            f"In force under {code.title}: {rule.severity}, hazard {record.hazard}, due at the {rule.inspection} inspection."
        )
        for line in rule.clause_lines:
            page.text(f"Code: {line}", hang=2)
        for layer in rule.layers:
            page.text(f"Changed: {layer}", hang=2)
        page.text(f"Confirm with: {rule.confirm_with.text}", hang=2)
    for edition, clause in sorted(record.clause.items()):
        page.text(f"{edition}: {clause}", 4)
    page.blank()
    page.text(f"About: {', '.join(record.about)}", hang=2)
    if record.when:
        page.text(f"When: {record.when.text}", hang=2)
    page.text(f"Must: {record.must.text}", hang=2)
    _settings(page, code, record)
    page.text(f"Finding: {record.finding.text}", hang=2)
    page.text(f"Remedy: {record.remedy.text}", hang=2)
    if record.point:
        page.text(f"On the checklist: {record.point.text}", hang=2)
    for answer, example in record.examples.items():
        page.heading(f"Example, {answer}:")
        for line in example.text.rstrip().splitlines():
            page.text(line, 4 + len(line) - len(line.lstrip()), hang=2)


def _settings(page: Page, code: Code, record: RuleRecord) -> None:
    for name in record.settings:
        setting = code.setting(f"{record.name}.{name}")
        page.text(f"Setting {name}: {setting.trail}", 0)
        if record.settings[name].help:
            page.text(record.settings[name].help, 4)
