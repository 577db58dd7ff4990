"""The long form of the attack: ``python -m tests.attack --help``. The same seed tries the same."""

import argparse
import statistics
import sys

from ._attacks import ATTACKS
from ._running import count_outcomes

FEW = {
    "sane designs": 30, "files cut off": 20, "names": 12, "signals": 20, "full disks": 20, "surroundings": 3,
    "compiled loops": 40,
}  # fmt: skip


def main():
    """Attack, and print a table of what was tried and what held."""
    parser = argparse.ArgumentParser(prog="python -m tests.attack", description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0, help="number of the first; those before it are not tried")
    parser.add_argument("--count", type=int, default=1000, help="mutations of each kind of file")
    parser.add_argument("--only", action="append", choices=list(ATTACKS), help="may be repeated")
    parser.add_argument("--few", type=int, help=f"of what is slow; default: {FEW}")
    asked = parser.parse_args()
    head = f"{'attack':<22}{'tried':>7}{'held':>7}{'broken':>7}{'median':>8}{'slowest':>17}  outcomes"
    print(f"seed {asked.seed}; times of computing\n{head}", flush=True)  # noqa: T201
    failed = False
    for name in asked.only or ATTACKS:
        count = (asked.few or FEW[name]) if name in FEW else asked.count
        numbers = range(asked.first, asked.first + count)
        counted, told, times = count_outcomes(ATTACKS[name](asked.seed, numbers))
        broken, total, (most, slowest) = told["broken"], len(times), max(times, key=lambda took: took[0])
        middle = statistics.median(took for took, _ in times)
        words = ", ".join(f"{word} {n}" for word, n in sorted(counted.items()))
        row = (
            f"{name:<22}{total:>7}{total - len(broken):>7}{len(broken):>7}{middle:>6.2f} s{most:>6.1f} s ({slowest:>5})"
        )
        print(f"{row}  {words}", flush=True)  # noqa: T201
        for number, why in (*broken[:5], *told["no shape"]):
            print(f"    {number}: {why[:300]}", flush=True)  # noqa: T201
        failed = failed or bool(broken)
    sys.exit(failed)


if __name__ == "__main__":
    main()
