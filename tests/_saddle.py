"""A made-up loaded hammock, so that files and pictures can be tested without solving anything."""

import json

import numpy as np

from tautlay.cases.judging.checks import CheckRecord
from tautlay.cases.judging.cloth.hot_spot import HotSpot
from tautlay.cases.load_step import LoadStepRecord
from tautlay.cases.result_record import DesignHeader, ReportHeader, ResultRecord
from tautlay.cases.storage.result_json import encode_result
from tautlay.cases.storage.shape import CellTag, Occupant, Shape, write_shape
from tautlay.hammock import LoadCase
from tautlay.materials import make_sentence

from ._records import make_record

HALF_LENGTH, HEAD_BAR, FOOT_BAR, APEX_REACH, TREE_REACH = 1.0, 0.90, 0.70, 0.55, 2.4


def make_cloth(rows, columns):
    """Return points and triangles of a trough, 0.45 m above the ground at its lowest."""
    u, v = np.meshgrid(np.linspace(-1, 1, rows + 1), np.linspace(-1, 1, columns + 1), indexing="ij")
    half_bar = (HEAD_BAR + (FOOT_BAR - HEAD_BAR) * (u + 1) / 2) / 2
    y = v * half_bar * (1 - 0.12 * (1 - u**2))
    z = 0.45 + 0.42 * u**2 + 0.22 * v**2 * (1 - 0.8 * u**4) + 0.03 * np.sin(9 * u) * (1 - v**2) * np.abs(u) ** 3
    points = np.stack([u * HALF_LENGTH, y, z], -1).reshape(-1, 3)
    corner = np.arange(len(points)).reshape(rows + 1, columns + 1)
    a, b, c, d = (corner[:-1, :-1].ravel(), corner[1:, :-1].ravel(), corner[1:, 1:].ravel(), corner[:-1, 1:].ravel())
    return points, np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)]), corner


def make_saddle(rows=60, columns=36):
    """Return a :class:`Shape` with invented forces of a plausible size."""
    points, triangles, corner = make_cloth(rows, columns)
    count = len(points)
    top = points[corner[0, 0], 2]
    ends = np.array(
        [
            [-HALF_LENGTH - APEX_REACH, 0, top + 0.28],
            [HALF_LENGTH + APEX_REACH, 0, top + 0.28],
            [-TREE_REACH, 0, top + 0.72],
            [TREE_REACH, 0, top + 0.72],
        ]
    )
    head_apex, foot_apex, head_tree, foot_tree = range(count, count + 4)
    left, right = corner[:, -1], corner[:, 0]
    pieces = [
        (CellTag.LEFT_SIDE_CORD, np.stack([left[:-1], left[1:]], 1), np.linspace(330, 268, rows)),
        (CellTag.RIGHT_SIDE_CORD, np.stack([right[:-1], right[1:]], 1), np.linspace(331, 269, rows)),
        (CellTag.HEAD_LEFT_LEG, [[left[0], head_apex]], [402.0]),
        (CellTag.HEAD_RIGHT_LEG, [[right[0], head_apex]], [401.0]),
        (CellTag.FOOT_LEFT_LEG, [[left[-1], foot_apex]], [351.0]),
        (CellTag.FOOT_RIGHT_LEG, [[right[-1], foot_apex]], [352.0]),
        (CellTag.HEAD_LINE, [[head_apex, head_tree]], [705.0]),
        (CellTag.FOOT_LINE, [[foot_apex, foot_tree]], [640.0]),
        (CellTag.HEAD_BAR, [[left[0], right[0]]], [-441.0]),
        (CellTag.FOOT_BAR, [[left[-1], right[-1]]], [-287.0]),
    ]
    middle = points[triangles].mean(1)
    across = np.abs(middle[:, 1]) / 0.4
    stress = np.clip(900 * np.abs(middle[:, 0]) ** 2 * (1.1 - across) + 250 * across, 0, None)
    state = np.where(np.abs(middle[:, 0]) > 0.72, 1, 2)
    state[(np.abs(middle[:, 0]) > 0.8) & (across > 0.55)] = 0
    stress[state == 0] = 0.0
    direction = np.tile([0.8, 0.6, 0.0], (len(triangles), 1))
    flat = np.vstack([points[:, :2] * [1.05, 1.2] + [1.05, 0.0], np.zeros((4, 2))])
    return Shape(
        np.vstack([points, ends]),
        flat,
        triangles,
        stress,
        np.where(state == 2, 0.3 * stress, 0.0),
        direction,
        state,
        stress / 9000.0,
        stress / 7000.0,
        np.concatenate([np.asarray(piece) for _, piece, _ in pieces]),
        np.concatenate([np.full(len(force), int(part)) for part, _, force in pieces]),
        np.concatenate([np.asarray(force, float) for _, _, force in pieces]),
    )


