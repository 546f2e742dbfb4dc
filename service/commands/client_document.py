"""The part of the client that follows from the OpenAPI document, as files."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from service.commands.client_operations import calls, methods, operations
from service.commands.client_schemas import bodies, closed_sets, is_closed_set, reachable, references, results

WRITTEN_BY_HAND = {"BatchItem": "its answer is whole or brief"}
"""Results with a class of their own, with the reason."""

ALSO_RECEIVED = ("BatchItem", "BatchClosing", "Problem", "EnvelopeAnswer")
"""Results that operations written by hand give."""

ALSO_SENT = ("EnvelopeRequest",)
"""Bodies that operations written by hand take."""

NOTE = "Written from the OpenAPI document by `make openapi`: do not edit."
FUTURE = "from __future__ import annotations\n\n"


def client_files(document: Mapping[str, Any]) -> dict[str, str]:
    """Return the modules of ``service/client/document`` by name."""
    schemas = document["components"]["schemas"]
    had = list(operations(document))
    received = reachable([*(name for each in had for name in each.results()), *ALSO_RECEIVED], schemas)
    sent = reachable([*(body for each in had if (body := each.body())), *ALSO_SENT], schemas)
    asked = {name for each in had for name in references(each.entry.get("parameters", []))}
    words = sorted(name for name in {*received, *sent, *asked} if is_closed_set(schemas[name]))
    structs = [name for name in received if name not in {*words, *WRITTEN_BY_HAND}]
    dictionaries = [name for name in sent if name not in words]
    return {
        "__init__.py": f'"""{NOTE}"""\n',
        "terms.py": _module(
            "Closed sets of words.", "from typing import Literal, TypeAlias\n", closed_sets(words, schemas)
        ),
        "results.py": _module("What the service sends.", RESULTS, results(structs, schemas)),
        "bodies.py": _module("What the service is sent.", BODIES, bodies(dictionaries, schemas)),
        "calls.py": _module("What the service can be asked, one function each.", CALLS, calls(document)),
        "methods.py": _module("What the service can be asked, as methods.", METHODS, methods(document)),
    }


RESULTS = (
    "import datetime as dt\nfrom typing import Any\n\nimport msgspec\n\n"
    "from service.client.document import terms\nfrom service.client.record import Record\n"
)
BODIES = (
    "import datetime as dt\nfrom collections.abc import Mapping, Sequence\n"
    "from typing import Any, Required, TypedDict\n\nfrom service.client.document import terms\n"
)
CALLS = (
    "from collections.abc import Sequence\nfrom typing import Unpack\n\n"
    "from service.client.document import bodies, results, terms\n"
    "from service.client.flows import Flow, Listing, ask, ask_nothing\n"
    "from service.client.requests import Request, address, new_key\n"
)
METHODS = (
    "from service.client.binding import AwaitedCall, AwaitedListing, BlockingCall, BlockingListing\n"
    "from service.client.document import calls\n"
)


def _module(summary: str, imports: str, content: str) -> str:
    return f'"""{summary}\n\n{NOTE}\n"""\n\n{FUTURE}{imports}\n\n{content}'


def write_client(document: Mapping[str, Any], folder: Path) -> None:
    """Write the modules into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in client_files(document).items():
        (folder / name).write_text(content, encoding="utf-8")
