"""The page to sew from: what to buy, what to cut, how to sew."""

from .write import write_pattern_page

__all__ = ["write_pattern_page"]
