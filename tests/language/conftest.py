"""What the tests of the language share: the faults of a text, each as line, column, end column and message."""

from collections.abc import Callable

import pytest

from planlint.faults import Faults
from planlint.language import read_text

Told = list[tuple[int, int, int, str]]


@pytest.fixture(scope="session")
def faults_of() -> Callable[[str], Told]:
    """The faults of a part, that is, of a text that needs no plan statement."""

    def told(text: str) -> Told:
        with pytest.raises(Faults) as caught:
            read_text(text, part=True)
        return [(f.span.line, f.span.column, f.span.end_column, f.message) for f in caught.value.faults]

    return told
