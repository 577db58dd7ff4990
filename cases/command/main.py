"""Entry point of the command ``tautlay``: sets signals and streams before anything heavy is loaded."""

import os
import signal
import sys
import threading
from contextlib import suppress
from types import FrameType
from typing import Any

from .exit_codes import CRASHED, STOPPED

STOPS = ("SIGINT", "SIGTERM", "SIGHUP")
_PAUSE = 0.05  # s


def main() -> None:
    """Run the command line; end with a message and 128 + the signal when it is stopped, or 4 for an error of its own.

    A library may wrap the interrupt in an error of its own, so what counts is that the signal came. Where nothing can
    be raised, as while an object is thrown away, the interrupt is lost and the signal is sent once more.
    """
    received: list[int] = []
    ended = threading.Event()

    def stop(number: int, frame: FrameType | None) -> None:  # noqa: ARG001
        received.append(number)
        sys.excepthook = _print_nothing  # compiled libraries print what stops their loading
        sys.unraisablehook = lambda lost: _call_again(number, ended) if lost.exc_type is KeyboardInterrupt else None
        raise KeyboardInterrupt

    _listen(stop)
    try:
        from .cli import main as run

        run()
    except BaseException as error:
        if not received and isinstance(error, SystemExit):
            raise
        if not received:
            from .crash import report_crash

            report_crash(error)
            sys.exit(CRASHED)
        if not isinstance(error, SystemExit):  # then the command has reported it already
            sys.stderr.write(f"{STOPPED}\n")
    finally:
        ended.set()
        for name in STOPS:
            if hasattr(signal, name) and signal.getsignal(getattr(signal, name)) is stop:
                signal.signal(getattr(signal, name), signal.SIG_DFL)
    if received:
        sys.exit(128 + received[0])


def _call_again(number: int, ended: threading.Event) -> None:
    """Send a signal to this program after a moment, unless it has come to its end by then."""

    def call() -> None:
        if not ended.wait(_PAUSE):
            os.kill(os.getpid(), number)

    threading.Thread(target=call, daemon=True).start()


def _listen(stop: Any) -> None:  # noqa: ANN401
    """Let signals that stop a program unwind it, and streams show what they cannot encode by its code."""
    for name in STOPS:
        if hasattr(signal, name) and signal.getsignal(getattr(signal, name)) is not signal.SIG_IGN:
            signal.signal(getattr(signal, name), stop)
    if hasattr(signal, "SIGPIPE"):
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)  # `tautlay materials | head` ends as quietly as other tools
    for stream in (sys.stdout, sys.stderr):
        with suppress(AttributeError):  # a stream that is closed or not of text
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]  # a stream without it is suppressed


def _print_nothing(*error: object) -> None:
    """Take the place of what prints a traceback."""
