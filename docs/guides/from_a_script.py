"""Two loads, forces, the tightest check, angles, arrays and area of the cloth."""

from importlib.resources import files

import numpy as np

from tautlay.cases import read_design, solve_case

design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))  # or read_design("my_hammock.toml")
results = {load: solve_case(design, load=load, mesh_size=0.08) for load in ("distributed", "lying")}  # mesh size in m

for load, result in results.items():
    tightest = result.findings.checks[0]  # what fails comes first, then by share used
    print(f"{load}: {result.verdict.kind}, {len(result.findings.failed)} checks fail")
    print(f"  head line {result.forces.head_line:.0f} N, head bar thrust {result.forces.head_bar_thrust:.0f} N")
    print(f"  lines at {np.degrees(result.shape.head_line_angle):.1f} and", end=" ")
    print(f"{np.degrees(result.shape.foot_line_angle):.1f} degrees, trees {result.shape.tree_distance:.2f} m apart")
    print(f"  tightest: {tightest.title}, factor of safety {tightest.found:.2f} of {tightest.asked.value:.2f}")
    print(f"  used: {100 / tightest.margin:.0f} % of its strength over that factor")

lying = results["lying"]
print(f"knees bent by {np.degrees(lying.comfort.knee_flexion):.1f} degrees")  # comfort is None under any other load

# Arrays: positions (n, 3) in m, corners of triangles (m, 3), both of the mesh with which it was solved.
positions, triangles = lying.state.positions, lying.model.triangles
corners = positions[triangles]  # (m, 3 corners, 3)
areas = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2
print(f"{len(triangles)} triangles, {areas.sum():.3f} m2 of loaded cloth, lowest point {positions[:, 2].min():.2f} m")

lying.save("results/from_a_script")  # result.json, shape.vtu, design.toml
