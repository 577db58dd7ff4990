"""What is told in one line while a study is at work."""

from collections.abc import Callable

LineCallback = Callable[[str], None]
