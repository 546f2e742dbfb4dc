from __future__ import annotations

import pytest

from service.judgement.findings import Anode, Finding, Witness


@pytest.mark.parametrize("anode", Anode)
def test_turning_a_side_round_twice_gives_it_back(anode: Anode) -> None:
    assert anode.other.other is anode


def test_the_other_side_is_the_other_one() -> None:
    assert Anode.FIRST.other is Anode.SECOND
    assert Anode.NONE.other is Anode.NONE


def test_a_witness_that_says_why_it_is_silent_does_not_apply() -> None:
    assert Finding(Witness.CREVICE, "A crevice.").applies
    assert not Finding(Witness.CREVICE, "", abstains="no rule applies").applies
