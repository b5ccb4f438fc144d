"""What programs read: plain data, valid against the files of `schema/`, the same bytes for the same input."""

import json
from typing import Any

from planlint.faults import Fault
from planlint.output import CAUTION
from planlint.positions import Span
from planlint.report import Finding, Needed, OpenCheck, ProfileHead, Report, Subject

FORMAT = 1


def document_json(what: str, records: list[dict[str, Any]], errors: list[dict[str, Any]]) -> str:
    """Records (`reports`, `worksheets`) and what could not be read, as one JSON document."""
    document = {"format": FORMAT, "caution": CAUTION, what: records, "errors": errors}
    return json.dumps(document, indent=2, ensure_ascii=False, sort_keys=False) + "\n"


def fault_record(fault: Fault) -> dict[str, Any]:
    """One thing that could not be read, or should be written otherwise."""
    return {"message": fault.message} | ({"position": position_record(fault.span)} if fault.span.file else {})


def unopened_record(path: str, message: str) -> dict[str, Any]:
    """One file that could not be opened, or isn't a text."""
    return {"message": message, "path": path}


def profile_record(profile: ProfileHead) -> dict[str, Any]:
    """The code that a plan was held against."""
    return {
        "names": list(profile.names),
        "title": profile.title,
        "edition": profile.edition,
        "local_changes": profile.changes,
        "chosen_by": profile.chosen_by,
        "confirm": profile.confirm,
        "files": list(profile.files),
        "preview": profile.preview,
        "notes": [fault_record(note) for note in profile.notes],
    }


def report_record(report: Report) -> dict[str, Any]:
    """One plan's report."""
    return {
        "plan": report.plan,
        "path": report.path,
        "profile": profile_record(report.profile),
        "passed": list(report.passed),
        "counts": report.counts(),
        "findings": [_finding(finding) for finding in report.findings],
        "open_questions": [_open(check) for check in report.open_checks],
        "checklist": [_open(check) for check in report.checklist],
        "granted": [
            _finding(granted.finding)
            | {
                "permission": granted.permission,
                "granted_by": granted.granted_by,
                "reference": granted.reference,
                "until": granted.until,
            }
            for granted in report.granted
        ],
        "covered": [{"rule": one.rule, "subject": subject_record(one.subject), "by": one.by} for one in report.covered],
        "unmentioned": report.unmentioned,
        "errors": [
            {
                "rule": one.rule,
                "subject": subject_record(one.subject),
                "position": position_record(one.position),
                "message": one.message,
            }
            for one in report.not_checked
        ],
    }


def subject_record(subject: Subject) -> dict[str, str]:
    """An element that something is about."""
    return {"kind": subject.kind, "name": subject.name}


def position_record(span: Span) -> dict[str, Any]:
    """A stretch of a file."""
    return {
        "file": span.file,
        "line": span.line,
        "column": span.column,
        "end_line": span.end_line,
        "end_column": span.end_column,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "subject": subject_record(finding.subject),
        "position": position_record(finding.position),
        "attribute": finding.attribute,
        "message": finding.message,
        "remedy": finding.remedy,
        "clause": list(finding.clause),
        "inspection": finding.inspection,
        "hazard": finding.hazard,
        "confirm": finding.confirm,
        "working": [
            {
                "fact": step.fact,
                "subject": subject_record(step.subject),
                "text": step.text,
                "value": step.value,
                "source": step.source,
            }
            for step in finding.working
        ],
        "related": [
            {"subject": subject_record(one.subject), "position": position_record(one.position), "text": one.text}
            for one in finding.related
        ],
        "layers": list(finding.layers),
        "assumed": list(finding.assumed),
    }


def need_record(need: Needed) -> dict[str, Any]:
    """What a plan leaves out."""
    if need.complete:
        return {"complete": need.complete}
    data = {**subject_record(need.subject), "attribute": need.attribute}
    return data | {"note": need.note} if need.note else data


def _open(check: OpenCheck) -> dict[str, Any]:
    return {
        "rule": check.rule,
        "severity": check.severity,
        "subject": subject_record(check.subject),
        "position": position_record(check.position),
        "inspection": check.inspection,
        "needs": [need_record(need) for need in check.needs],
        "half_broken": check.half_broken,
        "confirm": check.confirm,
    }
