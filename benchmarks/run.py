"""Speed and memory, each case in a process of its own: ``make bench``.

A hammock of about 2 k, 8 k and 30 k triangles from a cold start to a residual of 1e-6 (kernels compiled
before), a person lying in it in contact, and a taut sheet side by side with a general-purpose finite-element
library. Prints a table and writes ``benchmarks/results/bench.json``.
"""

import json
import resource
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import numpy as np

HERE = Path(__file__).parent
SIZES = {"2 k": 0.049, "8 k": 0.0232, "30 k": 0.0115}  # mesh size in the field, m, by triangles
SHEET_CELLS = (60, 36)


def measure_hammock(size):
    """Solve the demonstration design; return time, steps, memory and the time of one factorisation."""
    from tautlay.cases import read_design, solve_case
    from tautlay.solver import StiffnessModel
    from tautlay.solver.assembly import Assembly

    design = read_design(HERE.parent / "cases" / "larch_ridge.toml")
    solve_case(design, mesh_size=0.2)  # loads the compiled loops
    begun = time.perf_counter()
    result = solve_case(design, mesh_size=size)
    seconds = time.perf_counter() - begun
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    structure, positions = result.model.structure, result.state.positions
    assembly = Assembly(structure)
    matrix = assembly.matrix(positions, StiffnessModel.POSITIVE, 1e-6 * structure.stiffness_bound(positions))
    force = structure.unbalanced(positions)
    factor = min(_time(lambda: assembly.solve(matrix, force)) for _ in range(5))
    return {
        "triangles": len(result.model.mesh.triangles),
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
    """Lay a person into the demonstration design, cold; then a heavier one from there and cold."""
    from tautlay.cases import read_design, solve_case

    design = read_design(HERE.parent / "cases" / "larch_ridge.toml")
    between = replace(design.hammock.suspension, hang_angle=None, tree_distance=4.27)
    design = replace(design, hammock=replace(design.hammock, suspension=between))
    heavier = replace(design, person=replace(design.person, mass=design.person.mass + 8, stature=1.70))
    first = solve_case(design, load="lying", mesh_size=0.2)  # loads the compiled loops
    found = {}
    for name, plan, start in (("cold", design, False), ("second cold", heavier, False), ("second warm", heavier, True)):
        begun = time.perf_counter()
        result = solve_case(plan, load="lying", mesh_size=size, start=first if start else None)
        found[name] = {
            "seconds_s": time.perf_counter() - begun,
            "steps": result.iterations,
            "triangles": len(result.model.mesh.triangles),
            "head_bar_thrust_N": result.summary["forces"]["head_bar_thrust_N"],
        }
        first = result if name == "cold" else first
    return found


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
    rows = [("lying in contact", "triangles", "seconds", "steps", "head bar (N)")]
    for name, r in lying.items():
        rows.append(
            (name, *map(str, (r["triangles"], f"{r['seconds_s']:.2f}", r["steps"])), f"{r['head_bar_thrust_N']:.2f}")
        )
    print_table(rows)
    print()
    sheet = {name: run_alone("sheet", name) for name in ("tautlay", "scikit-fem")}
    rows = [("taut sheet", "triangles", "seconds", "steps", "centre (m)", "peak MiB")]
    for name, r in sheet.items():
        numbers = (r["triangles"], f"{r['seconds_s']:.3f}", r["steps"], f"{r['centre_m']:.6f}")
        rows.append((name, *map(str, numbers), f"{r['peak_memory_MiB']:.0f}"))
    print_table(rows)
    target = HERE / "results" / "bench.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(
        json.dumps({"hammock": hammock, "growth_exponent": growth, "lying": lying, "sheet": sheet}, indent=2) + "\n"
    )
    print(f"\nwritten to {target}")


if __name__ == "__main__":
    if len(sys.argv) == 3:
        kind, argument = sys.argv[1:]
        measures = {
            "hammock": lambda: measure_hammock(float(argument)),
            "lying": lambda: measure_lying(float(argument)),
        }
        print(json.dumps(measures.get(kind, lambda: measure_sheet(argument))()))
    else:
        main()
