"""What is written on a sheet, and where."""

from matplotlib.text import Text


def list_words(figure):
    """Return what is written on a sheet with its box in dots."""
    renderer = figure.canvas.get_renderer()
    figure.draw(renderer)
    hidden = {
        tick for axes in figure.axes if not axes.axison for tick in (*axes.get_xticklabels(), *axes.get_yticklabels())
    }
    for text in figure.findobj(Text):
        if text.get_text().strip() and text.get_visible() and text not in hidden:
            yield text.get_text(), Text.get_window_extent(text, renderer)
