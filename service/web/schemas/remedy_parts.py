"""Parts that the answers about remedies share."""

from __future__ import annotations

from service.judgement import Verdict
from service.web.schemas import answers
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity


class RemedyHeader(Schema):
    """What an answer depends on besides the question."""

    release: ReleaseIdentity = described("Release that it was judged by.", RELEASE_EXAMPLE)
    engine: str = described("Version of the engine that judged.", "1.0.0")
    policy: str = described("Policy whose bands turned figures into words.", "house rule")


class RemedyWords(Schema):
    """The answer in words, for two readers."""

    line: str = described("One line for a buyer.", "Make both parts of the same alloy: suitable.")
    paragraph: str = described("A paragraph for a designer.", "It gains this: attack falls to none.")


class RemedyPlace(Schema):
    """Where the joint lives."""

    id: str = described("Identifier; `custom` if the caller described it.", "urban-atmosphere")
    name: str = described("Name for people.", "Open air, urban, temperate")


class ShownLayer(Schema):
    """One coat of a surface."""

    finish_id: str = described("Identifier of the finish.", "sn-matte")
    name: str = described("Name for people.", "Tin plate, matte")
    thickness_um: float | None = described("Thickness that was judged.", 5.0)


class ShownSurface(Schema):
    """A surface by name and by structure, as `POST /v1/couples` takes it."""

    name: str = described("Name for people.", "Copper, electrolytic tough pitch with 5 µm tin plate, matte")
    material_id: str | None = described("Identifier of the material.", "cu-etp")
    basis_family: str = described("Family of the basis where no material is named.", "")
    layers: tuple[ShownLayer, ...] = nested("Coats from the outside in.")
    temper: str = described("Temper; empty where it is not stated.", "T6")
    strength_class: str = described("Strength class; empty where it is not stated.", "")
    condition: str = described("`intact`, `worn` or `damaged`.", "intact")


class ShownAnode(Schema):
    """Which side is eaten."""

    side: str = described("`first`, `second`, `both` or `none`.", "first")
    is_in_doubt: bool = described("Whether the other side may be eaten instead.", example=False)


class LossRatio(Schema):
    """Loss over the design life as a share of the allowance."""

    median: float | None = described("Median of the sample.", 0.04)
    high: float | None = described("The 95 % figure.", 0.31)


class ShownHazard(Schema):
    """A rule about damage besides the computed loss."""

    id: str = described("Identifier of the rule.", "hazard-tin-whiskers")
    name: str = described("Name for people.", "Tin whiskers")
    severity: str | None = described("How bad it is.", "moderate")
    statement: str = described("What it says.", "Nearly pure tin grows whiskers.")
    advice: str = described("What to do about it.", "Choose matt tin over nickel.")
    caution: str | None = described("What can hurt people or hardware.", None)


class JudgedJoint(Schema):
    """A joint that was judged, in short."""

    first: ShownSurface = nested("The first surface.")
    second: ShownSurface = nested("The second surface.")
    verdict: Verdict = described("May they touch here, for so long?", "conditional")
    severity: str = described("`none`, `slight`, `moderate`, `severe` or `unknown`.", "slight")
    confidence: str = described("`high`, `medium` or `low`.", "medium")
    line: str = described("One line for a buyer.", "They may be joined under conditions.")
    deciding_witness: str | None = described("Witness that decided.", "kinetics")
    why: str = described("Statement of the deciding witness.", "It loses 2 µm in 10 years.")
    anode: ShownAnode = nested("Which side is eaten.")
    loss_over_allowance: LossRatio | None = nested("Loss over allowance; null where nothing is computed.")
    hazards: tuple[ShownHazard, ...] = nested("Damage besides the computed loss.")


class ShownLife(Schema):
    """Years until the first coat or section is used up, 100 at most."""

    low_years: float | None = described("The unfavourable figure.", 10.3)
    high_years: float | None = described("The favourable figure.", 18.5)
    basis: str = described("What is used up.", "thickness of the coat")


class ChangedOutcome(Schema):
    """How a joint would be judged in another state."""

    verdict: Verdict = described("Verdict then.", "unsuitable")
    severity: str = described("Severity then.", "severe")
    why: str = described("Statement of the deciding witness.", "The laid bare steel is eaten.")


class AboutRemedies(RemedyHeader):
    """What both searches tell first."""

    summary: RemedyWords = nested("The answer in words.")
    environment: RemedyPlace = nested("Where the joint lives.")
    before: JudgedJoint = nested("The joint as it is.")
    warnings: tuple[answers.Warning, ...] = nested("What is doubtful in the question.")
