"""The commands, a file each, and what they share: the parser, the exit statuses, and what happens when something fails."""

import argparse
import os
import re
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import NoReturn

from planlint.cli.writing import Unwritten
from planlint.nearest import proposal

EXIT_CLEAN, EXIT_BROKEN, EXIT_UNREADABLE, EXIT_OUR_FAULT, EXIT_STOPPED = 0, 1, 2, 3, 130


class _Parser(argparse.ArgumentParser):
    """An argument parser whose errors read like planlint's and propose the nearest word."""

    def error(self, message: str) -> NoReturn:
        wrong = re.search(r"invalid choice: '([^']*)' \(choose from (.*)\)", message)
        near = proposal(wrong[1], re.findall(r"[a-z-]+", wrong[2])) if wrong else ""
        self.exit(EXIT_UNREADABLE, f"planlint: {message}.{near} Try: planlint --help\n")
        raise AssertionError("exit returned")


# Each in a module of its own, which is imported only when its command is given.
COMMANDS = {
    "check": "check plans and say what to correct, by when, and whom to ask",
    "worksheet": "show every number of a plan with its working",
    "one-line": "draw the one-line diagram of a plan, findings marked",
    "schedule": "lay out each panel: spaces, breakers, loads per leg, the door's directory",
    "takeoff": "list the material: wire, pipe, fittings, boxes, breakers, as they are bought",
    "checklist": "list by inspection what to show, to look at, to ask and to have there",
    "packet": "put all papers of a job on one page that prints",
    "rules": "the rules in force under a profile; one rule in full",
    "profiles": "for those who keep a rule book: list, show, compare, test, new",
}


def _parser(arguments: Sequence[str]) -> argparse.ArgumentParser:
    """The parser of these arguments: all commands, with the options of the one that is given."""
    from planlint import __version__

    parser = _Parser(prog="planlint", description="Checks house wiring plans written as text. A self-check, no approval.")
    parser.add_argument("--version", action="version", version=f"planlint {__version__}")
    parser.add_argument("--debug", action="store_true", help="show where planlint itself failed")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", parser_class=_Parser)
    given = next((word for word in arguments if not word.startswith("-")), "")
    for name, help in COMMANDS.items():
        command = commands.add_parser(name, help=help, description=f"{help[0].upper()}{help[1:]}.")
        if name == given:
            import_module(f"planlint.cli.{name.replace('-', '_')}").declare(command)
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command and return its exit status: 0 clean, 1 to correct, 2 unreadable, 3 a fault of planlint, 130 stopped."""
    words = sys.argv[1:] if arguments is None else arguments
    parser = _parser(words)
    chosen = parser.parse_args(words)
    if not chosen.command:
        parser.print_help()
        return EXIT_UNREADABLE
    try:
        status: int = chosen.run(chosen)
        sys.stdout.flush()
        return status
    except Unwritten as fault:
        print(fault, file=sys.stderr)
        return EXIT_UNREADABLE
    except KeyboardInterrupt:
        return EXIT_STOPPED
    except BrokenPipeError:
        # The reader went away: close quietly, and keep Python from complaining when it flushes at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return EXIT_STOPPED
    except Exception as fault:
        if chosen.debug:
            raise
        print(f"planlint: it failed by a fault of its own ({type(fault).__name__}: {fault}).", file=sys.stderr)
        print("Please report it, with the plan if you can; --debug shows where it happened.", file=sys.stderr)
        return EXIT_OUR_FAULT