PEOPLE = [  # part, ends of its axis on the left and radii; what lies on the left lies on the right too
    (CellTag.HEAD, (-0.80, 0.0, 0.75), (-0.80, 0.0, 0.75), 0.08, 0.08),
    (CellTag.NECK, (-0.67, 0.0, 0.68), (-0.80, 0.0, 0.75), 0.06, 0.06),
    (CellTag.SHOULDERS, (-0.60, 0.16, 0.68), (-0.60, -0.16, 0.68), 0.05, 0.05),
    (CellTag.CHEST, (-0.45, 0.05, 0.62), (-0.45, -0.05, 0.62), 0.09, 0.09),
    (CellTag.WAIST, (-0.28, 0.06, 0.58), (-0.28, -0.06, 0.58), 0.08, 0.08),
    (CellTag.HIPS, (-0.12, 0.08, 0.56), (-0.12, -0.08, 0.56), 0.09, 0.09),
    (CellTag.LEFT_RIB, (-0.60, 0.16, 0.68), (-0.45, 0.05, 0.62), 0.05, 0.09),
    (CellTag.LEFT_FLANK, (-0.45, 0.05, 0.62), (-0.28, 0.06, 0.58), 0.09, 0.08),
    (CellTag.LEFT_LOIN, (-0.28, 0.06, 0.58), (-0.12, 0.08, 0.56), 0.08, 0.09),
    (CellTag.LEFT_THIGH, (-0.12, 0.08, 0.56), (0.28, 0.06, 0.62), 0.09, 0.05),
    (CellTag.LEFT_SHANK, (0.28, 0.06, 0.62), (0.68, 0.05, 0.74), 0.05, 0.04),
    (CellTag.LEFT_UPPER_ARM, (-0.60, 0.16, 0.68), (-0.29, 0.18, 0.64), 0.04, 0.04),
    (CellTag.LEFT_FOREARM, (-0.29, 0.18, 0.64), (0.10, 0.16, 0.66), 0.036, 0.03),
    (CellTag.LEFT_KNEE_PAD, (0.28, 0.06, 0.62), (0.28, 0.06, 0.62), 0.09, 0.09),
]


def make_occupant(pressure, left_out=()):
    """Return an invented person for the trough of :func:`make_cloth`."""
    rows = [(part, (a, b), (first, second)) for part, a, b, first, second in PEOPLE]
    for part, ends, radii in rows[6:]:
        mirrored = tuple((x, -y, z) for x, y, z in ends)
        rows.append((CellTag[part.name.replace("LEFT", "RIGHT")], mirrored, radii))
    kept = [row for row in rows if row[0] not in left_out]
    part, axes, radii = zip(*kept, strict=True)
    return Occupant(np.array(axes), np.array(radii), np.array([int(one) for one in part]), pressure)


def write_result(folder, shape, load, steps=()):
    """Write a result folder with invented checks and hot spots around a :class:`Shape`."""
    spots = []
    for number, triangle in enumerate((200, 1500, 3000), 1):
        along, left = shape.flat[shape.triangles[triangle]].mean(axis=0)
        spots.append(
            HotSpot(
                place=make_sentence("{along:length} from the head bar", along=float(along)),
                flat=(float(along), float(left)),
                loaded=tuple(shape.points[shape.triangles[triangle]].mean(axis=0).tolist()),
                triangle=triangle,
                thread=("warp", "weft")[number % 2],
                line_stress=700.0 / number,
                share=0.11 / number,
                off_warp=0.0,
            )
        )
    rows = (("head bar", 2.6), ("head bar", 4.0), ("head bar", None), ("foot bar", 3.1), ("head line", 6.0))
    record = make_record(
        ResultRecord,
        design=DesignHeader("Saddle", "", "saddle.toml", LoadCase(load), 1.0),
        report=ReportHeader("both"),
        checks=tuple(make_record(CheckRecord, part=part, found=factor, asked=1.0) for part, factor in rows),
        hot_spots=tuple(spots),
        load_steps=tuple(LoadStepRecord(share, f"load_step_{place}.vtu") for place, (share, _) in enumerate(steps)),
    )
    for place, (_, step) in enumerate(steps):
        write_shape(step, folder / f"load_step_{place}.vtu")
    write_shape(shape, folder / "shape.vtu")
    (folder / "result.json").write_text(json.dumps(encode_result(record)), encoding="utf-8")
    (folder / "design.toml").write_text("# invented\n", encoding="utf-8")
    return folder
