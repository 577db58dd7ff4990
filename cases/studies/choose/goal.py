"""What a search is for: whether the values that its file names can be searched."""

from collections.abc import Sequence
from pathlib import Path

from ....hammock.load_case import LoadCase
from ....materials import nearest_line
from ...design_issue import DesignError, DesignIssue, suggest_name
from ...judging.comfort.measure_list import MEASURES
from ..sweep.result_value import RESULT_VALUES
from ..sweep.sweep import Sweep

LIGHTEST = ["packed_kg"]


def check_goal(goal: Sequence[str], sweep: Sweep, text: str, file: Path, *, finite: bool) -> None:
    """Raise for a goal that no design has, of which no value is better, or that cannot be searched.

    Parameters
    ----------
    goal : sequence of str
        Keys of result values.
    sweep : Sweep
        What is open.
    text : str
        Of the file.
    file : Path
        Which it is.
    finite : bool
        Whether all combinations can be weighed.

    Raises
    ------
    DesignError
        With every issue at once.
    """
    faults = list(filter(None, (_find_fault(key, sweep) for key in goal)))
    if len(set(goal)) < len(goal):
        faults.append(f"{' and '.join(goal)}: each value counts once. Leave out the second.")
    if list(goal) != LIGHTEST and not finite:
        faults.append(
            "sizes between two ends, and more combinations than can be weighed, are searched for the least weight "
            "alone. Give each range a `count`, or leave goal out."
        )
    if faults:
        line = nearest_line(text, ("choose", "goal"))
        raise DesignError([DesignIssue(str(file), words, line, "choose.goal") for words in faults])


def _find_fault(key: str, sweep: Sweep) -> str:
    """Return why one value is no goal; empty if it is one."""
    better = {each.key: each.better for each in RESULT_VALUES}
    if not better.get(key):
        names = [name for name, way in better.items() if way]
        why = "is no value of which less or more is better"
        return f"{key} {why}. {suggest_name(key, names)}`tautlay rank --columns` lists all."
    cases = sweep.list_cases(sweep.base)
    if key in {each.key for each in MEASURES} and not any(case.load is LoadCase.LYING for case in cases):
        return f'{key} needs somebody who lies. Add "lying" to `loads` in [judge] of the design.'
    return ""
