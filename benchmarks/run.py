"""Speed and memory, each case in a process of its own: ``make bench``.

A hammock of about 2 k, 8 k and 30 k triangles from a cold start to a residual of 1e-6 (kernels compiled
before), a second person lying in it in contact after a first, sweeps of 200 and 60 designs, and a taut sheet side by
side with a general-purpose finite-element library. Prints a table and writes ``benchmarks/results/bench.json``.
"""

import json
import resource
import subprocess
import sys
import time
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import numpy as np

HERE = Path(__file__).parent
SIZES = {"2 k": 0.049, "8 k": 0.0232, "30 k": 0.0115}  # mesh size in the field, m, by triangles
SHEET_CELLS = (60, 36)
LYING_TURNS = 5
TREES = {"larch_ridge": 4.27, "otter_creek": 3.96, "heron_ford": 4.25}  # m apart
PAIRS = [  # sex and percentile, or stature (m) and mass (kg), of the first and of the second person
    (("male", 50), ("female", 50)),
    (("male", 1.70, 60.0), ("male", 1.80, 90.0)),
    (("male", 1.80, 90.0), ("male", 1.70, 60.0)),
    (("male", 5), ("male", 95)),
    (("female", 5), ("female", 95)),
    (("female", 50), ("female", 60)),
    (("female", 5), ("male", 75)),
]


SWEEP_MESH = 0.14  # m
FABRICS = [
    "ripstop nylon 22 g/m2",
    "ripstop nylon 30 g/m2",
    "ripstop nylon 37 g/m2",
    "ripstop nylon 40 g/m2, low permeability",
    "ripstop nylon 54 g/m2",
    "twill nylon 54 g/m2",
    "ripstop nylon 64 g/m2",
    "nylon taffeta 60 g/m2",
    "polyester ripstop 50 g/m2",
    "coated ripstop nylon 45 g/m2",
]
CORDS = [f"12-strand UHMWPE {size} mm" for size in (1.75, 2, 2.5, 2.8, 3.2)]
SWEEP = """
[sweep]
name = "bench"
design = "{design}"
mesh_size = "{mesh:.0f} mm"
[[set]]
key = "load.case"
value = "lying"
[[vary]]
key = "body.fabric"
values = {fabrics}
[[vary]]
key = "channel.cord"
values = {cords}
[[vary]]
key = "suspension.leg"
values = {legs}
"""
SWEEPS = (  # name, how many cloths of 20 designs each, options
    ("two processes", 10, {"processes": 2}),
    ("one process", 3, {"processes": 1}),
    ("two, 60 designs", 3, {"processes": 2}),
    ("two, cold", 3, {"processes": 2, "cold": True}),
    ("two dask workers", 3, {"scheduler": ""}),
)


def measure_hammock(size):
    """Solve the demonstration design; return time, steps, memory and the time of one factorisation."""
    from tautlay.cases import read_design
    from tautlay.cases.solving.solution import solve_equilibrium
    from tautlay.solver import StiffnessModel
    from tautlay.solver.assembly import Assembly

    design = read_design(HERE.parent / "cases" / "larch_ridge.toml")
    solve_equilibrium(design, mesh_size=0.2)  # loads the compiled loops
    begun = time.perf_counter()
    result = solve_equilibrium(design, mesh_size=size)
    seconds = time.perf_counter() - begun
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    structure, positions = result.model.structure, result.state.positions
    assembly = Assembly(structure)
    matrix = assembly.matrix(positions, StiffnessModel.POSITIVE, 1e-6 * structure.stiffness_bound(positions))
    force = structure.unbalanced(positions)
    factor = min(_time(lambda: assembly.solve(matrix, force)) for _ in range(5))
    return {
        "triangles": len(result.model.triangles),
        "seconds_s": seconds,
        "steps": result.iterations,
        "factorisations": result.factorisations,
        "one_factorisation_s": factor,
        "ratio": seconds / factor,
        "peak_memory_MiB": peak,
        "residual": result.state.residual,
        "head_bar_thrust_N": result.summary["forces"]["head_bar_thrust_N"],
    }


