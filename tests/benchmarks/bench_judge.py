"""Couples judged per second on one core, with full uncertainty, and where the time goes.

Couples are random pairs of bare and coated materials, few of them alike. Times are processor times,
because other processes share the machine; the best of some repetitions counts. The profile lists the
steps of one batch under a film.
"""

from __future__ import annotations

import cProfile
import pstats
import time

import numpy as np

from service.catalogue.surfaces import Layer, Surface
from service.judgement import Couple, Inquiry, Side, answer, judge
from service.judgement.draws import SAMPLE_SIZE
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
COUPLES = 2_000
REPETITIONS = 3
GOAL_PER_S = 2_000
PROFILED_STEPS = 25


def random_couples(share_coated: float) -> list[Couple]:
    """Pairs of materials, a share of the sides with one coat; the same ones in every run."""
    chance = np.random.default_rng(7)
    materials = sorted(seed_catalogue().materials)

    def side() -> Surface:
        coat = (Layer(str(chance.choice(FINISHES))),) if chance.random() < share_coated else ()
        return Surface(str(chance.choice(materials)), coat)

    return [Couple(side(), side()) for _ in range(COUPLES)]


def per_second(couples: list[Couple], place: str) -> float:
    """Couples per second of processor time, the best of some repetitions."""
    catalogue = seed_catalogue()
    environment = catalogue.environments[place]
    judge(couples[:50], environment, catalogue)
    best = float("inf")
    for _ in range(REPETITIONS):
        start = time.process_time()
        judge(couples, environment, catalogue)
        best = min(best, time.process_time() - start)
    return len(couples) / best


def single_ms(place: str) -> float:
    """Processor time of one inquiry with its document, asked alone [ms]."""
    catalogue = seed_catalogue()
    inquiry = Inquiry(Side(material="al-6082-t6"), Side(material="cu-etp", finish="ni-electro"), place)
    answer([inquiry], catalogue)[0].document()
    start = time.process_time()
    for _ in range(20):
        answer([inquiry], catalogue)[0].document()
    return (time.process_time() - start) / 20 * 1e3


def profile(couples: list[Couple], place: str) -> None:
    """Print the steps of one batch, by their own time."""
    catalogue = seed_catalogue()
    profiler = cProfile.Profile()
    profiler.enable()
    judge(couples, catalogue.environments[place], catalogue)
    profiler.disable()
    pstats.Stats(profiler).strip_dirs().sort_stats("tottime").print_stats(PROFILED_STEPS)


def main() -> None:
    """Print couples per second in each place, one answer's time, and a profile."""
    bare, coated = random_couples(0.0), random_couples(0.5)
    print(f"{COUPLES} couples, a sample of {SAMPLE_SIZE} for each; goal {GOAL_PER_S} couples/s on one core")
    print(f"{'':28} {'bare':>10} {'half coated':>12} {'one answer':>12}")
    for place in PLACES:
        rates = per_second(bare, place), per_second(coated, place)
        reached = "" if min(rates) >= GOAL_PER_S else "  below the goal"
        print(f"{place:28} {rates[0]:8.0f}/s {rates[1]:10.0f}/s {single_ms(place):9.1f} ms{reached}")
    profile(bare, PLACES[0])


if __name__ == "__main__":
    main()
