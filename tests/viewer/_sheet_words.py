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


def read_sheet(figure):
    """Return the words of a sheet, none of which is cut off by its edge or covers another."""
    words = list(list_words(figure))
    width, height = figure.canvas.get_width_height()
    assert len(words) > 20
    for word, box in words:
        assert box.x0 >= 0, word
        assert box.y0 >= 0, word
        assert box.x1 <= width, word
        assert box.y1 <= height, word
    pairs = [(a, b) for row, (a, first) in enumerate(words) for b, second in words[:row] if first.overlaps(second)]
    assert pairs == []
    return [word for word, _ in words]
