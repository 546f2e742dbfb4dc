"""Questions that come at once: judged together, each once, with the bytes that each gets alone."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping, Sequence

import pytest

from service.judgement import DEFAULT_POLICY, Inquiry, InvalidInquiryError, Side
from service.web.answers import KeptAnswer
from service.web.identity import Identity, identify
from service.web.together import MOST_TOGETHER, Company, Outcome, Together
from tests.seed_catalogue import seed_catalogue

CATALOGUE = seed_catalogue()
Asked = tuple[Inquiry, Identity]


class Counting(Company):
    """A company that remembers the sizes of the groups that it judged."""

    sizes: list[int] = []  # noqa: RUF012 - emptied by each test

    def judge(self, asked: Sequence[Asked]) -> Mapping[str, Outcome]:
        self.sizes.append(len(asked))
        return super().judge(asked)


@pytest.fixture
def company() -> Counting:
    Counting.sizes.clear()
    return Counting(CATALOGUE, DEFAULT_POLICY, "harbour")


def unheard(_size: int, _seconds: float) -> None:
    pass


def question(number: int, place: str = "heated-indoor") -> Asked:
    inquiry = Inquiry(Side(text="S235JR"), Side(text="A2-70"), place, first_area_m2=0.01 + number * 1e-4)
    return inquiry, identify(inquiry, CATALOGUE, DEFAULT_POLICY)


async def ask(company: Company, questions: Sequence[Asked]) -> list[KeptAnswer | BaseException]:
    together = Together(unheard)
    return await asyncio.gather(
        *(together.judged(company, *each) for each in questions), return_exceptions=True
    )


def test_questions_at_once_are_judged_in_groups_with_the_bytes_that_each_gets_alone(
    company: Counting,
) -> None:
    questions = [question(number) for number in range(MOST_TOGETHER + 5)]
    answers = asyncio.run(ask(company, questions))
    assert company.sizes == [MOST_TOGETHER, 5]
    for each, got in zip(questions, answers, strict=True):
        assert got == company.judge([each])[each[1].digest]


def test_callers_who_ask_again_at_once_do_not_split_into_groups_that_take_turns(company: Counting) -> None:
    """One is judged first and the rest while it is; when it asks again it joins them."""

    async def caller(together: Together, number: int, starting_after: int) -> None:
        for _ in range(starting_after):
            await asyncio.sleep(0)
        for turn in range(3):
            await together.judged(company, *question(10 * turn + number))

    async def all_callers() -> None:
        together = Together(unheard)
        await asyncio.gather(*(caller(together, number, number) for number in range(4)))

    asyncio.run(all_callers())
    assert company.sizes == [4, 4, 4]


def test_groups_are_told_with_their_size_and_time(company: Counting) -> None:
    heard = list[tuple[int, float]]()

    async def both() -> None:
        together = Together(lambda size, seconds: heard.append((size, seconds)))
        assert len(together) == 0
        await asyncio.gather(*(together.judged(company, *question(number)) for number in (1, 2)))
        assert len(together) == 0

    asyncio.run(both())
    ((size, seconds),) = heard
    assert size == 2
    assert seconds > 0.0


def test_the_same_question_at_once_is_judged_once(company: Counting) -> None:
    answers = asyncio.run(ask(company, [question(1)] * 8))
    assert company.sizes == [1]
    assert all(each is answers[0] for each in answers)


def test_a_question_that_comes_while_it_is_judged_waits_for_that(company: Counting) -> None:
    async def late() -> tuple[KeptAnswer, KeptAnswer]:
        together = Together(unheard)
        first = asyncio.create_task(together.judged(company, *question(1)))
        await asyncio.sleep(0)  # it waits
        await asyncio.sleep(0)  # it is judged
        return await together.judged(company, *question(1)), await first

    one, other = asyncio.run(late())
    assert one is other
    assert company.sizes == [1]


def test_one_that_cannot_be_judged_spoils_only_itself(company: Counting) -> None:
    answers = asyncio.run(ask(company, [question(1), question(2, "atlantis"), question(3)]))
    assert [type(each) for each in answers] == [KeptAnswer, InvalidInquiryError, KeptAnswer]


def test_a_failure_that_nobody_foresaw_spoils_only_its_question() -> None:
    class Failing(Company):
        def judge(self, asked: Sequence[Asked]) -> Mapping[str, Outcome]:
            if any(inquiry.environment == "nowhere" for inquiry, _ in asked):
                raise ZeroDivisionError
            return super().judge(asked)

    failing = Failing(CATALOGUE, DEFAULT_POLICY, "harbour")
    answers = asyncio.run(ask(failing, [question(1), question(2, "nowhere"), question(3)]))
    assert [type(each) for each in answers] == [KeptAnswer, ZeroDivisionError, KeptAnswer]


def test_tenants_do_not_share_a_group(company: Counting) -> None:
    async def both() -> None:
        together, other = Together(unheard), Counting(CATALOGUE, DEFAULT_POLICY, "quay")
        await asyncio.gather(together.judged(company, *question(1)), together.judged(other, *question(2)))

    asyncio.run(both())
    assert company.sizes == [1, 1]


def test_a_caller_who_hangs_up_spoils_nothing(company: Counting) -> None:
    async def one_leaves() -> KeptAnswer:
        together = Together(unheard)
        leaving = asyncio.create_task(together.judged(company, *question(1)))
        staying = asyncio.create_task(together.judged(company, *question(1)))
        await asyncio.sleep(0)
        leaving.cancel()
        return await staying

    assert isinstance(asyncio.run(one_leaves()), KeptAnswer)
