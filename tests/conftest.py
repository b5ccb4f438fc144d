"""What tests share: plans written in the plan language, and the job that works out their facts."""

from collections.abc import Callable

import pytest

from planlint.language import Reading, read_text


@pytest.fixture(scope="session")
def plan() -> Callable[..., Reading]:
    """Read a plan from its text: `plan('''plan "Cottage" ...''')`; `example=True` for one without a plan statement."""

    def read(text: str, example: bool = False) -> Reading:
        return read_text(text, example=example)

    return read


@pytest.fixture(scope="session")
def job_for() -> Callable[..., object]:
    """The job of a plan text without a plan statement (its first line may be `complete ...`) under a model edition."""
    from planlint.book import resolve
    from planlint.book.tables import Tables
    from planlint.facts import load_facts
    from planlint.facts.engine import Job
    from planlint.plan.graph import Graph

    load_facts()

    def make(text: str, edition: int = 2020, profile: str = "") -> Job:
        code = resolve((profile or f"model-{edition}",))
        example = not any(line.startswith("plan ") for line in text.splitlines())
        return Job(Graph(read_text(text, example=example).elements), code, Tables())

    return make
