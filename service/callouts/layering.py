"""From coats to stacks: each coat decided, brought into order, and every open choice kept."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import islice, product

from service.callouts.coats import Coats, Placed
from service.callouts.finishes.colours import can_be_read
from service.callouts.finishes.deciders import DECIDERS, RANK
from service.callouts.finishes.decision import Decision
from service.callouts.marks import Amount, Clues, Coat, Mark, Option
from service.callouts.materials import MaterialReading
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer

MOST_STACKS = 8
"""Readings of one finish that are worth judging."""

_ZINC_LIKE = frozenset({"zn", "znni", "znfe", "znco", "snzn", "cd", "flake", "al", "znal", "alzn"})
_COLOURED = frozenset({"powder", "ecoat", "lacquer", "ptfecoat", "paint", "anodise"})
"""Coats that a colour code belongs to; without one of them it means paint."""
_TO_CHROMATE = _ZINC_LIKE | {"ag"}
_QUALIFIERS: tuple[tuple[str, frozenset[str], tuple[str, str] | None], ...] = (
    # a coat, the coats beside which it is none of its own, and the trait that it becomes
    ("chromate", _TO_CHROMATE, ("chemistry", "chromate")),
    ("chromate", frozenset({"ag"}), ("tarnish", "protected")),
    ("chromate", frozenset({"chemfilm", "anodise"}), None),
    ("passivate", _TO_CHROMATE | {"chemfilm", "anodise"}, None),
    ("passivate", frozenset({"ag"}), ("tarnish", "protected")),
    (
        "passivate",
        frozenset({"sn", "snpb", "ni", "en", "au", "pd", "pdni", "rh", "pt", "ru", "in", "pb"}),
        None,
    ),
    ("blackoxide", _ZINC_LIKE, ("colour", "black")),
    ("phosphate", frozenset({"zn", "cd"}), ("treatment", "phosphate")),
    ("paint", frozenset({"powder"}), None),
    ("pickle", frozenset({"passivate", "electropolish"}), None),
    ("ni", frozenset({"en", "enig"}), None),
    ("en", frozenset({"enig"}), None),
    ("au", frozenset({"enig"}), None),
)
_NOBLE = frozenset({"au", "pd", "pdni", "ag", "rh"})
_TINS = frozenset({"sn", "snpb", "snag", "snbi", "sncu"})
_UNDER_NICKEL = "ni-electro"
_WHOLE_STACKS = {
    "pd-ni": frozenset({"pd", "pdni"}),
    "ppf-nipdau": frozenset({"pd"}),
    "enepig": frozenset({"pd", "pdni", "en"}),
    "enig": frozenset({"en", "ni", "au"}),
    "sn-over-cu-al": frozenset({"cu"}),
}
"""Finishes of the catalogue that already hold these coats."""


@dataclass(frozen=True, slots=True)
class Stack:
    """One reading of the finish: its layers, outermost first."""

    layers: tuple[Layer, ...]
    weight: float
    assumptions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FinishReading:
    """All readings of the finish, best first, and the question that settles them.

    ``unlisted`` are coats that the text names and this catalogue does not hold.
    """

    stacks: tuple[Stack, ...] = ()
    question: str = ""
    unlisted: tuple[Placed, ...] = ()


@dataclass(frozen=True, slots=True)
class _Decided:
    kind: str
    amount: Amount | None
    decision: Decision
    is_under: bool


def read_finish(coats: Coats, material: MaterialReading, catalogue: Catalogue) -> FinishReading:
    """Decide the coats of a text and stack them."""
    placed, traits = _absorbed(coats, material)
    if not placed:
        placed = _by_colour(traits, material)
    if not placed:
        return FinishReading()
    clues = Clues(
        traits, coats.attributes, _families(material, coats), frozenset(e.coat.kind for e in placed)
    )
    decided = [_decide(kind, group, clues) for kind, group in _by_kind(placed).items()]
    zones = _zones(decided)
    stacks: list[Stack] = []
    questions = [entry.decision.question for entry in decided if entry.decision.question]
    for zone in zones:
        stacks.extend(_stacks(_ordered(zone, coats.overs), catalogue))
    are_rivals = len([entry for entry in decided if entry.kind in _ZINC_LIKE]) > 1
    if len(zones) > 1:
        questions.insert(0, _RIVALS_QUESTION if are_rivals else _ZONES_QUESTION)
    question = next(iter(questions), _FINISH_QUESTION)
    best = sorted(_merged(stacks), key=lambda stack: -stack.weight)[:MOST_STACKS]
    return FinishReading(tuple(best), question if len(best) > 1 else "", () if best else tuple(placed))


def _by_colour(traits: frozenset[tuple[str, str]], material: MaterialReading) -> list[Placed]:
    """A colour without a coat still says that there is one."""
    is_read = any(name == "colour" and can_be_read(value, material.families) for name, value in traits)
    return [_unplaced("colour")] if is_read else []


def _unplaced(kind: str) -> Placed:
    """A coat that no word of the text names by itself."""
    return Placed(Coat(kind), Mark(0, 0, Coat(kind)))


_FINISH_QUESTION = "Which of these finishes is it?"
_RIVALS_QUESTION = "The text names two coats that exclude each other: which one holds?"
_ZONES_QUESTION = "The text finishes two zones: which of them touches the other part?"


def _families(material: MaterialReading, coats: Coats) -> frozenset[str]:
    if material.families or not coats.basis_family:
        return material.families
    return frozenset({{"aluminium": "wrought aluminium"}.get(coats.basis_family, coats.basis_family)})


def _absorbed(coats: Coats, material: MaterialReading) -> tuple[list[Placed], frozenset[tuple[str, str]]]:
    """Turn coats that only qualify another one into traits."""
    kinds, traits = coats.kinds, set(coats.traits)
    dropped: set[str] = set()
    for kind, beside, trait in _QUALIFIERS:
        if kind in kinds and kinds & beside:
            dropped.add(kind)
            traits |= {trait} if trait else set()
    if material.families and "stainless steel" not in material.families:
        dropped.add("pickle")
    placed = [entry for entry in coats.placed if entry.coat.kind not in dropped]
    if placed and ("colour", "natural") in traits:
        traits.add(("colour", "clear"))
    if ("paint", "colour code") in traits and not kinds & _COLOURED:
        placed.append(_unplaced("paint"))
    return placed, frozenset(traits)


def _by_kind(placed: Iterable[Placed]) -> dict[str, list[Coat]]:
    groups: dict[str, list[Coat]] = defaultdict(list)
    for entry in placed:
        groups[entry.coat.kind].append(entry.coat)
    return groups


def _decide(kind: str, coats: list[Coat], clues: Clues) -> _Decided:
    """Decide one kind of coat from all its mentions: they must agree, or the choice stays open."""
    amount = next((coat.amount for coat in coats if coat.amount is not None), None)
    merged = _one_process(coats)
    decisions = [
        Decision(coat.options, coat.question)
        if coat.options
        else DECIDERS[kind](replace(coat, amount=amount), clues)
        for coat in merged
    ]
    decision = decisions[0]
    for other in decisions[1:]:
        decision = _agreed(decision, other)
    return _Decided(kind, amount, decision, all(coat.is_under for coat in coats))


def _one_process(coats: list[Coat]) -> list[Coat]:
    """Drop mentions that say less than another one (*nickel* beside *sulfamate nickel*)."""
    exact = [coat for coat in coats if coat.options or coat.process not in {"", "galvanized"}]
    coded = [coat for coat in exact if coat.options]
    spoken = [coat for coat in exact if not coat.options]
    return [*coded[:3], *dict.fromkeys(spoken)] or coats[:1]


def _agreed(first: Decision, second: Decision) -> Decision:
    weights = {option.finish_id: option for option in second.options}
    shared = tuple(
        Option(option.finish_id, option.weight * weights[option.finish_id].weight, option.assumption)
        for option in first.options
        if option.finish_id in weights
    )
    if shared:
        question = first.question if len(shared) > 1 else ""
        return Decision(shared, question or (second.question if len(shared) > 1 else ""))
    names = {option.finish_id: option for option in (*first.options, *second.options)}
    return Decision(tuple(names.values()), "The text names two different finishes: which one holds?")


def _zones(decided: Sequence[_Decided]) -> list[list[_Decided]]:
    """Split a selective finish into its zones; the layers beneath belong to each of them."""
    kinds = {entry.kind for entry in decided}
    pairs = ((kinds & _NOBLE, kinds & _TINS), (kinds & {"anodise"}, kinds & {"chemfilm"}))
    for one, other in pairs:
        if one and other:
            return [
                [entry for entry in decided if entry.kind not in other],
                [entry for entry in decided if entry.kind not in one],
            ]
    rivals = [entry for entry in decided if entry.kind in _ZINC_LIKE]
    if len(rivals) > 1:
        return [[entry for entry in decided if entry not in rivals or entry is rival] for rival in rivals]
    return [list(decided)]


def _ordered(decided: Sequence[_Decided], overs: Iterable[tuple[str, str]]) -> list[_Decided]:
    """Bring coats into order from the outside in; what the text says goes before custom."""
    result = sorted(decided, key=lambda entry: (entry.is_under, -RANK.get(entry.kind, 0)))
    for upper, lower in overs:
        kinds = [entry.kind for entry in result]
        if upper in kinds and lower in kinds and kinds.index(upper) > kinds.index(lower):
            moved = result.pop(kinds.index(upper))
            result.insert(kinds.index(lower), moved)
    return result


def _stacks(decided: Sequence[_Decided], catalogue: Catalogue) -> list[Stack]:
    choices = [entry.decision.options for entry in decided]
    stacks = []
    for chosen in islice(product(*choices), 4 * MOST_STACKS):
        if any(option.finish_id not in catalogue.finishes for option in chosen):
            continue
        layers = _layers(decided, chosen, catalogue)
        weight = 1.0
        for option in chosen:
            weight *= option.weight
        assumptions = tuple(option.assumption for option in chosen if option.assumption)
        stacks.append(Stack(layers, weight, assumptions))
    return stacks


def _layers(decided: Sequence[_Decided], chosen: Sequence[Option], catalogue: Catalogue) -> tuple[Layer, ...]:
    outer = chosen[0].finish_id
    held = _WHOLE_STACKS.get(outer, frozenset())
    layers: list[Layer] = []
    for index, (entry, option) in enumerate(zip(decided, chosen, strict=True)):
        if index and entry.kind in held:
            thin = layers[0]
            if entry.amount and thin.thickness_um is None:
                layers[0] = replace(
                    thin, thickness_um=entry.amount.low_um, thickness_max_um=entry.amount.high_um
                )
            continue
        finish_id = option.finish_id
        if index and entry.kind == "ni" and finish_id == _UNDER_NICKEL:
            finish_id = _under_nickel(outer, catalogue)
        low = entry.amount.low_um if entry.amount else None
        high = entry.amount.high_um if entry.amount else None
        layers.append(Layer(finish_id, low, high))
    return tuple(layers)


def _under_nickel(outer: str, catalogue: Catalogue) -> str:
    """Nickel beneath another coat is what the catalogue expects beneath that coat."""
    under = catalogue.finishes[outer].underplate_id
    return under if under.startswith("ni-") else _UNDER_NICKEL


def _merged(stacks: Iterable[Stack]) -> list[Stack]:
    merged: dict[tuple[Layer, ...], Stack] = {}
    for stack in stacks:
        known = merged.get(stack.layers)
        merged[stack.layers] = stack if known is None else replace(known, weight=known.weight + stack.weight)
    return list(merged.values())
