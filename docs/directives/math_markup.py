"""Formulas as MathML, which browsers draw by themselves: nothing has to be fetched."""

from typing import Any

from docutils import nodes
from docutils.utils.math.latex2mathml import tex2mathml


def show_inline(writer: Any, node: nodes.math) -> None:
    """Write a formula inside a line."""
    writer.body.append(tex2mathml(node.astext()))
    raise nodes.SkipNode


def show_block(writer: Any, node: nodes.math_block) -> None:
    """Write a formula on lines of its own."""
    writer.body.append(f'<div class="math">{tex2mathml(node.astext(), as_block=True)}</div>')
    raise nodes.SkipNode
