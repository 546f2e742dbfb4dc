from __future__ import annotations

from service.web.pages.sessions import LIFETIME_S, Sessions


class Clock:
    now_s = 0.0

    def __call__(self) -> float:
        return self.now_s


def test_a_session_leads_to_its_key_and_to_no_other() -> None:
    sessions = Sessions()
    one, other = sessions.open("key one"), sessions.open("key two")
    assert one != other
    assert sessions.key_of(one) == "key one"
    assert sessions.key_of("invented") is None
    assert sessions.key_of("") is None


def test_a_session_ends() -> None:
    clock = Clock()
    sessions = Sessions(clock)
    session_id = sessions.open("key")
    clock.now_s = LIFETIME_S + 1.0
    assert sessions.key_of(session_id) is None


def test_a_closed_session_leads_nowhere() -> None:
    sessions = Sessions()
    session_id = sessions.open("key")
    sessions.close(session_id)
    assert sessions.key_of(session_id) is None


def test_the_oldest_session_makes_room() -> None:
    sessions = Sessions(most=2)
    first, second, third = (sessions.open(name) for name in "abc")
    assert sessions.key_of(first) is None
    assert sessions.key_of(second) == "b"
    assert sessions.key_of(third) == "c"
