from __future__ import annotations

import datetime as dt

from service.client.document.results import ChangeLine, Health


def test_a_result_becomes_plain_json_values() -> None:
    moment = dt.datetime(2026, 11, 25, 9, tzinfo=dt.UTC)
    line = ChangeLine(serial=1, happened_at=moment, kind="a.b", subject="x", detail={"joints": []})
    assert line.as_dict() == {
        "serial": 1,
        "happened_at": "2026-11-25T09:00:00Z",
        "kind": "a.b",
        "subject": "x",
        "detail": {"joints": []},
    }
    assert Health(status="alive").as_dict() == {"status": "alive"}
