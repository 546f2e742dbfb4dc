"""Ready bytes: sent once, then 304."""

from __future__ import annotations

from fastapi import Request

from service.web.replies import MUST_ASK_AGAIN, PINNED, page_reply, reply, tag_of


def request(**headers: str) -> Request:
    raw = [(name.replace("_", "-").encode(), value.encode()) for name, value in headers.items()]
    return Request({"type": "http", "method": "GET", "headers": raw})


def test_the_bytes_are_sent_with_their_tag_and_digest() -> None:
    response = reply(request(), "t1", lambda: b"{}", headers={"Link": "x"})
    assert (response.status_code, response.body, response.media_type) == (200, b"{}", "application/json")
    assert response.headers["etag"] == '"t1"'
    assert response.headers["cache-control"] == MUST_ASK_AGAIN
    assert response.headers["vary"] == "Accept, Authorization"
    assert response.headers["repr-digest"].startswith("sha-256=:")
    assert response.headers["link"] == "x"


def test_nothing_is_written_for_somebody_who_holds_it() -> None:
    def write() -> bytes:
        raise AssertionError

    response = reply(request(if_none_match='"t1"'), "t1", write, cache_control=PINNED)
    assert (response.status_code, response.body) == (304, b"")
    assert response.headers["cache-control"] == PINNED
    assert "content-type" not in response.headers


def test_a_tag_depends_on_every_part() -> None:
    tags = {tag_of("a"), tag_of("a", None), tag_of("a", ""), tag_of("a", {"b": 1}), tag_of("a", {"b": 2})}
    assert len(tags) == 5
    assert tag_of({"a": 1, "b": 2}) == tag_of({"b": 2, "a": 1})


def test_a_page_links_to_what_there_is_and_is_kept_by_nobody() -> None:
    middle = page_reply(b"{}", {"first": "/a", "next": "/a?cursor=1"})
    assert middle.headers["link"] == '</a>; rel="first", </a?cursor=1>; rel="next"'
    last = page_reply(b"{}", {"next": None})
    assert "link" not in last.headers
    assert {middle.headers["cache-control"], last.headers["cache-control"]} == {"private, no-store"}
