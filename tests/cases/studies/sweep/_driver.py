"""Runs a sweep in a process of its own and writes down every design once it is told as done."""

import os
import sys
from pathlib import Path

from tautlay.cases import read_sweep, run_sweep

if __name__ == "__main__":
    sweep, store, told = map(Path, sys.argv[1:4])
    with told.open("a", buffering=1) as log:

        def tell(news):
            log.write(f"{news.done} {news.last}\n")
            os.fsync(log.fileno())

        run_sweep(read_sweep(sweep), store, processes=2, progress=tell)
