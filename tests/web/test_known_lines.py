"""Lines that come again as they were, within a bounded memory."""

from __future__ import annotations

from service.web.known_lines import KnownLines, scope_of

HERE = scope_of("harbour", "decision", b"{}")


def test_what_was_kept_is_recalled_by_its_bytes_and_scope() -> None:
    known = KnownLines(10_000)
    known.keep(HERE, b"[0,1]", b"one")
    assert known.recall(HERE, [b"[0,1]", b"[0, 1]"]) == [b"one", None]
    assert known.recall(scope_of("quay", "decision", b"{}"), [b"[0,1]"]) == [None]


def test_parts_of_a_scope_do_not_run_into_each_other() -> None:
    assert scope_of("ab", "c") != scope_of("a", "bc")


def test_memory_is_bounded_and_what_is_used_stays() -> None:
    known = KnownLines(3_700)
    for number in range(8):
        known.keep(HERE, b"%d" % number, b"x" * 500)
        known.recall(HERE, [b"0"])
    held = [line is not None for line in known.recall(HERE, [b"%d" % number for number in range(8)])]
    assert held == [True, False, False, False, False, False, True, True]


def test_the_scope_that_rested_longest_loses_its_lines_first() -> None:
    known, there = KnownLines(4_400), scope_of("quay")
    for scope in (HERE, there):
        known.keep(scope, b"a", b"x" * 500)
    known.recall(HERE, [b"a"])
    known.keep(HERE, b"b", b"x" * 500)
    known.keep(HERE, b"c", b"x" * 500)
    assert known.recall(there, [b"a"]) == [None]
    assert known.recall(HERE, [b"c", b"-", b"a"]) == [b"x" * 500, None, b"x" * 500]
    assert known.size_bytes == 700 + 3 * (1 + 500 + 300)


def test_keeping_again_does_not_count_twice_and_one_that_is_too_large_is_not_kept() -> None:
    known = KnownLines(2_700)
    for _ in range(10):
        known.keep(HERE, b"a", b"x" * 500)
    known.keep(HERE, b"b", b"x" * 500)
    known.keep(HERE, b"c", b"x" * 5_000)
    assert known.recall(HERE, [b"a", b"b", b"c"]) == [b"x" * 500, b"x" * 500, None]