def measure_lying(size):
    """Lay a second person into a hammock, cold and from the first one's shape: CPU time, steps and thrust by pair."""
    from tautlay.cases import read_design
    from tautlay.cases.solving.solution import solve_equilibrium

    found = {}
    for name, distance in TREES.items():
        design = read_design(HERE.parent / "cases" / f"{name}.toml")
        between = replace(design.hammock.suspension, hang_angle=None, tree_distance=distance)  # the same
        design = replace(design, hammock=replace(design.hammock, suspension=between))
        solve_equilibrium(design, load="lying", mesh_size=0.2)  # loads the compiled loops
        for pair in PAIRS:
            before, after = (_lay(design, *who) for who in pair)
            first = solve_equilibrium(before, load="lying", mesh_size=size)
            title = f"{name}, " + " to ".join(" ".join(map(str, who)) for who in pair)
            found[title] = _compare_starts(after, size, first)
    return found


def _lay(design, sex, *size):
    """Return the design with that person, a little nearer to its foot end than to its head end."""
    from tautlay.hammock import Person, Sex, find_percentile

    stature, mass = find_percentile(Sex(sex), *size) if len(size) == 1 else size
    room = design.hammock.body.length - stature
    return replace(design, person=Person(stature, mass, Sex(sex), max(room * 0.55, 0.0)))


def _compare_starts(design, size, first):
    """Return the least CPU time of some cold and warm solves, turn by turn, and whether the thrusts agree."""
    from tautlay.cases.solving.solution import solve_equilibrium

    starts, times, results = {"cold": None, "warm": first}, {"cold": [], "warm": []}, {}
    for _ in range(LYING_TURNS):
        for name, start in starts.items():
            begun = time.process_time()
            results[name] = solve_equilibrium(design, load="lying", mesh_size=size, start=start)
            times[name].append(time.process_time() - begun)
    return {
        "triangles": len(results["cold"].model.triangles),
        **{f"{name}_cpu_s": min(spent) for name, spent in times.items()},
        "ratio": min(times["warm"]) / min(times["cold"]),
        **{f"{name}_steps": result.iterations for name, result in results.items()},
        **{f"{name}_head_bar_thrust_N": r.summary["forces"]["head_bar_thrust_N"] for name, r in results.items()},
    }


def measure_sweep(mesh_size):
    """Solve sweeps of persons lying in many designs; return rates warm and cold, of one and two workers, of dask."""
    import tempfile

    folder = Path(tempfile.mkdtemp())
    found = {"triangles": 0}
    for name, fabrics, options in SWEEPS:
        path = folder / "sweep.toml"
        design = HERE.parent / "cases" / "heron_ford.toml"
        lists = {"fabrics": FABRICS[:fabrics], "cords": CORDS[:4], "legs": CORDS}
        written = {key: json.dumps(values) for key, values in lists.items()}
        path.write_text(SWEEP.format(design=design, mesh=mesh_size * 1000, **written))
        with _choose_scheduler(options) as chosen:
            found[name], found["triangles"] = _time_sweep(path, folder / f"{name}.sqlite", chosen)
    return found


def _time_sweep(path, store, options):
    """Return designs, wall time, starting of workers included, and rate; and the triangles of each."""
    from tautlay.cases import read_sweep, run_sweep

    begun = time.perf_counter()
    sweep = read_sweep(path)
    rows = run_sweep(sweep, store, **options)
    seconds = time.perf_counter() - begun
    solved = sum(row.status == "solved" for row in rows)
    return {
        "designs": len(rows),
        "solved": solved,
        "seconds_s": seconds,
        "per_second": len(rows) / seconds,
    }, sweep.triangles


@contextmanager
def _choose_scheduler(options):
    """Give the options; where a dask scheduler is asked for, with its address while it runs."""
    if "scheduler" not in options:
        yield options
        return
    from distributed import LocalCluster

    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster:
        yield {**options, "scheduler": cluster.scheduler_address}


def measure_sheet(program):
    """Solve the taut sheet with edge cables; return time, steps and the deflection of its centre."""
    sys.path.insert(0, str(HERE.parent / "tests" / "verification"))
    import _sheet as sheet

    solve = {"tautlay": sheet.solve_tautlay, "scikit-fem": sheet.solve_library}[program]
    solve(sheet.make_sheet(6, 4))
    mesh = sheet.make_sheet(*SHEET_CELLS)
    begun = time.perf_counter()
    found = solve(mesh)
    seconds = time.perf_counter() - begun
    return {
        "triangles": len(mesh.triangles),
        "seconds_s": seconds,
        "steps": found.steps,
        "centre_m": -float(found.positions[:, 2].min()),
        "peak_memory_MiB": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    }


