"""Where `rules/` and `schema/` lie: beside the package in a wheel, at the root of a checkout or an editable install."""

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


@cache
def data_folder(name: str) -> "Path | Traversable":
    """The folder `rules` or `schema` that travels with planlint.

    Raises FileNotFoundError, with the folder's name, where an installation has lost it.
    """
    here = Path(__file__).resolve().parent
    for candidate in (here / "_data" / name, here.parent / name):
        if candidate.is_dir():
            return candidate
    from importlib.resources import files  # slow to import, and only a zipped install needs it

    inside = files("planlint") / "_data" / name
    if inside.is_dir():
        return inside
    raise FileNotFoundError(f"planlint is installed without its folder '{name}'")
