"""The page of a trial at home: one self-contained file, one sheet of paper."""

from .write import compose_trial_page, write_trial_page

__all__ = ["compose_trial_page", "write_trial_page"]
