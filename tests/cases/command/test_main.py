"""How the installed command ends when it is stopped, cut off or cannot print a letter: run as a process."""

import os
import signal
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

from ..._start import HEAR, START

LARCH = Path(str(files("tautlay.cases"))) / "larch_ridge.toml"
STOPPED = "Stopped; no file was left half-written.\n"

# A stand-in module that is met while the command loads, and stops the program as a user might at that moment.
STOPPING = {
    "while click loads": ("click", "os.kill(os.getpid(), signal.{name})"),
    "while a library loads": ("pydantic", "os.kill(os.getpid(), signal.{name})"),
    "wrapped by a library": (
        "pydantic",
        "try:\n    os.kill(os.getpid(), signal.{name}); time.sleep(9)\n"
        "except KeyboardInterrupt:\n    raise RuntimeError('cannot load twice')",
    ),
    "where nothing can be raised": (
        "pydantic",
        "class Last:\n    def __del__(self):\n        os.kill(os.getpid(), signal.{name}); time.sleep(0.2)\n"
        "Last()\ntime.sleep(5)\nraise SystemExit(0)",
    ),
    "printed and wrapped by a compiled library": (
        "pydantic",
        "try:\n    os.kill(os.getpid(), signal.{name}); time.sleep(9)\n"
        "except KeyboardInterrupt as error:\n    import sys; sys.excepthook(type(error), error, None)\n"
        "    raise ImportError('array failed to import')",
    ),
}


def start(*arguments, script=START, **environment):
    return subprocess.run(
        [sys.executable, "-c", HEAR + script, *arguments],
        capture_output=True,
        check=False,
        env=os.environ | environment,
        timeout=120,
    )


@pytest.mark.parametrize("moment", STOPPING)
@pytest.mark.parametrize(("name", "code"), [("SIGINT", 130), ("SIGTERM", 143), ("SIGHUP", 129)])
def test_stopped_while_loading_ends_in_one_sentence(tmp_path, moment, name, code):
    module, text = STOPPING[moment]
    (tmp_path / f"{module}.py").write_text(f"import os, signal, time\n{text.format(name=name)}\n", encoding="utf-8")
    outcome = start("check", LARCH, PYTHONPATH=str(tmp_path))
    assert (outcome.returncode, outcome.stdout, outcome.stderr.decode()) == (code, b"", STOPPED)


@pytest.mark.parametrize(
    ("name", "code"),
    [("SIGINT", 130), *(pytest.param(*pair, marks=pytest.mark.slow) for pair in (("SIGTERM", 143), ("SIGHUP", 129)))],
)
def test_stopped_while_saving_leaves_nothing(tmp_path, name, code):
    script = (
        "import os, signal\nfrom matplotlib.figure import Figure\n"
        f"Figure.savefig = lambda *a, **k: os.kill(os.getpid(), signal.{name})\n{START}"
    )
    outcome = start("solve", LARCH, "--mesh-size", "15 cm", "-o", tmp_path / "out", script=script)
    assert (outcome.returncode, outcome.stdout, outcome.stderr.decode()) == (code, b"", STOPPED)
    assert list(tmp_path.iterdir()) == []


def test_signal_that_was_ignored_stays_ignored():
    script = f"import signal\nsignal.signal(signal.SIGHUP, signal.SIG_IGN)\n{START}"
    script = script.replace("main()", "import os, click\nclick.echo = lambda *a, **k: os.kill(os.getpid(), 1)\nmain()")
    assert start("check", LARCH, script=script).returncode == 0


def test_error_of_the_program_has_a_code_a_sentence_and_a_log_file(tmp_path):
    (tmp_path / "pydantic.py").write_text("raise RuntimeError('odd')\n", encoding="utf-8")
    outcome = start("weigh", LARCH, "--json", "\x1b[31m", PYTHONPATH=str(tmp_path), TMPDIR=str(tmp_path))
    assert (outcome.returncode, outcome.stdout) == (4, b"")
    (log,) = tmp_path.glob("tautlay-error-*.log")
    assert outcome.stderr.decode() == (
        "tautlay failed by an error of its own, RuntimeError. Please report it where you got tautlay from, with your "
        f"design and {log}.\n"
    )
    found = log.read_text(encoding="utf-8")
    assert found.endswith("RuntimeError: odd\n")
    assert "Traceback" in found
    assert "'\\x1b[31m'" in found


def test_error_of_the_program_is_shown_where_no_log_can_be_written(tmp_path):
    (tmp_path / "pydantic.py").write_text("raise RuntimeError('odd')\n", encoding="utf-8")
    script = (
        "import tempfile\ndef refuse(**_): raise OSError(28, 'No space left on device')\ntempfile.mkstemp = refuse\n"
    )
    outcome = start("check", LARCH, PYTHONPATH=str(tmp_path), script=script + START)
    assert outcome.returncode == 4
    assert b"RuntimeError: odd" in outcome.stderr
    assert b"No log file can be written: No space left on device." in outcome.stderr


@pytest.mark.parametrize(
    "variables", [{"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}]
)
def test_name_that_cannot_be_encoded_is_shown_by_its_code(tmp_path, variables):
    """A table; click.echo writes UTF-8 of its own accord where a stream is said to be ASCII."""
    path = tmp_path / "own.toml"
    path.write_text('[cord."L\u00e4rche"]\nbase = "12-strand UHMWPE 2 mm"\n', encoding="utf-8")
    outcome = start("materials", "cord", "--file", path, "--find", "rche", **variables)
    assert (outcome.returncode, outcome.stderr) == (0, b"")
    assert b"L\\xe4rche" in outcome.stdout


def test_file_name_that_is_no_text_is_shown_by_its_code(tmp_path):
    outcome = start("check", os.fsencode(tmp_path) + b"/\xff.toml", PYTHONIOENCODING="utf-8")
    assert outcome.returncode == 2
    assert b"Traceback" not in outcome.stderr
    assert b".toml: there is no such file" in outcome.stderr


def test_reader_that_leaves_ends_the_command_quietly():
    process = subprocess.Popen(
        [sys.executable, "-c", START, "materials"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    process.stdout.close()
    assert process.stderr.read() == b""
    process.stderr.close()
    assert process.wait(60) == -signal.SIGPIPE
