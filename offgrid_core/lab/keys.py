"""Keys that belong to a control stay with it.

With the focus on a menu, a button or a choice, JupyterLab takes letters and arrows for its own commands: an arrow goes
to another cell, and ``b`` inserts one. JupyterLab leaves alone what carries a certain mark. This invisible widget puts
the mark on every control of a lesson as soon as it gets the focus; one of them on a page is enough.
"""

import anywidget


class Keys(anywidget.AnyWidget):
    """An invisible widget that keeps JupyterLab's shortcuts away from the controls of lessons."""

    _esm = """
    const ours = [".offgrid-card", ".offgrid-panel", ".offgrid-form"]
        .map(where => `${where} :is(select, input, button, [role=slider])`).join();
    function mark(event) {
        if (event.target.matches?.(ours)) event.target.setAttribute("data-lm-suppress-shortcuts", "true");
    }
    export default {
        initialize() { document.addEventListener("focusin", mark); },
        render() {},
    };
    """
