"""What keeps a motor from burning out under too much load: its overload protection, by the current on its plate."""

from planlint.facts.engine import Job, fact
from planlint.facts.motors import judged_as_motor
from planlint.plan.elements import does_not_arise, not_stated
from planlint.plan.members import all_hold
from planlint.plan.outlets import Load
from planlint.plan.runs import Feeder
from planlint.quantities import Current, Percent, Power, TemperatureDifference


@fact
def most_overload(load: Load, job: Job) -> Current:
    """The highest setting of its overload protection: 125 % of its plate for a sturdy motor, 115 % for others.

    Sturdy: a marked service factor of 1.15 or more, or a marked temperature rise of 40 C or less. NFPA 70 430.6(A)(2),
    430.32(A)(1), (B)(1).
    """
    if not judged_as_motor(load, job):
        does_not_arise(load, f"{load.name}: a motor that is wired in")
    name = "sturdy" if _is_sturdy(load, job) else "other"
    share: Percent = job.setting(f"most-overload.{name}")
    job.step(f"{share} x {load.amps} on its plate", load.amps * share, "NFPA 70 430.32(A)(1)")
    return load.amps * share


def _is_sturdy(load: Load, job: Job) -> bool:
    factor: float = job.setting("most-overload.service-factor")
    rise: TemperatureDifference = job.setting("most-overload.temperature-rise")

    def is_cool() -> bool:
        return load.temperature_rise.amount > 0 and load.temperature_rise <= rise

    return not all_hold(lambda: load.service_factor < factor, lambda: not is_cool())


@fact
def overload_suits(owner: Load | Feeder, job: Job) -> bool:
    """Whether its overload protection is set no higher than it may be; known too where only the plate's marks are open.

    Its own built-in protection counts. A feeder has none. A motor up to 1 hp that is started by hand within sight needs none
    beside its breaker, which is open here. NFPA 70 430.32.
    """
    if isinstance(owner, Feeder):
        return True
    setting = owner.overload
    if setting == "built-in":
        job.step("protected from within, by its plate", "", "NFPA 70 430.32(A)(2), (B)(2)")
        return True
    if not isinstance(setting, Current):
        return _may_do_without(owner, job)
    if setting <= owner.amps * job.setting("most-overload.other"):
        return True
    if setting > owner.amps * job.setting("most-overload.sturdy"):
        return False
    return setting <= most_overload(owner, job)


def _may_do_without(load: Load, job: Job) -> bool:
    small: Power = job.setting("overload-suits.by-hand")
    if load.type in job.setting("overload-suits.start-by-themselves") or load.horsepower > small:
        return False
    not_stated(load, "overload", f"{load.name}: overload, or that it is started by hand within sight (NFPA 70 430.32(D))")
