"""How much of it to buy: wire with what its ends take and what is cut away, pipe, its joints, straps and staples."""

import math

from planlint.facts.engine import Job, fact
from planlint.facts.supports import needs_supports
from planlint.facts.wires import cable_type
from planlint.plan.elements import does_not_arise
from planlint.plan.routes import Raceway
from planlint.plan.runs import Circuit, Feeder, Service
from planlint.quantities import Length, Percent

RIGID = ("EMT", "IMC", "RMC", "PVC-40", "PVC-80")
_PRACTICE = "common practice, no source"


@fact
def length_to_buy(run: Service | Feeder | Circuit, job: Job) -> Length:
    """Length of each of its wires, or of its cable, with what its two ends take and what is cut away.

    Common practice, no source; the ends may be stated (`extra-at-ends`).
    """
    if isinstance(run, Service) and run.owner == "utility":
        does_not_arise(run, f"{run.name}: wires of the customer's own")
    ends: Length = run.extra_at_ends if run.states("extra-at-ends") else job.setting("length-to-buy.at-each-end")
    return _with_waste(run.length + ends * 2, f"{run.length} + 2 x {ends}", "length-to-buy.waste", job)


@fact
def pipe_to_buy(raceway: Raceway, job: Job) -> Length:
    """Length of its pipe with what is cut away; its elbows count as pipe, so some is to spare. Common practice, no source."""
    return _with_waste(raceway.length, f"{raceway.length}", "pipe-to-buy.waste", job)


def _with_waste(length: Length, words: str, setting: str, job: Job) -> Length:
    waste: Percent = job.setting(setting)
    together = length + length * waste
    job.step(f"({words}) x (100 % + {waste})", together, _PRACTICE)
    return together


@fact
def elbows(raceway: Raceway, job: Job) -> int:
    """Elbows to buy: one for each bend of 45 or 90 degrees in rigid pipe that isn't bent by hand.

    Thin steel tubing up to a size is bent on site, and so are odd angles; flexible pipe bends by itself. Common practice,
    no source.
    """
    if raceway.type not in RIGID or not raceway.bends:
        return 0
    if raceway.type == "EMT" and Length.of(raceway.size.inches, "in") <= job.setting("elbows.bent-by-hand"):
        return 0
    bought = sum(round(bend.within("deg")) in (45, 90) for bend in raceway.bends)
    job.step(f"bends of 45 and 90 deg among {', '.join(map(str, raceway.bends))}", bought, _PRACTICE)
    return bought


@fact
def couplings(raceway: Raceway, job: Job) -> int:
    """Joints inside a rigid pipe: one fewer than its straight lengths and elbows together. Common practice, no source."""
    if raceway.type not in RIGID:
        return 0
    each: Length = job.setting("couplings.length-of-pipe")
    straight, bent = math.ceil(raceway.length.over(each) - 1e-9), elbows(raceway, job)
    job.step(f"lengths of {each}, and elbows: {straight} + {bent} - 1", straight + bent - 1, _PRACTICE)
    return straight + bent - 1


@fact
def straps_needed(line: Raceway | Service | Feeder | Circuit, job: Job) -> int:
    """Straps or staples from end to end: the first near each end, the others as far apart as they may be.

    By the table of supports, not by what the plan states of them. NFPA 70, section .30 of the article.
    """
    if not needs_supports(line, job):
        return 0
    if isinstance(line, Raceway):
        most, first = job.tables.support_spacing(line.type, line.size), job.tables.first_support(line.type)
    else:
        kind = cable_type(line, job)
        most, first = job.tables.support_spacing(kind), job.tables.first_support(kind)
    spans = 1
    if line.length > first * 2:
        spans = math.ceil((line.length - first * 2).over(most) - 1e-9)
        job.step(f"({line.length} - 2 x {first}) / {most}, rounded up", spans, job.from_table("supports"))
    job.step(f"from the first to the last: {spans} + 1", spans + 1)
    return spans + 1
