"""A picture that keeps to the width it is given.

Plotly measures a live figure before JupyterLab has laid the page out, and afterwards looks again only when the
*window* changes. This small widget stands in the picture's box and tells plotly whenever the box changes.
"""

import anywidget


class Fit(anywidget.AnyWidget):
    """An invisible widget that announces every change of its surroundings' width."""

    _esm = """
    export default {
        render({ el }) {
            let width = 0;
            const watch = new ResizeObserver(() => {
                if (el.offsetWidth === width) return;
                width = el.offsetWidth;
                window.dispatchEvent(new Event("resize"));
            });
            watch.observe(el);
            return () => watch.disconnect();
        },
    };
    """
