"""Settings: read from the environment, described, and safe by default."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from service.settings import LOCAL_DEVELOPMENT_KEY, Settings

POSTGRES = "postgresql+psycopg://faying@127.0.0.1/faying"


@pytest.fixture(autouse=True)
def clean_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in Settings.model_fields:
        monkeypatch.delenv(f"FAYING_{name.upper()}", raising=False)


def test_environment_variables_with_the_prefix_are_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FAYING_PORT", "9000")
    assert Settings().port == 9000


def test_every_field_says_what_it_is() -> None:
    assert [name for name, field in Settings.model_fields.items() if not field.description] == []


def test_an_unknown_setting_is_refused() -> None:
    with pytest.raises(ValidationError):
        Settings.model_validate({"prot": 9000})


def test_the_published_key_serves_the_embedded_default() -> None:
    assert Settings().effective_development_key == LOCAL_DEVELOPMENT_KEY


EVERYWHERE = "0.0.0.0"  # noqa: S104 - to be refused


@pytest.mark.parametrize(
    "values", [{"host": EVERYWHERE}, {"database_url": POSTGRES}, {"host": "faying.example"}]
)
def test_the_published_key_ends_where_others_can_connect(values: dict[str, str]) -> None:
    assert Settings.model_validate(values).effective_development_key is None
    with pytest.raises(ValidationError, match="published development key"):
        Settings.model_validate({**values, "development_key": LOCAL_DEVELOPMENT_KEY})


def test_an_empty_development_key_is_none_anywhere() -> None:
    assert Settings.model_validate({"development_key": ""}).effective_development_key is None


def test_secrets_do_not_show() -> None:
    settings = Settings.model_validate({"key_pepper": "peppercorn"})
    assert "peppercorn" not in repr(settings)
    assert "peppercorn" not in settings.model_dump_json()


TRUST = {
    "token_issuer": "https://issuer.skerrivoe.test",
    "token_audience": "https://faying.test",
    "token_keys_url": "https://issuer.skerrivoe.test/keys",
}


def test_tokens_are_off_unless_an_issuer_is_named() -> None:
    assert not Settings().token_issuer
    assert Settings.model_validate(TRUST).token_issuer


@pytest.mark.parametrize(
    "change",
    [
        {"token_audience": ""},
        {"token_keys_url": ""},
        {"token_keys_url": "http://issuer.skerrivoe.test/keys"},
        {"token_keys_url": "file:///etc/passwd"},
    ],
)
def test_an_issuer_is_named_whole_and_its_keys_come_over_https(change: dict[str, str]) -> None:
    with pytest.raises(ValidationError, match="token_keys_url"):
        Settings.model_validate({**TRUST, **change})


def test_keys_may_come_from_this_machine_without_https() -> None:
    here = "http://127.0.0.1:9/keys"
    assert Settings.model_validate({**TRUST, "token_keys_url": here}).token_keys_url == here
