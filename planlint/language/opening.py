"""From a file's name to its text: what can't be opened, isn't text or is too large, and bytes that are no UTF-8."""

import codecs
import os
import stat
from contextlib import suppress
from pathlib import Path

from planlint.language.collecting import Collector
from planlint.positions import Span

MOST_BYTES = 5_000_000
_TOO_LARGE = f"it is over the size limit of {MOST_BYTES // 1_000_000} MB"


class Unopened(Exception):
    """A file that can't be opened, isn't text, or is over the size limit: `path` as it is shown, and `message`, one line."""

    def __init__(self, path: str, message: str) -> None:
        self.path = path
        self.message = message
        super().__init__(f"{path}: {message}")


def shown_path(path: str | os.PathLike[str]) -> str:
    """The path as outputs show it: relative to the working folder where it lies below it, with forward slashes."""
    text = os.path.normpath(os.fspath(path))
    if os.path.isabs(text):
        with suppress(OSError, ValueError):  # the working folder is gone, or on another drive
            below = os.path.relpath(text)
            text = text if below.startswith(os.pardir) else below
    return text.replace(os.sep, "/")


def read_bytes(path: Path) -> bytes:
    """The content of a file. Raises Unopened."""
    shown = shown_path(path)
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            raise Unopened(shown, "it can't be opened: it is a folder")
        if not stat.S_ISREG(status.st_mode):  # opening a pipe would wait for ever
            raise Unopened(shown, "it can't be opened: it is no ordinary file")
        if status.st_size > MOST_BYTES:
            raise Unopened(shown, _TOO_LARGE)
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise Unopened(shown, "it can't be opened: there is no such file") from None
    except PermissionError:
        raise Unopened(shown, "it can't be opened: reading it is not allowed") from None
    except (OSError, ValueError) as error:  # ValueError: a NUL in the path
        raise Unopened(shown, f"it can't be opened: {getattr(error, 'strerror', None) or error}") from None


def decoded(data: bytes, file: str, collector: Collector) -> tuple[str, bool]:
    """The text of a plan's bytes, and whether it is whole: what is no UTF-8 is a fault at its first byte, and U+FFFD in the text.

    Raises Unopened for what isn't text and for what is over the size limit.
    """
    if len(data) > MOST_BYTES:
        raise Unopened(file, _TOO_LARGE)
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise Unopened(file, "it can't be read: it is text in UTF-16; save it as UTF-8")
    if b"\0" in data:
        raise Unopened(file, "it isn't text: it has NUL bytes in it")
    data = data.removeprefix(codecs.BOM_UTF8)
    try:
        return data.decode(), True
    except UnicodeDecodeError as error:
        before = data[: error.start].decode()
        span = Span.of(file, before.count("\n") + 1, len(before) - before.rfind("\n"), 1)
        collector.add(span, f"The byte 0x{data[error.start]:02X} is no UTF-8; save the file as UTF-8")
        return data.decode(errors="replace"), False
