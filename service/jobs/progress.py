"""How far a job is and when it may end."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Self

from service.storage.repositories.jobs import RUNNING, Job


@dataclass(frozen=True, slots=True)
class Progress:
    """Progress of a job. ``eta_s`` is ``None`` as long as nothing is known about its pace."""

    fraction: float
    items_per_s: float | None
    eta_s: float | None

    @classmethod
    def of(cls, job: Job, now: datetime) -> Self:
        """Measure a job at a moment.

        The pace is the mean since its start. A job that was interrupted looks slower than it is, which
        errs on the safe side.
        """
        fraction = job.done / job.total if job.total else float(job.is_over)
        if job.started_at is None or not job.done:
            return cls(fraction, None, None)
        took = (job.finished_at or now) - job.started_at
        pace = job.done / max(took, timedelta(milliseconds=1)).total_seconds()
        left_s = (job.total - job.done) / pace
        return cls(fraction, round(pace, 1), round(left_s, 1) if job.state == RUNNING else None)
