"""A picture that keeps to the width it is given, and is missed where it does not come.

Plotly measures a live figure before JupyterLab has laid the page out, and afterwards looks again only when the
*window* changes. This small widget stands in the picture's box and tells plotly whenever the box changes.

On a slow or busy machine a page may give up loading a live figure after two seconds: its axes stay empty while the
readouts move. Run once more, the cell brings it. So where the box has no picture after a while, that is said in it.
"""

import anywidget
import traitlets

from offgrid_core.quantities import say


class Fit(anywidget.AnyWidget):
    """An invisible widget that announces every change of its surroundings' width, and a picture that does not come.

    Attributes
    ----------
    missing
        What is said then.
    patience_s
        How long the picture may take.
    """

    missing = traitlets.Unicode().tag(sync=True)
    patience_s = traitlets.Float(15.0).tag(sync=True)

    _esm = """
    export default {
        render({ model, el }) {
            let width = 0;
            const watch = new ResizeObserver(() => {
                if (el.offsetWidth === width) return;
                width = el.offsetWidth;
                window.dispatchEvent(new Event("resize"));
            });
            watch.observe(el);
            const began = Date.now();
            const look = setInterval(() => {
                const drawn = el.parentElement?.querySelector(".js-plotly-plot")?.data?.length > 0;
                const late = Date.now() - began > 1000 * model.get("patience_s");
                if (late && !drawn) el.setAttribute("role", "alert");
                el.textContent = late && !drawn ? model.get("missing") : "";
                if (drawn) clearInterval(look);
            }, 1000);
            return () => { watch.disconnect(); clearInterval(look); };
        },
    };
    """

    def __init__(self, **traits: float) -> None:
        super().__init__(missing=say("panel.missing"), **traits)
