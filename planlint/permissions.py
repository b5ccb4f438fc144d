"""Written decisions of the authority: which findings they grant, which have run out, and which allow nothing that was found."""

from typing import TYPE_CHECKING

from planlint.book import Code
from planlint.faults import Fault, Faults
from planlint.nearest import proposal
from planlint.plan import Need, Permission
from planlint.plan.graph import Graph
from planlint.report import Finding, Granted, Needed, OpenCheck, Report, Subject

if TYPE_CHECKING:
    from planlint.checking import Result

OWN_RULES = ("permission-expired", "permission-without-finding")
"""What is said of permissions themselves; no rule file stands behind it."""

_NEEDED = ("rule", "for", "granted-by", "reference")


def apply_permissions(graph: Graph, code: Code, results: "list[Result]", report: Report) -> set[int]:
    """Move what is granted to the report's granted list, and put cautions beside permissions that grant nothing.

    Returns the identities of the results granted. Raises Faults for a permission that lacks its rule, element or proof, or
    names a rule that there is not.
    """
    permissions = graph.all(Permission).known
    faults = [fault for permission in permissions for fault in _faults(permission, code)]
    if faults:
        raise Faults(faults)
    by_place = {(result.rule.name, id(result.element)): result for result in results}
    granted: set[int] = set()
    for permission in permissions:
        result = by_place.get((code.renamed.get(permission.rule, permission.rule), id(permission.for_)))
        if result is None or result.answer in ("met", "not-applicable"):
            report.findings.append(_caution(permission, code, "permission-without-finding"))
        elif result.answer == "broken":
            _grant(permission, result, code, report, granted)
    return granted


def _faults(permission: Permission, code: Code) -> list[Fault]:
    missing = [name for name in _NEEDED if not permission.states(name)]
    if missing:
        return [
            Fault(
                permission.line,
                f"the permission {permission.name} doesn't say its {', '.join(missing)}; without that it allows nothing",
            )
        ]
    name = code.renamed.get(permission.rule, permission.rule)
    if name not in code.known_rules:
        message = f"'{permission.rule}' is no rule.{proposal(permission.rule, code.known_rules)}"
        return [Fault(permission.standing["rule"].values[0], message)]
    return []


def _grant(permission: Permission, result: "Result", code: Code, report: Report, granted: set[int]) -> None:
    """Grant a broken result, let it stand with a caution if the permission ran out, or leave it open while that can't be told."""
    finding = result.finding
    assert finding is not None
    plan = permission.plan
    missing = Need(permission, "until") if not permission.states("until") else None
    until = permission.until if missing is None else None
    if until is not None and not plan.states("date"):
        missing = Need(plan, "date")
    if missing is not None:
        result.answer, result.finding = "undecided", None
        result.waiting = _waiting(finding, missing)
    elif until is not None and until < plan.value("date"):
        report.findings.append(_caution(permission, code, "permission-expired"))
    else:
        granted.add(id(result))
        named = (permission.name, permission.granted_by, permission.reference)
        report.granted.append(Granted(finding, *named, until.isoformat() if until else "no end stated"))


def _waiting(finding: Finding, need: Need) -> OpenCheck:
    where = need.element
    needs = (Needed(Subject(where.kind, where.name), need.attribute, where.position(need.attribute)),)
    return OpenCheck(
        finding.rule, finding.severity, finding.subject, finding.position, finding.inspection, needs, True, finding.confirm
    )


def _caution(permission: Permission, code: Code, rule: str) -> Finding:
    expired = rule == "permission-expired"
    allowed = f"{permission.rule} on {permission.for_.name}"
    attribute = "until" if expired else "rule"
    rule_name = code.renamed.get(permission.rule, permission.rule)
    inspection = code.rules[rule_name].inspection if rule_name in code.rules else "final"
    if expired:
        message = f"The permission {permission.name} ran out on {permission.until}; {allowed} counts again."
        remedy = "Ask for a new decision in writing, or correct the plan."
    else:
        message = f"The permission {permission.name} allows {allowed}, but nothing like that was found there."
        remedy = "Take it out if it is no longer needed, or mend the rule's or the element's name in it."
    return Finding(
        rule,
        "caution",
        Subject(permission.kind, permission.name),
        permission.position(attribute),
        attribute,
        message,
        remedy,
        ("practice",),
        inspection,
        "cost-of-rework",
        code.confirm_with.text,
    )
