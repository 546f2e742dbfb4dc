"""Everything that an installation can set, in one place.

Values come from environment variables with the prefix ``FAYING_`` or from the caller. The table of the
README is generated from these descriptions.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from ipaddress import ip_address
from typing import Any, Self
from urllib.parse import unquote, urlsplit

from pydantic import Field, SecretStr, model_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

LOCAL_DEVELOPMENT_KEY = "fay_local_this-key-is-published-in-the-source-and-protects-nothing"
"""The key of the embedded default. It is public, so it works for an SQLite file on this machine only."""

_PASSWORD = re.compile(r"(://[^/@]*:)[^@]*@")


class Settings(BaseSettings):
    """Configuration of one process."""

    model_config = SettingsConfigDict(
        env_prefix="FAYING_", frozen=True, extra="forbid", hide_input_in_errors=True
    )

    database_url: str = Field(
        "sqlite:///var/faying.sqlite3",
        description="Database as an SQLAlchemy address: an SQLite file, or `postgresql+psycopg://...`.",
    )
    host: str = Field("127.0.0.1", description="Address to listen on.")
    port: int = Field(8480, ge=0, le=65535, description="Port to listen on; 0 takes a free one.")
    log_level: str = Field(
        "INFO", pattern="^(DEBUG|INFO|WARNING|ERROR)$", description="Least severe record that is logged."
    )
    development_key: SecretStr | None = Field(
        None,
        description="API key that is valid without being stored. Left empty it is a published one on SQLite "
        "at a loopback address, and none elsewhere; set to an empty text it is none anywhere.",
    )
    key_pepper: SecretStr = Field(
        SecretStr(""),
        description="Secret mixed into the hash of API keys, so that a row written into the database by "
        "somebody else is no valid key. Changing it ends all keys but those of `FAYING_KEY_PEPPER_BEFORE`.",
    )
    key_pepper_before: SecretStr | None = Field(
        None,
        description="The pepper before the present one, while it is being changed: keys hashed with it stay "
        "valid and are hashed anew when they are next used. An empty text stands for no pepper.",
    )
    key_cache_s: float = Field(
        10.0,
        ge=0,
        le=300,
        description="Seconds after which a revoked API key, a blocked client or a disabled tenant is refused "
        "by every process.",
    )
    token_issuer: str = Field(
        "",
        description="Issuer whose OAuth 2 access tokens are accepted beside API keys, as `iss` names it. "
        "Left empty none are.",
    )
    token_audience: str = Field("", description="What `aud` of an access token must name.")
    token_keys_url: str = Field(
        "", description="Address of the issuer's JWK set; https, or http on this machine."
    )
    token_endpoint: str = Field(
        "", description="Where clients get access tokens; shown in the OpenAPI document that is served."
    )
    token_tenant_claim: str = Field("tenant", description="Claim of an access token that names its tenant.")
    token_leeway_s: float = Field(
        30.0, ge=0, le=300, description="Seconds by which the clocks of issuer and service may differ."
    )
    token_longest_s: float = Field(
        86_400.0, gt=0, description="Longest life of an access token that is accepted, in seconds."
    )
    token_keys_s: float = Field(
        300.0, gt=0, le=86_400, description="Seconds after which a key that the issuer withdraws is refused."
    )
    requests_per_minute: int = Field(
        1200, ge=1, description="Sustained requests of one API key, in each process."
    )
    request_burst: int = Field(
        200, ge=1, description="Requests of one API key that may come at once, in each process."
    )
    refusals_per_minute: int = Field(
        3000,
        ge=1,
        description="Refused credentials from one client address before it must wait, in each process.",
    )
    tenant_requests_per_day: int = Field(
        0,
        ge=0,
        description="Requests of one tenant in a day, in each process, large ones counted several times; "
        "0 is no limit.",
    )
    max_body_bytes: int = Field(4 * 1024 * 1024, ge=1024, description="Largest request body.")
    max_batch_bytes: int = Field(
        32 * 1024 * 1024, ge=1024, description="Largest body of a batch or a job; it is kept on disk."
    )
    request_timeout_s: float = Field(
        60.0,
        gt=0,
        description="Seconds from the last part of a request to the first of its answer; then the caller is "
        "told that it takes too long. Answers that are streamed and jobs may take as long as they need.",
    )
    max_json_depth: int = Field(24, ge=8, le=200, description="Deepest nesting of a JSON body.")
    max_target_bytes: int = Field(49_152, ge=512, description="Longest path with query.")
    answer_cache_bytes: int = Field(
        64 * 1024 * 1024, ge=0, description="Memory for answers that are served again without computing."
    )
    batch_cache_bytes: int = Field(
        32 * 1024 * 1024, ge=0, description="Memory for lines of batches that come again as they were."
    )
    open_releases: int = Field(
        3, ge=1, le=50, description="Releases kept in memory, the current one included."
    )
    open_overlays: int = Field(
        8, ge=1, le=1000, description="Releases with a tenant's overlay on top that are kept in memory."
    )
    release_poll_s: float = Field(
        5.0,
        gt=0,
        description="Seconds between looks for a newer release or overlay in the database; on PostgreSQL "
        "both are also heard of at once.",
    )
    idempotency_hours: float = Field(
        24.0, gt=0, description="Hours for which the outcome of a write is kept under its Idempotency-Key."
    )
    pages_open: bool = Field(
        default=False,
        description="Whether anybody who reaches the service may use its pages without signing in. Where the "
        "published development key works they are open anyway.",
    )
    job_threads: int = Field(
        1,
        ge=1,
        le=16,
        description="Jobs that the embedded default works on at once; PostgreSQL has workers for that.",
    )
    job_stale_s: float = Field(
        30.0, ge=1, description="Seconds of silence after which the work of a worker is given to another."
    )
    job_result_days: float = Field(
        30.0, gt=0, description="Days for which jobs and their results are kept after they end."
    )
    webhook_timeout_s: float = Field(10.0, gt=0, le=60, description="Seconds for which a webhook may take.")
    webhook_poll_s: float = Field(
        2.0, gt=0, description="Seconds between looks for something to tell to webhooks."
    )
    webhooks_allow_private: bool = Field(
        default=False,
        description="Whether webhooks may go to private addresses and over plain HTTP: for closed networks.",
    )
    slow_client_s: float = Field(
        20.0,
        gt=0,
        description="Seconds for which a caller may stall while it sends a request or takes an answer; then "
        "its connection is closed.",
    )
    metrics_port: int = Field(
        0, ge=0, le=65535, description="Port on which Prometheus finds `/metrics`; 0 opens none."
    )
    metrics_host: str = Field("127.0.0.1", description="Address of that port.")
    traces_endpoint: str = Field(
        "",
        description="Where OpenTelemetry traces are sent (OTLP over HTTP, such as "
        "`http://127.0.0.1:4318/v1/traces`); empty sends none. Needs the extra `tracing`.",
    )
    slow_request_ms: float = Field(
        1000.0, gt=0, description="Requests that take longer are logged as slow, in milliseconds."
    )

    @property
    def secrets(self) -> tuple[str, ...]:
        """Everything that must never be shown."""
        values = [getattr(self, name) for name in type(self).model_fields]
        hidden = [value.get_secret_value() for value in values if isinstance(value, SecretStr)]
        password = urlsplit(self.database_url).password or ""
        return tuple(secret for secret in (*hidden, password, unquote(password)) if secret)

    def __repr_args__(self) -> Iterator[tuple[str | None, Any]]:
        """Show the address of the database without its password."""
        for name, value in super().__repr_args__():
            yield name, _PASSWORD.sub(r"\1***@", value) if name == "database_url" else value

    @property
    def is_embedded(self) -> bool:
        """Whether the database is an SQLite file of this machine."""
        return self.database_url.startswith("sqlite")

    @property
    def is_local(self) -> bool:
        """Whether only this machine can connect."""
        if self.host == "localhost":
            return True
        try:
            return ip_address(self.host).is_loopback
        except ValueError:
            return False

    @property
    def effective_development_key(self) -> str | None:
        """The development key that this process accepts, if any."""
        if self.development_key is not None:
            return self.development_key.get_secret_value() or None
        return LOCAL_DEVELOPMENT_KEY if self.is_embedded and self.is_local else None

    @model_validator(mode="after")
    def _keep_the_published_key_at_home(self) -> Self:
        if self.effective_development_key == LOCAL_DEVELOPMENT_KEY and not (
            self.is_embedded and self.is_local
        ):
            message = "the published development key works on SQLite at a loopback address only"
            raise ValueError(message)
        return self

    @model_validator(mode="after")
    def _name_a_whole_issuer(self) -> Self:
        if not self.token_issuer:
            return self
        if not self.token_audience or not self.token_keys_url:
            message = "an issuer of tokens needs token_audience and token_keys_url as well"
            raise ValueError(message)
        address = urlsplit(self.token_keys_url)
        is_here = address.hostname in {"localhost", "127.0.0.1", "::1"}
        if address.scheme != "https" and not (address.scheme == "http" and is_here):
            message = "token_keys_url has to be an https address"
            raise ValueError(message)
        return self
