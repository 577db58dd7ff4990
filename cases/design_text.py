"""From a design file on disk to the values TOML sees in it."""

from pathlib import Path

from ..materials import TomlError, TomlFile, read_toml
from .design_issue import DesignError, DesignIssue, find_near


def read_text(path: Path, *, advise: bool = True) -> TomlFile:
    """Read a design file, or another file of a user.

    Parameters
    ----------
    path : Path
        The file.
    advise : bool
        Whether to explain how to write a design where there is none.

    Returns
    -------
    TomlFile
        Its text and values.

    Raises
    ------
    DesignError
        If it is missing, a folder, unreadable, empty, too large, not UTF-8 or not TOML.

    Examples
    --------
    >>> read_text(Path("nowhere.toml"))
    Traceback (most recent call last):
    tautlay.cases.design_issue.DesignError: nowhere.toml: there is no such file. Write one: `tautlay new nowhere.toml`.
    """
    advice = {
        "missing": f" Write one: `tautlay new {path}`.",
        "empty": f" Write one: `tautlay new {path} --force`.",
    }
    try:
        return read_toml(path)
    except TomlError as error:
        sentence = str(error)
        if error.lacks == "missing":
            beside = [each.stem for each in path.parent.glob("*.toml")] if path.parent.is_dir() else []
            near = find_near(path.stem, beside)  # without the ending, which makes any two names alike
            sentence += f" Did you mean {near}.toml?" if near else ""
        if error.lacks and advise:
            sentence += advice[error.lacks]
        raise DesignError([DesignIssue(str(path), sentence, error.line)]) from error
