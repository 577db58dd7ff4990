"""What to say where neither a design nor anything lighter passes: which two requirements exclude each other."""

from dataclasses import replace

from ..sweep.exclusion import find_exclusive_pair, rank_nearness, write_nearest, write_pair
from ..sweep.sweep_row import RowStatus
from .evaluation import SwapEvaluator
from .part_swaps import name_swaps


def explain_failure(evaluator: SwapEvaluator, fine: SwapEvaluator) -> str:
    """Return which two requirements no combination that was solved meets together, and the nearest; may be empty.

    Parameters
    ----------
    evaluator, fine : SwapEvaluator
        That tried the swaps, and what came of it on the mesh of the design, which counts where both did.
    """
    tried = evaluator.tried | fine.tried
    if tried[evaluator.as_designed].passes:
        return ""
    rows = {
        selection: replace(each.row, failed=evaluator.list_unmet(each.row))
        for selection, each in tried.items()
        if each.row.status is RowStatus.SOLVED
    }
    failed = [selection for selection, row in rows.items() if row.failed]
    if not failed:
        return ""
    nearest = min(failed, key=lambda selection: rank_nearness(rows[selection]))
    name = ", ".join(name_swaps(evaluator.parts, nearest)) or "the current design"
    pair, end = find_exclusive_pair(list(rows.values())), write_nearest(name, rows[nearest])
    return end if pair is None else f"{write_pair(pair, 'combination that was solved')} {end}"
