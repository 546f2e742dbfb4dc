from __future__ import annotations

from dataclasses import dataclass

from service.storage.repositories.copying import copied
from service.storage.tables import WebhookRow


@dataclass(frozen=True)
class Named:
    url: str
    events: tuple[str, ...]


def test_only_the_named_columns_are_copied_and_lists_become_tuples() -> None:
    row = WebhookRow(url="http://127.0.0.1/", secret="s", events=["a", "b"])  # noqa: S106
    assert copied(Named, row) == Named("http://127.0.0.1/", ("a", "b"))
