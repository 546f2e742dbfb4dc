"""The text of a key can be recognised, read and never seen."""

from __future__ import annotations

import pytest

from service.access.secrets import digest_of, hash_secret, is_same, new_key_text, parse_key_text, prefix_of


def test_a_new_key_reads_back() -> None:
    text = new_key_text()
    assert str(text).startswith(f"fay_{text.prefix}_")
    assert parse_key_text(str(text)) == text
    assert len({new_key_text().secret for _ in range(50)}) == 50


@pytest.mark.parametrize(
    "text", ["", "fay_", "fay_abcdefghij_short", "FAY_abcdefghij_" + "a" * 43, "x" * 10_000]
)
def test_other_texts_are_no_keys(text: str) -> None:
    assert parse_key_text(text) is None
    assert parse_key_text(text + "\n") is None


def test_the_representation_hides_the_secret() -> None:
    text = new_key_text()
    assert text.secret not in repr(text)


def test_the_hash_depends_on_secret_and_pepper() -> None:
    # RFC 4231, test case 2: HMAC-SHA-256 of "what do ya want for nothing?" with the key "Jefe".
    expected = "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    assert hash_secret("what do ya want for nothing?", "Jefe") == expected
    assert hash_secret("what do ya want for nothing?", "jefe") != expected


def test_comparison() -> None:
    assert is_same("abc", "abc")
    assert not is_same("abc", "abd")
    assert not is_same("ü", "u")


def test_the_prefix_of_a_key_is_found_without_reading_the_key() -> None:
    text = new_key_text()
    assert prefix_of(str(text)) == text.prefix
    assert prefix_of("eyJ") == ""


def test_a_digest_names_a_text_and_does_not_show_it() -> None:
    text = str(new_key_text())
    assert digest_of(text) == digest_of(text[:4] + text[4:])
    assert digest_of(text) != digest_of(text[:-1])
    assert len(digest_of(text)) == len(digest_of("")) == 32
    assert text.encode() not in digest_of(text)
