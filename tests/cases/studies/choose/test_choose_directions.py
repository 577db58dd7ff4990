"""What makers know of weight comes out of the weights of a search and its table of what would be lighter.

Common practice, no source: on the way from a sturdy build to a light one poles that are carried anyway, with rods, save
most, cord for webbing next, then lighter cloth, then smaller corners. Weights alone: nothing is solved.
"""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from tautlay.cases.studies.choose.candidate import weigh_jobs
from tautlay.cases.studies.choose.evaluator import Tried
from tautlay.cases.studies.choose.next_lighter import list_next_lighter
from tautlay.cases.studies.choose.open_design import read_open_design
from tautlay.cases.studies.choose.point import PointSet
from tautlay.cases.studies.choose.proven_search import ProvenSearch
from tautlay.cases.studies.sweep.plan import StartFrom, plan_jobs

from ._small import write_open

# INVENTED: bars of their own, two yards of webbing from each apex to its tree, cloth of 64 g/m2, plates of 35 mm
BUILDS = """
[[set]]
key = "suspension.line_length"
value = "1.83 m"

[[set]]
key = "suspension.strap_height"
value = "2.4 m"

[[vary]]
name = "bars"
keys = ["head_bar", "foot_bar"]
labels = ["their own", "carried poles with rods"]
values = [
    [
        { length = "90 cm", set_in = "20 cm", section = "6061-T6 3/4 in x 0.049 in" },
        { length = "70 cm", set_in = "15 cm", section = "6061-T6 3/4 in x 0.035 in" },
    ],
    [
        { length = "90 cm", set_in = "20 cm", part = [
            { section = "walking-pole section 7075-T6 18 x 1 mm", length = "84 cm", carried = true },
            { section = "yellow birch dowel 5/8 in", length = "12 cm", overlap = "6 cm", play = "0 mm", rests_on = "rim" },
        ] },
        { length = "70 cm", set_in = "15 cm", part = [
            { section = "walking-pole section 7075-T6 16 x 0.9 mm", length = "64 cm", carried = true },
            { like = "yellow birch dowel 1/2 in", diameter = "14 mm", length = "12 cm", overlap = "6 cm", play = "0 mm", rests_on = "rim" },
        ] },
    ],
]

[[vary]]
name = "lines"
keys = ["suspension.line", "ends.line_at_apex", "ends.line_at_tree"]
labels = ["webbing", "cord"]
values = [
    ["polyester 1 in, 33 g/m", { made = "sewn loop", tail = "14 cm" }, { made = "girth hitch", tail = "19 cm" }],
    [
        "12-strand UHMWPE 2 mm",
        { made = "spliced eye", bury = "15 cm", coated = true, locked = true, tail = "3 cm" },
        { made = "spliced eye", bury = "15 cm", coated = true, locked = true, tail = "3 cm" },
    ],
]

[[vary]]
name = "cloth"
key = "body.fabric"
values = ["ripstop nylon 64 g/m2", "ripstop nylon 37 g/m2"]

[[vary]]
name = "corners"
keys = ["corner.width", "corner.length"]
labels = ["large", "small"]
values = [["35 mm", "55 mm"], ["25 mm", "42 mm"]]
"""
ORDER = ["bars", "lines", "cloth", "corners"]


@pytest.fixture(scope="module")
def sturdy(tmp_path_factory):
    """Return a search that stands at the sturdy build, and the designs that differ from it in one thing at most."""
    sweep = read_open_design(write_open(tmp_path_factory.mktemp("builds"), BUILDS)).sweep
    near = tuple(each for each in sweep.variants if sum(each.picks) <= 1)
    jobs = plan_jobs(replace(sweep, variants=near), start_from=StartFrom.FIRST)
    assert not [job.refusal for job in jobs if job.refusal]
    search = ProvenSearch(weigh_jobs(jobs), SimpleNamespace(sweep=sweep, explain=str), lambda tried: None, 1)
    search.best = Tried(next(job for job in jobs if not any(job.variant.picks)), None)
    return search, jobs


def test_carried_poles_save_most_then_cord_for_webbing_then_cloth_then_small_corners(sturdy):
    search, jobs = sturdy
    found = list_next_lighter(search, jobs)
    assert [each.choice for each in found] == ORDER
    saved = [each.saves for each in found]
    assert saved == sorted(saved, reverse=True)
    assert saved[-1] > 0.005


def test_a_search_for_sizes_weighs_them_alike(sturdy):
    search, jobs = sturdy
    points = PointSet(search.evaluator.sweep)
    start = points.weigh((0, 0, 0, 0))
    for place, each in enumerate(list_next_lighter(search, jobs)):
        assert each.saves == start - points.weigh(tuple(int(other == place) for other in range(4)))
