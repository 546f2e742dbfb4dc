"""Which licence a package has, as its own metadata says, and whether we may use it.

The metadata of older packages names a licence in words; they are read as the expression of SPDX that they
stand for. ``LicenseRef-BSD`` is one of the BSD licences without saying which.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib.metadata import metadata

from license_expression import (  # type: ignore[import-untyped]  # it brings no types
    LicenseSymbol,
    get_spdx_licensing,
)

ALLOWED: Mapping[str, str] = {
    "0BSD": "asks for nothing",
    "Apache-2.0": "asks for its notice; grants patents",
    "BSD-2-Clause": "asks for its notice",
    "BSD-3-Clause": "asks for its notice",
    "CC0-1.0": "asks for nothing",
    "ISC": "asks for its notice",
    "LGPL-3.0-only": "psycopg: an installed library that whoever runs the service can replace",
    "LicenseRef-BSD": "asks for its notice",
    "MIT": "asks for its notice",
    "MIT-0": "asks for nothing",
    "MPL-2.0": "asks for the source of its own files, which are used unchanged",
    "PSF-2.0": "asks for its notice",
    "Zlib": "asks for its notice in source",
}
"""What the service may be built on, and what each licence asks for."""

ALLOWED_TO_CONTRIBUTORS: Mapping[str, str] = {
    "Artistic-1.0-Perl": "text-unidecode, a part of frictionless: never handed on",
    "LicenseRef-PublicDomain": "asks for nothing",
    "MIT-CMU": "asks for its notice",
}
"""What tests and tools may use besides: it is not delivered."""

_BY_CLASSIFIER = {
    "Apache Software License": "Apache-2.0",
    "BSD License": "LicenseRef-BSD",
    "ISC License (ISCL)": "ISC",
    "MIT License": "MIT",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "Public Domain": "LicenseRef-PublicDomain",
    "Python Software Foundation License": "PSF-2.0",
}
_BY_PACKAGE = {
    "docutils": "LicenseRef-PublicDomain AND LicenseRef-BSD AND PSF-2.0",
    "protobuf": "BSD-3-Clause",
    "text-unidecode": "Artistic-1.0-Perl OR GPL-2.0-or-later",
}
"""Where metadata names several licences without saying how, or one in words of its own: the licence files."""

_SPDX = get_spdx_licensing()


class UnknownLicenceError(LookupError):
    """The metadata of a package does not say which licence it has."""


def licence_of(name: str) -> str:
    """Return the licence of an installed package as an SPDX expression.

    Raises
    ------
    UnknownLicenceError
        If its metadata does not tell.
    """
    if name in _BY_PACKAGE:
        return _BY_PACKAGE[name]
    told = metadata(name)
    if "License-Expression" in told:
        return told["License-Expression"]
    written = told["License"] if "License" in told else ""  # noqa: SIM401 - its type knows no get
    if written in _SPDX.known_symbols:
        return written
    endings = [entry.rpartition(" :: ")[2] for entry in told.get_all("Classifier") or ()]
    known = [_BY_CLASSIFIER[ending] for ending in endings if ending in _BY_CLASSIFIER]
    if len(known) != 1:
        raise UnknownLicenceError(name, written[:60], known)
    return known[0]


def is_allowed(expression: str, *, is_runtime: bool) -> bool:
    """Tell whether an expression can be met: all parts of an AND, any part of an OR."""
    names = {*ALLOWED} if is_runtime else {*ALLOWED, *ALLOWED_TO_CONTRIBUTORS}
    # A licence may go by several names, of which the parser keeps one.
    allowed = {_SPDX.parse(name).key for name in names}

    def is_met(node: object) -> bool:
        if isinstance(node, LicenseSymbol):
            return node.key in allowed
        parts = [is_met(part) for part in getattr(node, "args", ())]
        return all(parts) if isinstance(node, _SPDX.AND) else any(parts)

    return is_met(_SPDX.parse(expression))
