"""`planlint check`: the main job. Findings, open questions, and what was granted, of one plan or many."""

import argparse
from functools import partial
from typing import Any

from planlint.cli.files import Found, add_plans_to, find_plans
from planlint.cli.following import Following
from planlint.cli.writing import Writer
from planlint.desk import Desk
from planlint.nearest import proposal
from planlint.output.layout import Page
from planlint.report import INSPECTIONS, SEVERITIES, Report


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    add_plans_to(parser)
    parser.add_argument("--output", choices=("text", "json"), default="text", help="for people or for programs")
    parser.add_argument(
        "--only", action="append", default=[], metavar="RULE", help="print only this rule's results (may be given twice)"
    )
    parser.add_argument("--before", choices=INSPECTIONS, help="only what is due at that inspection or earlier")
    parser.add_argument("--stop-at", choices=SEVERITIES, default="correction", help="exit 1 from this severity on")
    parser.add_argument("--settled", action="store_true", help="exit 1 also while a check of that severity is undecided")
    parser.add_argument("--working", action="store_true", help="show how each figure was worked out")
    parser.add_argument("--questions", action="store_true", help="show every open question, what it means and how it is written")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Check every plan; the exit status is the highest that any of them asks for."""
    desk = Desk(chosen.profile, chosen.profiles)
    status = 0
    with Writer.to(chosen.to, chosen.output, "reports") as writer:
        for found in Following(find_plans(chosen.plans), writer):
            status = max(status, _one(found, desk, chosen, writer))
        known = desk.known_rules() if chosen.only else set()
        for name in (name for name in chosen.only if name not in known):
            writer.unopened("--only", f"'{name}' is no rule.{proposal(name, known)}")
            status = max(status, 2)
    return status


def _one(found: Found, desk: Desk, chosen: argparse.Namespace, writer: Writer) -> int:
    report, status = writer.read(found, desk.check_file)
    if report is None:
        return status
    narrowed = _narrowed(report, chosen)
    writer.put(text=partial(_page, narrowed, chosen), json=partial(_record, narrowed))
    if report.not_checked:
        return 3
    counted = narrowed if chosen.before else report
    return 0 if counted.is_clean(chosen.stop_at, chosen.settled) else 1


def _page(report: Report, chosen: argparse.Namespace, width: int) -> Page:
    from planlint.output.check.page import report_page

    return report_page(report, width, chosen.working, chosen.questions)


def _record(report: Report, _: int) -> dict[str, Any]:
    from planlint.output.check.record import report_record

    return report_record(report)


def _narrowed(report: Report, chosen: argparse.Namespace) -> Report:
    """The part of the report that was asked for: `--before` an inspection, `--only` some rules."""
    if not chosen.before and not chosen.only:
        return report
    due = INSPECTIONS[: INSPECTIONS.index(chosen.before) + 1] if chosen.before else INSPECTIONS

    def wanted(rule: str, inspection: str) -> bool:
        return inspection in due and (not chosen.only or rule in chosen.only)

    def kept(results: list[Any]) -> list[Any]:
        return [result for result in results if wanted(result.rule, result.inspection)]

    from dataclasses import replace

    return replace(
        report,
        findings=kept(report.findings),
        open_checks=kept(report.open_checks),
        checklist=kept(report.checklist),
        granted=[granted for granted in report.granted if wanted(granted.finding.rule, granted.finding.inspection)],
        covered=[one for one in report.covered if not chosen.only or one.rule in chosen.only],
        met=[(rule, subject) for rule, subject in report.met if not chosen.only or rule in chosen.only],
    )
