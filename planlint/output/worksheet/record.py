"""A worksheet for programs: plain data, valid against `schema/worksheet.schema.json`, the same bytes for the same input."""

from typing import Any

from planlint.output.check.record import need_record, position_record, profile_record, subject_record
from planlint.workings import Entry, Part, Worksheet


def worksheet_record(sheet: Worksheet) -> dict[str, Any]:
    """One plan's worksheet."""
    return {
        "plan": sheet.plan,
        "path": sheet.path,
        "profile": profile_record(sheet.profile),
        "sections": [{"topic": section.topic, "elements": [_part(part) for part in section.parts]} for section in sheet.sections],
        "errors": [
            {
                "fact": one.rule,
                "subject": subject_record(one.subject),
                "position": position_record(one.position),
                "message": one.message,
            }
            for one in sheet.failed
        ],
    }


def _part(part: Part) -> dict[str, Any]:
    return {
        "subject": subject_record(part.subject),
        "position": position_record(part.position),
        "taken": [{"fact": rest.fact, "value": rest.value} for rest in part.taken],
        "entries": [_entry(entry) for entry in part.entries],
    }


def _entry(entry: Entry) -> dict[str, Any]:
    return {
        "fact": entry.fact,
        "about": entry.about,
        "value": entry.value or None,
        "steps": [{"text": step.text, "value": step.value, "source": step.source} for step in entry.steps],
        "inputs": [
            {
                "subject": subject_record(one.subject),
                "attribute": one.attribute,
                "value": one.value,
                "position": position_record(one.position),
                "taken": one.taken,
            }
            for one in entry.inputs
        ],
        "rests_on": [
            {"fact": rest.fact, "subject": subject_record(rest.subject), "value": rest.value or None} for rest in entry.rests_on
        ],
        "figures": [{"name": one.name, "value": one.value, "source": one.source} for one in entry.figures],
        "missing": [need_record(need) for need in entry.missing],
    }
