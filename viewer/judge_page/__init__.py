"""The page of a verdict: one self-contained file."""

from .write import compose_judge_page, write_judge_page

__all__ = ["compose_judge_page", "write_judge_page"]
