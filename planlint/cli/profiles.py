"""`planlint profiles`: for the people who keep a rule book of their place: list, show, compare, test, new."""

import argparse
import datetime
import sys
from pathlib import Path

from planlint.cli.new_profile import write_profile
from planlint.cli.writing import page_width, wants_color
from planlint.faults import Faults
from planlint.language import Unopened
from planlint.output.check.page import faults_page
from planlint.output.layout import Page, print_page

BESIDE = Path("profiles")


def declare(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    inner = parser.add_subparsers(dest="task", metavar="TASK", required=True, parser_class=type(parser))
    every = inner.add_parser("list", help="the profiles there are, where each was found, when last checked")
    every.set_defaults(run=_list)
    show = inner.add_parser("show", help="one profile resolved: each value with the file and line it came from")
    show.add_argument("name", metavar="NAME")
    show.set_defaults(run=_show)
    compare = inner.add_parser("compare", help="what differs between two profiles, and in what they find")
    compare.add_argument("one", metavar="A")
    compare.add_argument("other", metavar="B")
    compare.add_argument("--with-plan", nargs="+", default=[], type=Path, metavar="PLAN", help="compare what they find in these")
    compare.set_defaults(run=_compare)
    test = inner.add_parser("test", help="run a profile's cases; say what in it is unknown, dead, untried or stale")
    test.add_argument("name", nargs="?", metavar="NAME", help="otherwise every locality found outside planlint")
    test.set_defaults(run=_test)
    new = inner.add_parser("new", help="write a commented profile to start from")
    new.add_argument("name", metavar="NAME")
    new.add_argument("--based-on", required=True, metavar="BASE", help="a model edition or a locality")
    new.add_argument("--to", type=Path, default=BESIDE, metavar="DIR", help="the folder it is written into (profiles)")
    new.set_defaults(run=_new)
    for command in (every, show, compare, test, new):
        command.add_argument("--profiles", action="append", default=[], type=Path, metavar="DIR", help="search this folder too")


def _folders(chosen: argparse.Namespace) -> tuple[Path, ...]:
    return (BESIDE, *chosen.profiles)


def _print(page: Page) -> None:
    print_page(page, sys.stdout, wants_color(sys.stdout))


def _wrong(faults: Faults) -> int:
    _print(faults_page(faults.faults, page_width(sys.stdout)))
    return 2


def _list(chosen: argparse.Namespace) -> int:
    from planlint.book.shelves import every_profile
    from planlint.output.profiles_text import list_page

    records, wrong = every_profile(_folders(chosen))
    _print(list_page(records, wrong, page_width(sys.stdout)))
    return 2 if wrong else 0


def _show(chosen: argparse.Namespace) -> int:
    from planlint.desk import Desk
    from planlint.output.profiles_text import show_page

    try:
        _print(show_page(Desk((chosen.name,), _folders(chosen)).code(), page_width(sys.stdout)))
    except Faults as faults:
        return _wrong(faults)
    return 0


def _compare(chosen: argparse.Namespace) -> int:
    from planlint.desk import Desk
    from planlint.localities import differences, shifts
    from planlint.output.profiles_text import compare_page

    one, other = (Desk((name,), _folders(chosen)) for name in (chosen.one, chosen.other))
    try:
        shifted = list(shifts(chosen.with_plan, one, other)) if chosen.with_plan else None
        codes = (one.code(), other.code())
        different = differences(*codes)
        previews = [code.preview for code in codes]
        _print(compare_page((chosen.one, chosen.other), previews, different, shifted, page_width(sys.stdout)))
    except Faults as faults:
        return _wrong(faults)
    except Unopened as fault:
        sys.stdout.write(f"{fault.path}: {fault.message}\n")
        return 2
    return 0


def _test(chosen: argparse.Namespace) -> int:
    """0 where nothing is wrong, 1 where a case comes out otherwise or something deserves a look, 2 where it is no profile."""
    from planlint.book.shelves import every_profile
    from planlint.localities import try_out
    from planlint.output.profiles_text import trial_page

    names = [chosen.name] if chosen.name else [record.name for record in every_profile(_folders(chosen), own=False)[0]]
    if not names:
        sys.stdout.write(
            "no profile lies in profiles/ or in a folder given with --profiles; name one, or make one: profiles new\n"
        )
        return 2
    status = 0
    for number, name in enumerate(names):
        trial = try_out(name, _folders(chosen), datetime.date.today())
        if number:
            sys.stdout.write("\n")
        _print(trial_page(trial, page_width(sys.stdout)))
        status = max(status, 2 if trial.wrong and not trial.file else 1 if trial.wrong else 0)
    return status


def _new(chosen: argparse.Namespace) -> int:
    from planlint.desk import Desk

    try:
        base = Desk((chosen.based_on,), _folders(chosen)).code()
    except Faults as faults:
        return _wrong(faults)
    return write_profile(chosen.name, base, chosen.to)
