"""A law of fill: a larger pipe of the same type is never fuller, whatever is in it, and one more wire never leaves more room."""

import itertools
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from planlint.facts.engine import Job
from planlint.facts.fill import contents_area, fill

JobFor = Callable[..., Job]
TYPES = ("EMT", "RMC", "IMC", "PVC-40", "PVC-80", "ENT", "FMC", "LFMC")
WIRES = ("14 AWG copper THWN-2", "10 AWG copper THWN-2", "6 AWG copper XHHW-2", "1 AWG aluminum XHHW-2", "4/0 aluminum XHHW-2")


@pytest.mark.parametrize("type_", TYPES)
@given(count=some.integers(1, 9), wire=some.sampled_from(WIRES), more=some.sampled_from(WIRES))
@settings(max_examples=8, deadline=None)
def test_a_larger_pipe_is_never_fuller(job_for: JobFor, type_: str, count: int, wire: str, more: str) -> None:
    from planlint.book.tables import Tables

    sizes = Tables().raceway_sizes(type_)
    text = "".join(
        f"raceway p{number}\n  type {type_}; size {size}; holds {count} x {wire}, 1 x {more}\n"
        for number, size in enumerate(sizes)
    )
    text += f"raceway bare\n  type {type_}; size {sizes[-1]}; holds {count} x {wire}\n"
    job = job_for(text)
    filled = [fill(job.graph.one(f"p{number}"), job) for number in range(len(sizes))]  # type: ignore[arg-type]
    assert len(filled) > 3
    assert all(larger < smaller for smaller, larger in itertools.pairwise(filled))
    last = job.graph.one(f"p{len(sizes) - 1}")
    assert contents_area(last, job) > contents_area(job.graph.one("bare"), job)  # type: ignore[arg-type]
