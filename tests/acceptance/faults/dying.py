"""The program, dying at a chosen statement: ``python -m tests.acceptance.faults.dying WORDS COMMAND...``.

As soon as the database has done a statement that holds the words, the process kills itself as a power cut
would: nothing is rolled back, closed or said by anybody.
"""

from __future__ import annotations

import os
import signal
import sys
from typing import Any

from sqlalchemy import Engine, event

from service.__main__ import app


def main() -> None:
    """Wait for the statement, and run the command meanwhile."""
    words, *command = sys.argv[1:]

    @event.listens_for(Engine, "after_cursor_execute")
    def die(_connection: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
        if words in statement:
            os.kill(os.getpid(), signal.SIGKILL)

    app(command)


if __name__ == "__main__":
    main()
