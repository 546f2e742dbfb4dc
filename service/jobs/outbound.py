"""Requests to addresses that strangers have chosen: only to public ones, and to no other than was checked.

A name is resolved once, every address that it has is checked, and the connection goes to a checked address
while certificate and ``Host`` stay those of the name. Redirects are not followed; no proxy is asked.
"""

from __future__ import annotations

import ipaddress
import re
import socket
from dataclasses import dataclass

import httpx

from service.jobs.errors import ForbiddenAddressError

Address = ipaddress.IPv4Address | ipaddress.IPv6Address
_NAT64 = ipaddress.ip_network("64:ff9b::/96")
_LONGEST_URL = 2000
_HOST = re.compile(rb"[A-Za-z0-9._-]+|\[?[0-9A-Fa-f:.]+\]?")


@dataclass(frozen=True, slots=True)
class Outbound:
    """Sends to webhooks. ``allow_private`` is for tests and closed networks: plain HTTP and any address."""

    allow_private: bool = False
    timeout_s: float = 10.0

    def check(self, url: str) -> httpx.URL:
        """Read an address and refuse one to which nothing will ever be sent.

        Raises
        ------
        ForbiddenAddressError
            If it is no address of the web, or says itself that it is not public.
        """
        try:
            parsed = httpx.URL(url)
        except (httpx.InvalidURL, UnicodeError, ValueError) as error:
            raise ForbiddenAddressError(url, "it is no address") from error
        reason = self._objection(parsed) if len(url) <= _LONGEST_URL else "it is too long"
        if reason:
            raise ForbiddenAddressError(url, reason)
        return parsed

    def post(self, url: str, headers: dict[str, str], body: bytes) -> int:
        """Send a body and return the status of the answer, whose content is not read.

        Raises
        ------
        ForbiddenAddressError
            If the name leads to an address that is not public.
        httpx.HTTPError, OSError
            If nothing answers.
        """
        parsed = self.check(url)
        address = self._resolve(parsed)
        with httpx.Client(trust_env=False, timeout=self.timeout_s, follow_redirects=False) as client:
            request = client.build_request(
                "POST",
                parsed.copy_with(host=str(address)),
                content=body,
                headers={**headers, "Host": parsed.netloc.decode("ascii")},
                extensions={"sni_hostname": parsed.raw_host.decode("ascii")},
            )
            response = client.send(request, stream=True)
            response.close()
            return response.status_code

    def _objection(self, url: httpx.URL) -> str:
        if url.scheme not in ({"https", "http"} if self.allow_private else {"https"}):
            return "only https is spoken"
        if not _HOST.fullmatch(url.raw_host):
            return "it names no host"
        if url.userinfo or url.fragment:
            return "it holds credentials or a fragment"
        if self.allow_private:
            return ""
        if url.host == "localhost" or url.host.endswith((".localhost", ".local", ".internal")):
            return "the host is not public"
        literal = _literal(url.host)
        return "the address is not public" if literal is not None and not is_public(literal) else ""

    def _resolve(self, url: httpx.URL) -> Address:
        """Resolve a name, and refuse it if any of its addresses is not public."""
        port = url.port or (443 if url.scheme == "https" else 80)
        found = socket.getaddrinfo(url.raw_host.decode("ascii").strip("[]"), port, type=socket.SOCK_STREAM)
        addresses = [ipaddress.ip_address(str(entry[4][0]).partition("%")[0]) for entry in found]
        if not self.allow_private and not all(map(is_public, addresses)):
            raise ForbiddenAddressError(str(url), "the name leads to an address that is not public")
        return addresses[0]


def is_public(address: Address) -> bool:
    """Whether an address is on the public internet, whatever it is wrapped in."""
    if isinstance(address, ipaddress.IPv6Address):
        inner = address.ipv4_mapped or address.sixtofour
        if address in _NAT64:
            inner = ipaddress.IPv4Address(int(address) & 0xFFFFFFFF)
        if inner is not None:
            return is_public(inner)
        if address.teredo is not None:
            return False
    return address.is_global and not (address.is_multicast or address.is_reserved or address.is_unspecified)


def _literal(host: str) -> Address | None:
    """The address that a host is, also in the old notations that libraries still resolve."""
    try:
        return ipaddress.ip_address(host)
    except ValueError:
        pass
    try:
        return ipaddress.IPv4Address(socket.inet_aton(host))
    except OSError:
        return None
