"""Many installations against one rulebook: found, judged, remembered, compared, told."""

from __future__ import annotations

from checker.audit.jobs import Job, find_jobs
from checker.audit.results import JobResult
from checker.audit.running import Auditor

__all__ = ["Auditor", "Job", "JobResult", "find_jobs"]
