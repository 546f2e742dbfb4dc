"""Finishes of circuit boards and terminals: ENIG, ENEPIG, HASL, OSP, immersion silver and tin."""

from __future__ import annotations

from service.callouts.finishes.decision import Decision, callout_of, certain, torn
from service.callouts.marks import Clues, Coat, Sense, Spec
from service.callouts.patterns import Pattern
from service.callouts.phrases import spelt

SOLDER = "Is the hot-air levelled solder leaded or lead-free?"


def decide_hasl(coat: Coat, clues: Clues) -> Decision:
    """Choose the alloy of hot-air levelled solder."""
    if coat.process == "lead-free" or clues.has("solder", "lead-free") or clues.has("chemistry", "rohs"):
        return certain("hasl-lf")
    if coat.process == "leaded" or clues.kinds & {"snpb"} or clues.has("solder", "leaded"):
        return certain("hasl-snpb")
    return torn(SOLDER, hasl_lf=0.5, hasl_snpb=0.5)


def _fixed(kind: str, finish: str) -> Spec:
    return Spec(finish, lambda _: callout_of(kind, certain(finish), "copper"))


SPECS: dict[str, Spec] = {
    "ipc4552": _fixed("enig", "enig"),
    "ipc4553": _fixed("ag", "imm-ag"),
    "ipc4554": _fixed("sn", "imm-sn"),
    "ipc4555": _fixed("osp", "osp"),
    "ipc4556": _fixed("enepig", "enepig"),
}
"""IPC performance specifications of surface finishes (from memory)."""

PATTERNS: tuple[Pattern, ...] = ()
PHRASES: dict[str, Sense] = (
    spelt(
        Coat("enig"),
        "enig, electroless nickel immersion gold, electroless nickel and immersion gold, "
        "electroless ni immersion gold, eni ig, immersion gold, imm gold, chemisch nickel gold, "
        "chem nickel gold, chem ni au, chemisch gold, chem gold, ni au chem, "
        "electroless ni immersion au, imm au, or chimique, nickel or chimique, electroless gold, "
        "chemical gold, ni imm au, chem niau, enig finish, electroless ni au, nickel immersion gold, "
        "ni immersion au, sudgold",
    )
    | spelt(
        Coat("enepig"),
        "enepig, electroless nickel electroless palladium immersion gold, "
        "electroless nickel palladium immersion gold, ni pd au chem, nickel palladium immersion gold, "
        "epig",
    )
    | spelt(
        Coat("hasl"),
        "hasl, hal, hot air level, hot air leveled, hot air levelled, hot air leveling, "
        "hot air solder leveling, hot air solder level, hot air solder levelling, heissluftverzinnt, "
        "heissluftverzinnung, hal finish",
    )
    | spelt(
        Coat("hasl", "lead-free"),
        "lead free hasl, leadfree hasl, lf hasl, hasl lf, hasl lead free, pb free hasl, bleifrei hal, "
        "hal bleifrei, lead free hal, hasl pb free, hal lead free, hasl leadfree, rohs hasl, "
        "hal pb free, hal pb frei, hasl rohs, lf hal, hal lf, hasl sans plomb, hal sn100c",
    )
    | spelt(
        Coat("hasl", "leaded"),
        "leaded hasl, snpb hasl, hasl snpb, hasl leaded, hasl tin lead, tin lead hasl, hasl sn pb, "
        "hal snpb, hal bleihaltig, bleihaltig hal, hasl 63 37, hasl with lead, sn pb hasl, sn63 hasl",
    )
    | spelt(
        Coat("osp"),
        "osp, organic solderability preservative, organic solder preservative, entek, "
        "organische passivierung, organic surface protection, osp finish, preflux",
    )
)
