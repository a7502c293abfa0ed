"""The check at the front door: is everything here that the lessons need, and if not, what is missing, in one line."""

import sys
from html import escape
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import ipywidgets as widgets

#: What live panels need in the *same* environment that runs the lesson.
NEEDED = ("jupyterlab", "ipywidgets", "anywidget", "plotly", "numpy", "pandas", "pydantic", "pvlib")
#: Parts of JupyterLab that draw sliders and pictures; they live beside the environment's packages.
EXTENSIONS = ("@jupyter-widgets/jupyterlab-manager", "anywidget", "jupyterlab-plotly")


def missing(prefix: str = sys.prefix) -> list[str]:
    """Return what is missing, each as a sentence with what to do; empty when all is there."""
    found = []
    for name in NEEDED:
        try:
            version(name)
        except PackageNotFoundError:
            found.append(f"The package {name} is not in this lesson's environment.")
    drawn = Path(prefix) / "share" / "jupyter" / "labextensions"
    found += [
        f"JupyterLab's part {name} is not beside this lesson's Python ({prefix}): sliders or pictures would stay blank."
        for name in EXTENSIONS
        if not (drawn / name).exists()
    ]
    return found


def front_door() -> widgets.HTML:
    """Show whether the lessons can run here."""
    trouble = missing()
    if trouble:
        lines = "".join(f"<li>{escape(t)}</li>" for t in trouble)
        return widgets.HTML(
            f"<p><b>Not ready.</b> Start the lessons with the README's first command.</p><ul>{lines}</ul>"
        )
    told = ", ".join(f"{n} {version(n)}" for n in ("jupyterlab", "ipywidgets", "plotly"))
    return widgets.HTML(f"<p><b>Ready.</b> {escape(told)}, Python {sys.version_info[0]}.{sys.version_info[1]}.</p>")
