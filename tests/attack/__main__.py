"""The long form of the attack: ``python -m tests.attack --help``. The same seed tries the same."""

import argparse
import sys
import time

from ._attacks import ATTACKS, count_outcomes

FEW = {"sane designs": 30, "names": 12, "signals": 20, "full disks": 20, "compiled loops": 20}


def main():
    """Attack, and print a table of what was tried and what held."""
    parser = argparse.ArgumentParser(prog="python -m tests.attack", description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=1000, help="mutations of each kind of file")
    parser.add_argument("--only", action="append", choices=list(ATTACKS), help="may be repeated")
    parser.add_argument("--few", type=int, help=f"of what is slow; default: {FEW}")
    asked = parser.parse_args()
    print(f"seed {asked.seed}\n{'attack':<24}{'tried':>7}{'held':>7}{'broken':>8}{'time':>8}  outcomes", flush=True)  # noqa: T201
    failed = False
    for name in asked.only or ATTACKS:
        begun, count = time.monotonic(), (asked.few or FEW[name]) if name in FEW else asked.count
        counted, told = count_outcomes(ATTACKS[name](asked.seed, count))
        broken = told["broken"]
        total, words = sum(counted.values()), ", ".join(f"{word} {n}" for word, n in sorted(counted.items()))
        row = f"{name:<24}{total:>7}{total - len(broken):>7}{len(broken):>8}{time.monotonic() - begun:>6.0f} s  {words}"
        print(row, flush=True)  # noqa: T201
        for number, why in (*broken[:5], *told["no shape"]):
            print(f"    {number}: {why[:300]}", flush=True)  # noqa: T201
        failed = failed or bool(broken)
    sys.exit(failed)


if __name__ == "__main__":
    main()
