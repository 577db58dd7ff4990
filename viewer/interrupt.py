"""Signals while a window is open: its loop runs outside Python, which would hear them only once it is closed."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from threading import current_thread, main_thread
from types import FrameType
from typing import Any

_SIGNALS = ("SIGINT", "SIGTERM", "SIGHUP")
_PAUSE = 200  # ms between two looks
_ALWAYS = 10**9


@contextmanager
def close_on_signal(plotter: Any) -> Iterator[None]:  # noqa: ANN401  (pyvista has no types)
    """Close the window of a plotter when the program gets a signal, then let the signal do its usual work.

    Parameters
    ----------
    plotter : pyvista Plotter
        Not yet shown.
    """
    if current_thread() is not main_thread():
        yield
        return
    received: list[int] = []

    def stop(number: int, frame: FrameType | None) -> None:  # noqa: ARG001
        received.append(number)
        plotter.iren.terminate_app()

    numbers = [getattr(signal, name) for name in _SIGNALS if hasattr(signal, name)]
    heard = [number for number in numbers if signal.getsignal(number) is not signal.SIG_IGN]
    before = {number: signal.signal(number, stop) for number in heard}
    plotter.add_timer_event(max_steps=_ALWAYS, duration=_PAUSE, callback=lambda _: None)  # Python runs now and then
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
    for number in received[:1]:
        signal.raise_signal(number)
