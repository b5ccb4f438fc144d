"""What the keepers of profiles read: the profiles there are, one resolved, two compared, one tried on its cases."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from planlint.book import Code, ProfileRecord
from planlint.expressions.template import printed
from planlint.faults import Fault
from planlint.localities import Difference, Shift, Trial
from planlint.output.layout import Page
from planlint.positions import Span

_TEXT, _DEEP = 2, 4


def list_page(records: Sequence[ProfileRecord], wrong: Sequence[Fault], width: int) -> Page:
    """Every profile that is found: where, on what it is based, when it was last checked."""
    page = Page.of(width)
    for record in records:
        page.blank()
        page.beside((record.name, "title"), (_base(record), "quiet"))
        page.text(record.title, _TEXT)
        if record.preview:
            page.text(record.preview, _TEXT)
        page.text(f"{record.file}: {'; '.join(_history(record))}", _TEXT, "quiet")
    _faults(page, "CAN'T BE READ", wrong)
    return page


def _base(record: ProfileRecord) -> str:
    if record.edition:
        return f"edition {record.edition}"
    return f"based on {record.based_on}" if record.based_on else "cuts across localities"


def _history(record: ProfileRecord) -> Iterator[str]:
    if record.edition:
        yield "a model edition"
    elif record.checked:
        yield f"last checked {record.checked}"
    else:
        yield "doesn't say when it was last checked"
    if record.in_force_from:
        yield f"in force from {record.in_force_from}"
    if record.adopted_by:
        yield f"adopted by {record.adopted_by}"
    if record.kept_by:
        yield f"kept by {record.kept_by}"


def show_page(code: Code, width: int) -> Page:
    """One profile resolved: what is in force, and through which file and line each value came."""
    page = Page.of(width)
    page.text(code.title, style="title")
    if code.preview:
        page.text(code.preview)
    names = " on ".join(reversed([profile.name for profile in code.profiles]))
    page.text(f"{names}; edition {code.edition}; {len(code.rules)} of {len(code.known_rules)} rules in force")
    page.text(f"Confirm with: {code.confirm_with.text}")
    for profile in reversed(code.profiles):
        page.text(f"{profile.name}: {'; '.join(_history(profile))}")
    page.text(f"Read: {', '.join(code.files)}", style="quiet")
    page.heading("RULES")
    for name, rule in sorted(code.rules.items()):
        page.row([name, f"{rule.severity}, {rule.inspection}", "; ".join(rule.clause_lines)], _TEXT)
        for layer in rule.layers:
            _source(page, layer.text, layer.profile, layer.span, layer.because)
    _not_in_force(page, code)
    page.heading("SETTINGS")
    for name, setting in sorted(code.settings.items()):
        page.text(f"{name}: {printed(setting.value)}", _TEXT)
        for layer in setting.layers:
            _source(page, layer.text, layer.profile, layer.span, layer.because)
    if code.table_rows:
        page.heading("TABLE ROWS OF THEIR OWN")
        for row in code.table_rows:
            page.text(str(row), _TEXT)
            _source(page, "", row.profile, row.span, row.because)
    return page


def _source(page: Page, said: str, profile: str, span: Span, because: str) -> None:
    """Which profile says it, in what file and line, and by which local clause."""
    clause = f" ({because})" if because else ""
    page.text(f"{said} {profile}, {span.file} line {span.line}{clause}".lstrip(), _DEEP, "quiet", hang=2)


def _not_in_force(page: Page, code: Code) -> None:
    """The rules there are besides; those that a profile leaves out with its reason."""
    out = sorted(set(code.known_rules) - set(code.rules))
    if not out:
        return
    page.heading("NOT IN FORCE")
    page.text(", ".join(out), _TEXT)
    for profile in code.profiles:
        for named, reason in profile.leaves_out:
            if code.present(named.text) in out:
                _source(page, f"{named}: left out", profile.name, named.span, reason)


def compare_page(
    names: tuple[str, str],
    previews: Sequence[str],
    different: Iterable[Difference],
    shifted: Iterable[Shift] | None,
    width: int,
) -> Page:
    """What differs between two profiles, and with plans, in what they find there; `previews` says which holds only a preview."""
    page = Page.of(width)
    page.text(f"{names[0]} and {names[1]}", style="title")
    for name, preview in zip(names, previews, strict=True):
        if preview:
            page.text(f"{name}: {preview}")
    by_sort: dict[str, list[Difference]] = defaultdict(list)
    for one in different:
        by_sort[one.sort].append(one)
    for sort, heading in (("rule", "RULES"), ("setting", "SETTINGS"), ("table", "TABLE ROWS")):
        if by_sort[sort]:
            page.heading(f"{heading}: {len(by_sort[sort])} {'differs' if len(by_sort[sort]) == 1 else 'differ'}")
        for one in by_sort[sort]:
            page.text(one.name, _TEXT, "title")
            for name, words in zip(names, (one.one, one.other), strict=True):
                page.text(f"{name}: {words or 'none'}", _DEEP, hang=2)
    if not any(by_sort.values()):
        page.text("They say the same.")
    if shifted is not None:
        page.heading("IN THE PLANS")
        _shifts(page, names, list(shifted))
    return page


def _shifts(page: Page, names: tuple[str, str], shifted: Sequence[Shift]) -> None:
    if not shifted:
        page.text("They find the same.", _TEXT)
    for shift in shifted:
        page.text(f"{shift.plan}: {shift.rule} on {shift.subject.name}", _TEXT)
        for name, words in zip(names, (shift.one, shift.other), strict=True):
            page.text(f"{name}: {words or 'nothing'}", _DEEP, "quiet", hang=2)


def trial_page(trial: Trial, width: int) -> Page:
    """What came out when a profile was tried."""
    page = Page.of(width)
    sums = [
        f"{trial.cases} case{'s' if trial.cases != 1 else ''}",
        f"{len(trial.wrong)} wrong",
        f"{len(trial.warnings)} to look at",
    ]
    page.text(f"{trial.profile}: {' · '.join(sums)}", style="title")
    _faults(page, "WRONG", trial.wrong)
    _faults(page, "WORKS, BUT LOOK AT IT", trial.warnings)
    if trial.own:
        page.heading("WHAT IT FINDS THAT ITS BASE DOESN'T, AND THE OTHER WAY")
        _shifts(page, ("its base", trial.profile), trial.own)
    if trial.touched_unreached:
        page.heading("IT SPEAKS OF THESE RULES, AND NO CASE OF ITS OWN DECIDES THEM")
        page.text(", ".join(trial.touched_unreached), _TEXT)
    if trial.cases and trial.unreached:
        page.blank()
        page.text(f"Rules of its base that no case decides: {len(trial.unreached)}.", style="quiet")
    return page


def _faults(page: Page, heading: str, faults: Sequence[Fault]) -> None:
    if not faults:
        return
    page.heading(heading)
    for fault in faults:
        where = f"{fault.span.file}, line {fault.span.line}, column {fault.span.column}: " if fault.span.file else ""
        page.text(f"{where}{fault.message}", _TEXT, hang=2)
