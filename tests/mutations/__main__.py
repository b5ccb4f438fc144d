"""What the rules make of single faults in the clean cottage: `python -m tests.mutations [PROFILE ...]`, minutes for each profile.

Prints how the faults end, by the topics of the rules, what fires beside the rule that should, which rules no fault breaks, and
what nothing catches, each with its reason from `uncaught`. Ends with status 1 where a reason is missing or needed no longer.
"""

import sys
from collections import Counter

from tests.mutations.endings import COTTAGE, reason, table, unexplained
from tests.mutations.faulted_plans import CleanPlan
from tests.mutations.uncaught import LAWFUL


def main() -> int:
    """Do all, profile by profile."""
    faulty = False
    for profile in sys.argv[1:] or ["tern-county"]:
        plan = CleanPlan(COTTAGE.read_text(encoding="utf-8"), profile)
        outcomes = [plan.past_its_limit(mutations) for mutations in plan.mutations() if mutations]
        wrong = unexplained(outcomes)
        lawful = Counter(reason(one.mutation) for one in outcomes if one.end == "none")
        print(profile, *table(plan, outcomes), sep="\n")
        print(*(f"lawful: {key} ({number}): {LAWFUL[key]}" for key, number in sorted(lawful.items()) if key), *wrong, sep="\n")
        faulty = faulty or bool(wrong)
    return int(faulty)


if __name__ == "__main__":
    sys.exit(main())
