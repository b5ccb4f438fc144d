"""The folder of rules that each test of the book fills for itself."""

from pathlib import Path

import pytest
from book_folders import Folder


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """A folder laid out like `rules/` with the three models and no rule."""
    return Folder(tmp_path)