def _time(call):
    begun = time.perf_counter()
    call()
    return time.perf_counter() - begun


def run_alone(kind, argument):
    """Run one measurement in a process of its own."""
    command = [sys.executable, __file__, kind, str(argument)]
    return json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout.splitlines()[-1])


def print_table(rows):
    """Print rows of text in columns."""
    widths = [max(len(row[k]) for row in rows) for k in range(len(rows[0]))]
    for row in rows:
        print("  ".join(cell.rjust(width) for cell, width in zip(row, widths, strict=True)))


def main():
    """Measure everything, print it, write it."""
    hammock = {name: run_alone("hammock", size) for name, size in SIZES.items()}
    first, last = hammock["2 k"], hammock["30 k"]
    growth = np.log(last["seconds_s"] / first["seconds_s"]) / np.log(last["triangles"] / first["triangles"])
    rows = [("hammock", "triangles", "seconds", "steps", "factorisations", "one (s)", "ratio", "peak MiB")]
    for name, r in hammock.items():
        numbers = (r["triangles"], f"{r['seconds_s']:.2f}", r["steps"], r["factorisations"])
        more = (f"{r['one_factorisation_s']:.4f}", f"{r['ratio']:.0f}", f"{r['peak_memory_MiB']:.0f}")
        rows.append((name, *map(str, numbers), *more))
    print_table(rows)
    print(f"growth exponent of the time, 2 k to 30 k: {growth:.2f}\n")
    lying = run_alone("lying", SIZES["2 k"])
    rows = [("second person", "triangles", "cold (s)", "warm (s)", "ratio", "steps", "steps", "head bar (N)")]
    for name, r in lying.items():
        times = (f"{r['cold_cpu_s']:.2f}", f"{r['warm_cpu_s']:.2f}", f"{r['ratio']:.2f}")
        steps = (r["cold_steps"], r["warm_steps"])
        rows.append((name, *map(str, (r["triangles"], *times, *steps)), f"{r['warm_head_bar_thrust_N']:.2f}"))
    print_table(rows)
    ratios = [r["ratio"] for r in lying.values()]
    print(f"warm over cold: {max(ratios):.2f} at the worst, {np.median(ratios):.2f} in the middle\n")
    sweeps = run_alone("sweep", SWEEP_MESH)
    triangles = sweeps.pop("triangles")
    rows = [(f"lying, {triangles} triangles", "designs", "solved", "seconds", "a second")]
    for name, r in sweeps.items():
        rows.append((name, str(r["designs"]), str(r["solved"]), f"{r['seconds_s']:.1f}", f"{r['per_second']:.2f}"))
    print_table(rows)
    one, two, cold, dask = (sweeps[name]["per_second"] for name, _, _ in SWEEPS[1:])
    print(
        f"two processes over one: {two / one:.2f}, warm over cold: {two / cold:.2f}, dask over both: {dask / two:.2f}\n"
    )
    sheet = {name: run_alone("sheet", name) for name in ("tautlay", "scikit-fem")}
    rows = [("taut sheet", "triangles", "seconds", "steps", "centre (m)", "peak MiB")]
    for name, r in sheet.items():
        numbers = (r["triangles"], f"{r['seconds_s']:.3f}", r["steps"], f"{r['centre_m']:.6f}")
        rows.append((name, *map(str, numbers), f"{r['peak_memory_MiB']:.0f}"))
    print_table(rows)
    target = HERE / "results" / "bench.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(
        json.dumps(
            {"hammock": hammock, "growth_exponent": growth, "lying": lying, "sweep": sweeps, "sheet": sheet}, indent=2
        )
        + "\n"
    )
    print(f"\nwritten to {target}")


if __name__ == "__main__":
    if len(sys.argv) == 3:
        kind, argument = sys.argv[1:]
        measures = {
            "hammock": lambda: measure_hammock(float(argument)),
            "lying": lambda: measure_lying(float(argument)),
            "sweep": lambda: measure_sweep(float(argument)),
        }
        print(json.dumps(measures.get(kind, lambda: measure_sheet(argument))()))
    else:
        main()
