"""Mutants of the specs against `rinsebook check`, and against the stories where it says nothing."""

import re
from collections import Counter
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from itertools import chain, islice
from pathlib import Path

from builder.production import shorten
from builder.replay.entries import make_case
from builder.replay.players import stretch
from builder.replay.story import read_stories
from builder.spec.load import find_specs, load_spec
from builder.spec.rules import check_spec
from builder.spec.specification import Spec
from builder.trial.cases import Case, draw_cases, list_edges, list_fixed
from builder.trial.trial import DRAWN, KEPT, LONGEST, SEED, Trial
from proof.figures import Rate, Section
from proof.spec_mutants import draw_mutants

LOT, COUNT = 20271, 200
ZERO = "nine dimensions give exactly 0 L by a coincidence alone"
# Changes after which every number inside the limits is the same, each with the reason.
EQUIVALENTS = (
    (r"_share_pct: IF\(holdup_geometry_L>.*IF\(holdup_geometry_L>=0", ZERO),
    (r"^holdup_adopted_L: .*holdup_geometry_L<=0", ZERO),
    (r"^holdup_geometry_u_pct: .*holdup_geometry_L>=0", ZERO),
    (r"^tiny_\w+: ", "tells equal numbers from others; ten times as much would do as well"),
    (
        r"^wound_ok: .*(_ratio_n>wound|_ratio_n<1)",
        "a worked-out ratio meets its limit by chance only",
    ),
    (r"^(end|fresh)_reading_ok: .*_pH<=1\)", "a pH has its least limit at 7.5 or more"),
)
LEAST = 0.9  # 183 of 200 were named; what is missed stands in lines of charts and words of the log
CORES = 2
STORIES = Path(__file__).parents[1] / "stories"
FEW_ROWS = 32  # all but a handful of stories have fewer
CHECK, STORY, NOBODY = "check", "story", "nobody"


@cache
def load() -> Spec:
    """Return the specs, once a process."""
    return load_spec(find_specs())


def judge_share(share: int) -> list[tuple[str, str]]:
    """Return the mutants of one share, each with who names it."""
    mutants = islice(draw_mutants(load(), LOT, COUNT), share, None, CORES)
    return [(mutant.label, find_judge(mutant.spec)) for mutant in mutants]


def find_judge(spec: Spec) -> str:
    """Return who finds fault with specs: `check`, the stories' machines and logs, or nobody."""
    if differs_in_trial(spec) or check_spec(spec):
        return CHECK
    return STORY if differs_in_stories(spec) else NOBODY


def differs_in_trial(spec: Spec) -> bool:
    """Tell whether a formula differs in one of the cases that `check` works out."""
    short = shorten(spec, LONGEST, KEPT)
    return differs(
        short, chain(list_fixed(short), list_edges(short), draw_cases(short, SEED, DRAWN))
    )


def differs_in_stories(spec: Spec) -> bool:
    """Tell whether a formula differs in what a story types."""
    short = stretch(spec, FEW_ROWS, short=True)
    stories = read_stories(sorted(STORIES.glob("*.toml")), spec)
    few = (story for story in stories if len(story.rows) <= FEW_ROWS)
    return differs(short, (make_case(story, short) for story in few))


def differs(spec: Spec, cases: Iterable[Case]) -> bool:
    """Tell whether workbook and reference differ in a case; a crash is no finding."""
    try:
        trial = Trial(spec)
        return any(any(trial.find_problems([case])) for case in cases)
    except Exception:  # whatever it is: the rules must have named what leads to it
        return False


def is_equivalent(label: str) -> bool:
    """Tell whether a mutant is one that changes no number."""
    return any(re.search(pattern, label) for pattern, _ in EQUIVALENTS)


def measure() -> Section:
    """Let `check` judge each mutant, and the stories those that it accepts."""
    with ProcessPoolExecutor(CORES) as pool:
        judged = [pair for found in pool.map(judge_share, range(CORES)) for pair in found]
    named = Counter(judge for _, judge in judged)
    missed = [label for label, judge in judged if judge == NOBODY]
    survivors = [label for label in missed if not is_equivalent(label)]
    count = COUNT - (len(missed) - len(survivors))
    return Section(
        "Mutants of the specs",
        "One operator, name, figure, option or unit changed at random: `rinsebook check` says so, "
        "or a story that is played through the workbook ends otherwise than in the reference.",
        "a change that changes no number inside the limits, such as the first guess of a root.",
        [Rate("mutants that check or a story names", count - len(survivors), count, LEAST)],
        [
            f"{COUNT} made, {COUNT - count} of them listed with the reason why no number moves",
            f"`check` alone names {named[CHECK]}, a story {named[STORY]} more",
            *(f"not seen: `{label}`" for label in survivors),
        ],
    )
