"""Two workers of a dask cluster on this machine give the rows that processes give."""

import contextlib
import socket
import subprocess
import sys
import threading

import pytest

from tautlay.cases import read_sweep, run_sweep
from tautlay.cases.studies.sweep import worker_pool as workers
from tautlay.cases.studies.sweep.worker_pool import ClusterPool, SchedulerError

from ._quick import COUNT, read_results, write_sweep

pytest.importorskip("distributed", reason="the extra `cluster` is not installed")


def find_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.mark.slow
@pytest.mark.filterwarnings("default")  # other people's threads and loops
def test_two_workers_on_loopback_give_the_same_rows(tmp_path):
    address = f"tcp://127.0.0.1:{find_port()}"
    dask = [sys.executable, "-m", "dask"]
    port = address.rpartition(":")[2]
    scheduler = subprocess.Popen([*dask, "scheduler", "--host", "127.0.0.1", "--port", port, "--no-dashboard"])
    pool = subprocess.Popen(
        [*dask, "worker", address, "--nworkers", "2", "--nthreads", "1", "--no-dashboard"], cwd=tmp_path
    )
    try:
        wait_for_workers(address, 2)
        sweep = read_sweep(write_sweep(tmp_path))
        far = run_sweep(sweep, tmp_path / "far.sqlite", scheduler=address)
        near = run_sweep(sweep, tmp_path / "near.sqlite", processes=2)
    finally:
        pool.terminate()
        scheduler.terminate()
        pool.wait()
        scheduler.wait()
    assert far == near
    assert len(far) == COUNT
    assert read_results(tmp_path / "far.sqlite") == read_results(tmp_path / "near.sqlite")


def wait_for_workers(address, count):
    from distributed import Client

    with Client(address, timeout=30) as client:
        client.wait_for_workers(count, timeout=60)


@pytest.mark.slow
def test_nobody_at_the_address_is_told_in_a_sentence():
    with pytest.raises(SchedulerError, match="does not answer"):
        ClusterPool(f"tcp://127.0.0.1:{find_port()}")


@pytest.mark.parametrize("answer", [b"", b"HTTP/1.1 400 Bad Request\r\n\r\nno scheduler here"], ids=["silent", "web"])
@pytest.mark.filterwarnings("default")  # of a client that gives up
def test_a_server_that_is_no_scheduler_is_told_in_a_sentence(monkeypatch, answer):
    monkeypatch.setattr(workers, "PATIENCE", 1.0)
    with socket.socket() as server:
        server.bind(("127.0.0.1", 0))
        server.listen()

        def reply():
            with contextlib.suppress(OSError):
                while True:
                    other, _ = server.accept()
                    kept.append(other)
                    if answer:
                        other.sendall(answer)
                        other.close()

        kept = []
        threading.Thread(target=reply, daemon=True).start()
        with pytest.raises(SchedulerError, match="does not answer"):
            ClusterPool(f"tcp://127.0.0.1:{server.getsockname()[1]}")
