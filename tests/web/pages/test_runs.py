from __future__ import annotations

from service.assemblies.assembly import Assembly
from service.assemblies.reading import ReadAssembly
from service.web.pages.runs import Runs


def nothing() -> ReadAssembly:
    return ReadAssembly(Assembly({}, ()), {}, ())


def test_only_its_owner_finds_a_run() -> None:
    runs = Runs()
    run = runs.begin("harbour", nothing())
    assert runs.find("harbour", run.id) is run
    assert runs.find("shipyard", run.id) is None
    assert runs.find("harbour", "invented") is None


def test_a_run_tells_how_far_it_is() -> None:
    run = Runs().begin("harbour", nothing())
    run.advance(3)
    run.advance(2)
    assert run.done == 5
    assert not run.is_over
    run.failure = "broken"
    assert run.is_over


def test_the_oldest_run_makes_room() -> None:
    runs = Runs(most=2)
    first, _, third = (runs.begin("harbour", nothing()) for _ in range(3))
    assert runs.find("harbour", first.id) is None
    assert runs.find("harbour", third.id) is third
