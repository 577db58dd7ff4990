"""The lightest design that earns the verdict, or the best in another goal: settings, search and result."""

from dataclasses import replace
from os import PathLike
from pathlib import Path

from ...design import Design
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from ..line_callback import LineCallback
from ..sweep.plan import StartFrom, plan_jobs
from ..sweep.run import SweepRunner, open_runner
from ..sweep.sweep_row import SweepRow
from ..sweep.worker_pool import PoolSettings, count_cores
from .candidate import Candidate, weigh_jobs
from .evaluator import DesignEvaluator, Tried
from .goal import LIGHTEST
from .goal_search import GoalSearch
from .news import SearchNews, SearchState
from .next_lighter import list_next_lighter
from .no_answer import explain_failure
from .open_design import OpenDesign, read_open_design
from .open_sizes import OpenSizes
from .outcome import ChooseResult, ChosenDesign
from .proven_search import Confirm, ProvenSearch

_QUICK = 0.15  # m: mesh on which is found out what the design leaves unchecked


def choose_design(
    path: str | PathLike[str],
    file: Path,
    *,
    settings: PoolSettings | None = None,
    report: LineCallback | None = None,
) -> ChooseResult:
    """Find the lightest design that earns the verdict among all that a file leaves open.

    Parameters
    ----------
    path : path
        The file that says what is open; see :class:`~tautlay.cases.studies.choose.choose_form.ChooseForm`.
    file : Path
        SQLite file of results; an existing one is continued.
    settings : PoolSettings or None
        Where the work is done; None is one process for each core, in a search for sizes one for each start at least.
    report : callable or None
        Receives a line of text while it works.

    Returns
    -------
    ChooseResult
        Also where it is stopped by Ctrl-C: with the best so far.

    Raises
    ------
    DesignError, StoreError, SchedulerError
        For input that cannot be used; the message says why.
    """
    return search_design(read_open_design(path), file, settings=settings, report=report)


def search_design(
    asked: OpenDesign, file: Path, *, settings: PoolSettings | None = None, report: LineCallback | None = None
) -> ChooseResult:
    """Find the lightest design, as :func:`choose_design`, of a file that was read."""
    news = SearchNews(report, asked.sweep.base.units)
    settings = settings or PoolSettings()
    if not asked.finite and settings.processes is None:  # a round asks for a design of each start, and waits for all
        settings = settings._replace(processes=max(count_cores(), asked.terms.starts))
    with open_runner(file, settings) as runner:
        return _search_finite(asked, runner, news) if asked.finite else _search_sizes(asked, runner, news)


def find_unchecked(design: Design) -> frozenset[str]:
    """Return the parts that a design leaves unchecked: those about which it does not state enough."""
    try:
        result = solve_equilibrium(design, mesh_size=max(design.mesh_size, _QUICK), load="distributed")
    except NoEquilibriumError:
        return frozenset()  # then nothing may stay unchecked: the strict side
    return frozenset(each.part for each in result.findings.unchecked)


def make_confirm(asked: OpenDesign, fine: DesignEvaluator) -> Confirm:
    """Return what solves a design on its own mesh; it returns None where that is the mesh of the search.

    Parameters
    ----------
    asked : OpenDesign
        What is open.
    fine : DesignEvaluator
        On the mesh of the design.
    """

    def confirm(tried: Tried) -> SweepRow | None:
        if not asked.rough:
            return None
        (job,) = plan_jobs(replace(asked.fine, variants=(tried.job.variant,)), start_from=StartFrom.FIRST)
        return fine.solve([job])[0].row

    return confirm


def _search_finite(asked: OpenDesign, runner: SweepRunner, news: SearchNews) -> ChooseResult:
    """Return the lightest of a finite set."""
    sweep = replace(asked.sweep, thorough=-1)  # a design is solved no further than to what it fails first
    jobs = plan_jobs(sweep, start_from=StartFrom.FIRST, report=news.report)
    candidates = weigh_jobs(jobs, news.report)
    unchecked = find_unchecked(asked.sweep.base)
    evaluator = DesignEvaluator(sweep, runner, unchecked)
    fine = DesignEvaluator(replace(asked.fine, variants=()), runner, unchecked)
    search = _make_search(asked, candidates, evaluator, make_confirm(asked, fine))

    def tell(done: int) -> None:
        room = asked.terms.most - len(search.seen)
        news.tell(SearchState(len(search.seen) + done, search.ceiling, search.floor, min(len(search.left), room)))

    evaluator.done = tell
    stopped = proven = False
    try:
        proven = search.run()
        search.settle(confirm=True)
    except KeyboardInterrupt:
        stopped = True
        search.settle(confirm=False)
    result = ChooseResult(
        asked, _name_chosen(asked, search), len(jobs), len(jobs) - len(candidates), evaluator.solved, search.counts,
        proven, None if proven else search.floor, stopped,
        tuple((tried.row, evaluator.explain(row)) for tried, row in search.refuted),
        front=tuple(each.row for each in search.front), compared=search.compared,
    )  # fmt: skip
    if stopped:
        return result
    if search.best is None:
        return replace(result, exclusion=explain_failure(sweep, search, runner) if proven else "")
    return result if result.front else replace(result, lighter=list_next_lighter(search, jobs))


def _make_search(
    asked: OpenDesign, candidates: tuple[Candidate, ...], evaluator: DesignEvaluator, confirm: Confirm
) -> ProvenSearch:
    """Return a search for the goal of a file."""
    if asked.terms.goal == LIGHTEST:
        return ProvenSearch(candidates, evaluator, confirm, asked.terms.most)
    return GoalSearch(candidates, evaluator, confirm, asked.terms.most, goals=asked.goals)


def _search_sizes(asked: OpenDesign, runner: SweepRunner, news: SearchNews) -> ChooseResult:
    """Return the lightest that several searches for sizes find."""
    unchecked = find_unchecked(asked.sweep.base)
    coarse, fine = (DesignEvaluator(each, runner, unchecked) for each in (asked.sweep, asked.fine))

    def tell(solved: int, best: float | None, left: int) -> None:
        news.tell(SearchState(solved, best, None, left))

    return OpenSizes(asked, coarse, fine, tell).run()


def _name_chosen(asked: OpenDesign, search: ProvenSearch) -> ChosenDesign | None:
    """Return the best that was found."""
    if search.best is None or search.best_row is None:
        return None
    packed = search.by_number[search.best.job.variant.number].packed
    name = asked.fine.name if asked.rough and search.confirmed else asked.sweep.name
    design = asked.fine.make_design(search.best.job.variant)
    return ChosenDesign(search.best_row, packed, search.confirmed, name, design)
