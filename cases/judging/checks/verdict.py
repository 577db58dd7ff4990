"""Whether a solved design passes, in a few sentences."""

from .check import Check, merge_sides, pick_tightest, write_factor, write_utilisation
from .findings import Findings


def write_verdict(findings: Findings) -> str:
    """Return whether every check passes, what fails at the load itself, and which check is closest to its limit.

    Parameters
    ----------
    findings : Findings
        Of a solved design.

    Returns
    -------
    str
        One to three sentences.

    Examples
    --------
    >>> write_verdict(Findings((), ()))
    'NOT CHECKED: the design describes no part that can be checked.'
    """
    if not findings.checks:
        return "NOT CHECKED: the design describes no part that can be checked."
    total, failed, broken = len(findings.checks), findings.failed, findings.broken
    checks = f"{total} check{'s' if total > 1 else ''}"
    if not failed:
        return f"PASS: {'all ' if total > 1 else ''}{checks}. {_write_highest(findings.checks[0])}"
    rows = len(merge_sides(failed))
    sentences = [
        f"FAIL: {len(failed)} of {checks}{f', {rows} with left and right as one' if rows < len(failed) else ''}."
    ]
    if broken:
        sentences.append(f"At this load {_write_broken(broken)}.")
    missed = [check for check in failed if not check.breaks]
    if missed:
        sentences.append(f"Too little reserve: {_write_missed(missed[0])}.")
    return " ".join(sentences)


def _write_highest(check: Check) -> str:
    """Return the check that governs."""
    factors = f"factor of safety {write_factor(check.found)}, required {check.asked.value:g}"
    return f"Closest to its limit, {write_utilisation(check.margin)} used: {check.title} ({factors})."


def _write_broken(broken: tuple[Check, ...]) -> str:
    """Return what fails at the load, each part by its worst way, the worst first."""
    return "; ".join(f"{check.title} (factor {write_factor(check.found)})" for check in pick_tightest(broken))


def _write_missed(check: Check) -> str:
    """Return a check that only misses its factor."""
    return f"{check.title}, factor {write_factor(check.found)}, required {check.asked.value:g}"
