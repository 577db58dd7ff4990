"""A design with its measures written on it, drawn when the documentation is built."""

from importlib.resources import files
from pathlib import Path

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

from tautlay.cases import read_design
from tautlay.viewer import draw_measures


class MeasuresDirective(SphinxDirective):
    """``measures-drawing``: the starter of ``tautlay new``."""

    def run(self) -> list[nodes.Node]:
        """Return the picture."""
        name = "measures.svg"
        place = Path(self.env.srcdir) / "_build" / "work" / name
        place.parent.mkdir(parents=True, exist_ok=True)
        draw_measures(read_design(files("tautlay.cases") / "starter.toml"), place)
        picture = nodes.image(
            uri=f"/_build/work/{name}", alt="The flat body from above and the hang, with their measures"
        )
        return [picture]
