"""What the tests of the lessons do with a panel: move it as a hand would, read it, find a curve of its picture."""


def marked(trace):
    """Return the points of a line that are drawn with a mark."""
    return [(x, y) for x, y, size in zip(trace.x, trace.y, trace.marker.size, strict=True) if size]


def set_to(panel, **values):
    """Move controls by name, see that nothing was refused, and return the panel."""
    for name, value in values.items():
        panel.set(name, value)
    assert panel.status == ""
    return panel


def readout(panel, label):
    """Return one of the values above the picture."""
    return dict(panel.parts.readouts(panel.result, panel.settings))[label]


def trace(figure, begins):
    """Return the first curve whose name begins so."""
    return next(t for t in figure.data if (t.name or "").startswith(begins))
