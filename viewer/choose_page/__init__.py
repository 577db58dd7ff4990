"""The page of the lightest design: start and answer over each other, and why nothing lighter."""

from .write import compose_choose_page, write_choose_page

__all__ = ["compose_choose_page", "write_choose_page"]
