"""Whether a solved design passes, in one line."""

from .check import write_factor
from .findings import Findings


def write_verdict(findings: Findings) -> str:
    """Return in one line whether everything that was checked holds, and what gives way first.

    Parameters
    ----------
    findings : Findings
        Of a solved design.

    Returns
    -------
    str
        One or two sentences.
    """
    if not findings.checks:
        return "Nothing was checked."
    first, failed = findings.checks[0], len(findings.failed)
    weakest = (
        f"{first.part} {first.mechanism}, factor {write_factor(first.found)} where {first.asked.value:g} is asked."
    )
    if failed:
        return f"NOT ENOUGH in {failed} of {len(findings.checks)} checks. First: {weakest}"
    return f"All {len(findings.checks)} checks pass. Gives way first: {weakest}"
