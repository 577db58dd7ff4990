"""Whether a solved design passes, in one line."""

from .check import write_factor, write_utilisation
from .findings import Findings


def write_verdict(findings: Findings) -> str:
    """Return in one line whether every check passes, and which has the highest utilisation.

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
    first, failed, total = findings.checks[0], len(findings.failed), len(findings.checks)
    highest = (
        f"Highest utilisation {write_utilisation(first.margin)}: {first.title} "
        f"(factor of safety {write_factor(first.found)}, required {first.asked.value:g})."
    )
    count = f"{total} checks" if total > 1 else "1 check"
    if failed:
        return f"FAIL: {failed} of {count}. {highest}"
    return f"PASS: {'all ' if total > 1 else ''}{count}. {highest}"
