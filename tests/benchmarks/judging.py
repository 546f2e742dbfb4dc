"""Couples judged a second on one core, with full uncertainty.

Couples are random pairs of bare and coated materials, few of them alike, and no lane is remembered. Times
are processor times, because other processes share the machine; the best of some repetitions counts.
``python -m tests.benchmarks.judging`` prints where the time of one batch goes.
"""

from __future__ import annotations

import cProfile
import pstats
import time
from collections.abc import Iterator

import numpy as np

from service.catalogue.surfaces import Layer, Surface
from service.judgement import Couple, Inquiry, Side, answer, judge
from service.judgement.attack import forget_lanes
from service.judgement.draws import SAMPLE_SIZE
from tests.benchmarks.rows import Row, processor_s
from tests.seed_catalogue import seed_catalogue

PLACES = (
    "marine-atmosphere-0-100-m",
    "urban-atmosphere",
    "splash-and-tidal-zone",
    "cabinet-with-condensation",
    "seawater-quiescent",
    "tap-water-hard",
    "soil-corrosive",
    "heated-indoor",
)
FINISHES = ("zn-plain", "zn-hdg", "ni-electro", "sn-matte", "powder-coat", "anod-ii-clear")
COUPLES = 1_000
GOAL_PER_S = 2_000.0
PROFILED_STEPS = 40


def random_couples(share_coated: float) -> list[Couple]:
    """Pairs of materials, a share of the sides with one coat; the same ones in every run."""
    chance = np.random.default_rng(7)
    materials = sorted(seed_catalogue().materials)

    def side() -> Surface:
        coat = (Layer(str(chance.choice(FINISHES))),) if chance.random() < share_coated else ()
        return Surface(str(chance.choice(materials)), coat)

    return [Couple(side(), side()) for _ in range(COUPLES)]


def measure() -> Iterator[Row]:
    """Couples a second in each place."""
    catalogue = seed_catalogue()
    bare, coated = random_couples(0.0), random_couples(0.5)
    judge(bare[:50], catalogue.environments[PLACES[0]], catalogue)
    for place in PLACES:
        for kind, couples in (("bare", bare), ("half coated", coated)):
            spent = min(judging_s(couples, environment_id=place) for _ in range(2))
            note = (
                f"sample of {SAMPLE_SIZE}"
                if kind == "bare"
                else f"one answer alone {single_ms(place):.1f} ms"
            )
            name = f"{place}, {kind}"
            yield Row("judging", name, COUPLES / spent, "couples/s", goal=GOAL_PER_S, note=note)


def judging_s(couples: list[Couple], environment_id: str) -> float:
    """Processor time of judging couples of which no lane is remembered [s]."""
    catalogue = seed_catalogue()
    forget_lanes()
    return processor_s(lambda: judge(couples, catalogue.environments[environment_id], catalogue), 1)


def single_ms(place: str) -> float:
    """Processor time of one inquiry with its document, asked alone [ms]."""
    catalogue = seed_catalogue()
    inquiry = Inquiry(Side(material="al-6082-t6"), Side(material="cu-etp", finish="ni-electro"), place)
    answer([inquiry], catalogue)[0].document()
    spent = 0.0
    for _ in range(10):
        forget_lanes()
        start = time.process_time()
        answer([inquiry], catalogue)[0].document()
        spent += time.process_time() - start
    return spent / 10 * 1e3


def main() -> None:
    """Print the steps of one batch under a film, by their own time."""
    catalogue, couples = seed_catalogue(), random_couples(0.5)
    judge(couples[:50], catalogue.environments[PLACES[0]], catalogue)
    forget_lanes()
    profiler = cProfile.Profile()
    profiler.enable()
    judge(couples, catalogue.environments[PLACES[0]], catalogue)
    profiler.disable()
    pstats.Stats(profiler).strip_dirs().sort_stats("tottime").print_stats(PROFILED_STEPS)


if __name__ == "__main__":
    main()
