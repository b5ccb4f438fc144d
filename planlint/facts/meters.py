"""What a meter's socket has to carry: as much as the mains behind it let through."""

from planlint.facts.demand import total_current
from planlint.facts.engine import Job, fact
from planlint.facts.load import main_rating
from planlint.plan.gear import Disconnect, Meter, Panel, TransferSwitch
from planlint.quantities import Current


@fact
def mains_rating(meter: Meter, job: Job) -> Current:
    """What the first breakers or fuses behind it let through, added.

    NFPA 70 230.66 (from 2020 on 230.66(B)): a socket is rated for the service, whose rating is that of its mains (230.79).
    """
    mains = _mains_behind(meter, job)
    ratings = [main_rating(main, job) for main in mains]
    job.step(" + ".join(f"{main.name} {rating}" for main, rating in zip(mains, ratings, strict=True)), total_current(ratings),
             "NFPA 70 230.66, 230.79")  # fmt: skip
    return total_current(ratings)


def _mains_behind(gear: Meter | TransferSwitch, job: Job) -> list[Disconnect | Panel]:
    """The first gear behind it that holds mains; a transfer switch passes on what comes."""
    found: list[Disconnect | Panel] = []
    for run in job.graph.feeds_from(gear).whole():
        end = run.to
        found += _mains_behind(end, job) if isinstance(end, Meter | TransferSwitch) else [end]
    return found
