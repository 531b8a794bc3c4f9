"""Mutants of the specs against `rinsebook check`."""

import re
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from itertools import islice

from builder.spec.load import find_specs, load_spec
from builder.spec.rules import check_spec
from builder.spec.specification import Spec
from builder.trial.trial import try_formulas
from proof.figures import Rate, Section
from proof.spec_mutants import draw_mutants

SEED, COUNT = 20271, 300
ZERO = "nine dimensions give exactly 0 L by a coincidence alone"
# Changes after which every number inside the limits is the same, each with the reason.
EQUIVALENTS = (
    (r"^cross_pctd: .*\(trend_shown_pct_list\+mean_pct\)", "deviations from a mean add up to 0"),
    (r"_share_pct: IF\(holdup_geometry_L>.*IF\(holdup_geometry_L>=0", ZERO),
    (r"^holdup_adopted_L: .*holdup_geometry_L<=0", ZERO),
    (r"^(end|fresh)_reading_ok: .*_pH<=1\)", "a pH has its least limit at 7.5 or more"),
)
LEAST = 0.98
CORES = 2


@cache
def load() -> Spec:
    """Return the specs, once a process."""
    return load_spec(find_specs())


def find_survivors(share: int) -> list[str]:
    """Return the mutants of one share that `check` accepts."""
    mutants = islice(draw_mutants(load(), SEED, COUNT), share, None, CORES)
    return [mutant.label for mutant in mutants if not is_seen(mutant.spec)]


def is_equivalent(label: str) -> bool:
    """Tell whether a mutant is one that changes no number."""
    return any(re.search(pattern, label) for pattern, _ in EQUIVALENTS)


def is_seen(spec: Spec) -> bool:
    """Tell whether `check` finds fault with specs; a crash is no finding."""
    return bool(check_spec(spec) or try_formulas(spec))


def measure() -> Section:
    """Let `check` judge each mutant."""
    with ProcessPoolExecutor(CORES) as pool:
        missed = [label for found in pool.map(find_survivors, range(CORES)) for label in found]
    survivors = [label for label in missed if not is_equivalent(label)]
    count = COUNT - (len(missed) - len(survivors))
    return Section(
        "Mutants of the specs",
        "One operator, name, figure, option or unit changed at random: `rinsebook check` says so.",
        "a change that changes no number inside the limits, such as the first guess of a root.",
        [Rate("mutants that check names", count - len(survivors), count, LEAST)],
        [
            f"{COUNT} made, {COUNT - count} of them listed with the reason why no number moves",
            *(f"not seen: `{label}`" for label in survivors),
        ],
    )
