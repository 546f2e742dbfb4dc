from __future__ import annotations

import pytest
from fastapi import Request

from service.web.pages.visitors import ForeignOriginError, check_origin


def request(**headers: str) -> Request:
    written = [(name.replace("_", "-").encode(), value.encode()) for name, value in headers.items()]
    return Request({"type": "http", "headers": written})


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"sec_fetch_site": "same-origin"},
        {"sec_fetch_site": "none"},
        {"sec_fetch_site": "same-origin", "origin": "null"},
        {"origin": "http://harbour.example:8480", "host": "harbour.example:8480"},
    ],
)
def test_our_own_forms_pass(headers: dict[str, str]) -> None:
    check_origin(request(**headers))


@pytest.mark.parametrize(
    "headers",
    [
        {"sec_fetch_site": "cross-site"},
        {"sec_fetch_site": "same-site"},
        {"origin": "https://elsewhere.example", "host": "harbour.example"},
        {"origin": "null", "host": "harbour.example"},
    ],
)
def test_forms_of_others_do_not(headers: dict[str, str]) -> None:
    with pytest.raises(ForeignOriginError):
        check_origin(request(**headers))
