from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

import orjson
import pytest

from service.assemblies import Assembly, File, check, read_assembly
from service.assemblies.assembly import Programme
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.assemblies.substitution import Substitute
from service.web import assembly_checks
from service.web.answers import AnswerBook, KeptAnswer
from service.web.assembly_checks import Checking, reading_document
from service.web.assembly_requests import Asked
from service.web.errors import InconsistentRequestError
from service.web.house_policies import Decider
from service.web.schemas.assemblies import ReportFormat
from service.web.schemas.assembly_reports import AssemblyCheck
from service.web.schemas.substitutions import SubstitutionCheck
from service.web.uploads import CSV, XLSX
from tests.seed_catalogue import seed_catalogue

TODAY = dt.date(2026, 11, 25)
PARTS = {
    name: Part(name, text=text, wetted_area_m2=0.1)
    for name, text in (("A", "EN AW-6082-T6"), ("B", "CW024A"))
}
ASSEMBLY = Assembly(
    PARTS, (Joint("J", "A", "B"),), programme=Programme(environment="marine-atmosphere-0-100-m")
)
ASKED = Asked(ASSEMBLY, None)
DEFAULT = Decider(DEFAULT_HOUSE_POLICY)


class Store:
    """Answers that were written."""

    def __init__(self) -> None:
        self.kept: dict[str, KeptAnswer] = {}

    def write(self, answers: Sequence[KeptAnswer]) -> None:
        self.kept |= {answer.digest: answer for answer in answers}


@pytest.fixture
def store() -> Store:
    return Store()


@pytest.fixture
def checking(store: Store) -> Iterator[Checking]:
    book = AnswerBook(1_000_000, store.write, store.kept.get)
    yield Checking(seed_catalogue(), "harbour", book)
    book.close()


def test_the_report_stands_in_the_answer_byte_for_byte(checking: Checking) -> None:
    body, media_type = checking.report(ASKED, DEFAULT, (), TODAY, ReportFormat.JSON)
    report = check(ASSEMBLY, seed_catalogue())
    assert report.json in body
    assert media_type == "application/json"
    found = AssemblyCheck.model_validate_json(body)
    assert found.standing.report_sha256 == report.sha256
    assert found.reading is None


def test_a_stored_policy_that_decided_is_named(checking: Checking) -> None:
    named = Decider(DEFAULT_HOUSE_POLICY, "house@3")
    body, _ = checking.report(ASKED, named, (), TODAY, ReportFormat.JSON)
    assert AssemblyCheck.model_validate_json(body).stored_policy == "house@3"
    comparison = checking.comparison(ASKED, "B", [], named)
    assert SubstitutionCheck.model_validate_json(comparison).stored_policy == "house@3"


def test_answers_are_kept_under_their_addresses(checking: Checking, store: Store) -> None:
    body, _ = checking.report(ASKED, DEFAULT, (), TODAY, ReportFormat.JSON)
    found = orjson.loads(body)
    (case,) = found["report"]["joints"][0]["cases"]
    address = found["answers"][case["answer_sha256"]]
    checking.book.close()
    kept = store.kept[address.rpartition("/")[2]]
    assert orjson.loads(kept.body)["verdict"] == case["verdict"]
    assert kept.tenant_id is None


def test_only_the_first_answers_are_kept(checking: Checking, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(assembly_checks, "MOST_KEPT", 1)
    joints = (Joint("1", "A", "B"), Joint("2", "A", "B", first_area_m2=0.2))
    asked = Asked(Assembly(PARTS, joints, programme=ASSEMBLY.programme), None)
    body, _ = checking.report(asked, DEFAULT, (), TODAY, ReportFormat.JSON)
    assert len(orjson.loads(body)["answers"]) == 1


@pytest.mark.parametrize(
    ("wanted", "media_type", "start"),
    [(ReportFormat.CSV, CSV, b"\xef\xbb\xbfjoint"), (ReportFormat.XLSX, XLSX, b"PK")],
)
def test_reports_as_files(checking: Checking, wanted: ReportFormat, media_type: str, start: bytes) -> None:
    body, found = checking.report(ASKED, DEFAULT, (), TODAY, wanted)
    assert found == media_type
    assert body.startswith(start)


def test_what_substitutes_change(checking: Checking) -> None:
    offered = [Substitute("same", Part("x", text="EN AW-6082-T6"))]
    body = checking.comparison(ASKED, "B", offered, DEFAULT)
    found = SubstitutionCheck.model_validate_json(body)
    assert found.comparison.substitutes[0].change == "better"


def test_a_joint_without_its_part_is_a_fault(checking: Checking) -> None:
    asked = Asked(Assembly(PARTS, (Joint("J", "A", "C"),)), None)
    with pytest.raises(InconsistentRequestError) as caught:
        checking.report(asked, DEFAULT, (), TODAY, ReportFormat.JSON)
    assert caught.value.faults[0].pointer == "/joints/0/second"
    with pytest.raises(InconsistentRequestError) as caught:
        checking.comparison(ASKED, "C", [], DEFAULT)
    assert caught.value.faults[0].pointer == "/part"


def test_how_files_were_read_is_told(checking: Checking) -> None:
    read = read_assembly([File("a.csv", b"Part,Werkstoff,Preis\nA,S355,1\nB,A4-80,2\n")])
    body, _ = checking.report(Asked(read.assembly, read), DEFAULT, (), TODAY, ReportFormat.JSON)
    found = AssemblyCheck.model_validate_json(body)
    assert found.reading is not None
    assert [heading.column for heading in found.reading.tables["a.csv"]] == ["part_number", "material", None]
    assert reading_document(None) is None
