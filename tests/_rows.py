"""Invented designs of a sweep."""

from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow


def make_row(number, choices=None, failed=(), **figures):
    """Return a solved design; figures as keywords."""
    return SweepRow(
        number, choices or {}, RowStatus.SOLVED, figures=figures, governs="cord breaks", failed=tuple(failed)
    )


def make_grid():
    """Return twelve invented designs of two cloths, two cords and three depths, one refused and one that fails."""
    rows, number = [], 0
    for cloth, mass, strength in (("ripstop nylon 22 g/m2", 0.09, 1.1), ("taffeta, 60 g/m2", 0.18, 1.4)):
        for cord, extra in (("thin", 0.0), ("thick", 0.02)):
            for depth in (12, 16, 20):
                number += 1
                choices = {"cloth": cloth, "cord": cord, "body.arc.depth": f"{depth} cm"}
                if (cord, depth) == ("thick", 20) and mass < 0.1:
                    rows.append(SweepRow(number, choices, RowStatus.REFUSED, "the arcs meet."))
                    continue
                margin = strength + 5 * extra - 0.02 * (depth - 12)
                failed = ("cord breaks",) if margin < 1 else ()
                figures = {"packed_kg": mass + extra - 0.001 * depth, "least_margin": margin, "sag_m": depth / 25}
                rows.append(make_row(number, choices, failed, **figures))
    return rows
