"""Programs outside Python that tests of pages need: without one they are skipped, or fail where it is required.

`.ci/run` installs them and sets PLANLINT_BROWSER=required.
"""

import os
import shutil

import pytest


def found(program: str) -> str:
    """Where a program is."""
    path = shutil.which(program)
    if path is not None:
        return path
    if os.environ.get("PLANLINT_BROWSER") == "required":
        pytest.fail(f"{program} is required here and not installed")
    pytest.skip(f"{program} is not installed")
