"""What the service says about itself."""

from __future__ import annotations

from service.web.schemas.fields import Schema, described, nested


class ServiceLimits(Schema):
    """How much the service takes."""

    request_body_bytes: int = described("Largest request body.", 4_194_304)
    batch_bytes: int = described("Largest body of a batch or a job.", 33_554_432)
    batch_couples: int = described("Most couples in a batch.", 100_000)
    request_target_bytes: int = described("Longest path with query.", 8192)
    json_depth: int = described("Deepest nesting of a JSON body.", 24)
    page_size: int = described("Most items in a page of a list.", 200)
    resolve_texts: int = described("Most texts in one resolve request.", 10_000)
    text_characters: int = described("Longest drawing text.", 2000)
    requests_per_minute: int = described(
        "Sustained requests of one API key, counted by each process: N of them let through N times as many.",
        1200,
    )
    request_burst: int = described("Requests of one API key that may come at once, in one process.", 200)
    key_revocation_s: float = described("Seconds after which a revoked API key is refused everywhere.", 10.0)


class Health(Schema):
    """The process is alive."""

    status: str = described("Always `alive`.", "alive")


class ReadinessCheck(Schema):
    """One thing that has to be in order before requests are answered."""

    name: str = described("What is looked at: `release` or `database`.", "release")
    is_ready: bool = described("Whether it is in order.", example=True)
    detail: str = described("What was found.", "2026.11.25-1 is open")


class Readiness(Schema):
    """Whether the process can answer, and what is missing if not."""

    status: str = described("`ready`, `degraded` or `not ready`.", "ready")
    checks: tuple[ReadinessCheck, ...] = nested("Everything that was looked at.")
