"""A JupyterLab of our own on this machine, and lessons opened in it by a real Chromium that can reach nothing else."""

import json
import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Locator, Page, Playwright

ROOT = Path(__file__).resolve().parents[2]
HERE = "127.0.0.1"
#: Ample on a busy two-core machine; a healthy wait ends in a second or two.
PATIENCE_S = 90
CHROMIUM_OPTIONS = (
    "--no-sandbox",
    "--headless=new",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    f"--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE {HERE}",  # whatever asks for the net gets none
)

_READY = """() => {
    const panel = window.jupyterapp?.shell.currentWidget;
    const kernel = panel?.sessionContext?.session?.kernel;
    return panel?.content?.model?.cells.length > 0 && kernel?.status === 'idle'
        && kernel.connectionStatus === 'connected';
}"""
_RUN_ALL = """async () => {
    await window.jupyterapp.commands.execute('notebook:run-all-cells');
    await window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.info;
}"""
_SAVE = "() => window.jupyterapp.commands.execute('docmanager:save')"
_SHUT_DOWN = "() => window.jupyterapp.shell.currentWidget.sessionContext.shutdown()"
_ERRORS = """() => [...window.jupyterapp.shell.currentWidget.content.model.cells]
    .flatMap(cell => cell.type === 'code' ? cell.sharedModel.getOutputs() : [])
    .filter(output => output.output_type === 'error')
    .map(output => `${output.ename}: ${output.evalue}`)"""
_WIDGETS_SHOWN = """() => {
    const view = 'application/vnd.jupyter.widget-view+json';
    const wanted = [...window.jupyterapp.shell.currentWidget.content.model.cells]
        .flatMap(cell => cell.type === 'code' ? cell.sharedModel.getOutputs() : [])
        .filter(output => output.data?.[view]).length;
    const outputs = [...document.querySelectorAll('.jp-OutputArea-output')];
    return outputs.filter(o => o.matches('.jupyter-widgets') || o.querySelector('.jupyter-widgets')).length >= wanted;
}"""
_LOST = "widget model not found"
# Plotly marks its element when it has laid out; a trace has a shape on the page when its marks have a size. Two
# frames later the browser has painted them.
_FIGURES = ".js-plotly-plot"
#: The figure is looked up anew each time: JupyterLab may have put another element in its place meanwhile.
_PAINTED = """([figures, index]) => {
    const gd = document.querySelectorAll(figures)[index];
    const marks = gd?.querySelectorAll('.overplot path, .overplot use, .overplot image') ?? [];
    const drawn = [...marks].some(m => { const r = m.getBoundingClientRect(); return r.width + r.height > 0; });
    return drawn && new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(true))));
}"""
_TRACES = """gd => gd._fullData.map(trace => ({
    name: trace.name ?? '', x: Array.from(trace.x ?? []), y: Array.from(trace.y ?? []),
}))"""
_SHAPES = "gd => [...gd.querySelectorAll('.overplot path')].map(path => path.getAttribute('d'))"


@contextmanager
def jupyterlab(folder: Path, home: Path) -> Iterator[str]:
    """Serve ``folder`` from this Python's JupyterLab with ``home`` as its only home; give the address with token."""
    config = home / ".jupyter" / "labconfig"
    config.mkdir(parents=True)
    shutil.copy(ROOT / "binder" / "overrides.json", config / "default_setting_overrides.json")
    clean = {k: v for k, v in os.environ.items() if not k.startswith(("JUPYTER", "IPYTHON", "XDG_"))}
    command = [
        *(sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", "--expose-app-in-browser"),
        *(f"--ServerApp.ip={HERE}", f"--ServerApp.port={_free_port()}", f"--ServerApp.root_dir={folder}"),
    ]
    with (home / "jupyterlab.log").open("wb") as log:
        server = subprocess.Popen(command, cwd=folder, env=clean | {"HOME": str(home)}, stdout=log, stderr=log)
    try:
        yield _address(server, home)
    finally:
        server.terminate()
        try:
            server.wait(timeout=20)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()


def _free_port() -> int:
    with socket.socket() as s:
        s.bind((HERE, 0))
        return int(s.getsockname()[1])


def _address(server: subprocess.Popen[bytes], home: Path) -> str:
    deadline = time.monotonic() + PATIENCE_S
    while time.monotonic() < deadline and server.poll() is None:
        for found in home.glob(f".local/share/jupyter/runtime/jpserver-{server.pid}.json"):
            told = json.loads(found.read_text() or "{}")
            if told:
                return f"http://{HERE}:{told['port']}/lab/tree/{{name}}?reset&token={told['token']}"
        time.sleep(0.1)
    raise RuntimeError("JupyterLab did not start:\n" + (home / "jupyterlab.log").read_text()[-2000:])


@contextmanager
def chromium(playwright: Playwright) -> Iterator[Browser]:
    """Start Debian's Chromium with a fresh profile."""
    browser = playwright.chromium.launch(
        executable_path=shutil.which("chromium"), headless=True, args=list(CHROMIUM_OPTIONS)
    )
    try:
        yield browser
    finally:
        browser.close()


class Lesson:
    """One notebook open on a page, and everything wrong that the page has said or tried."""

    def __init__(self, page: Page, address: str, name: str) -> None:
        self.page = page
        self.name = name
        self.problems: list[str] = []
        page.set_default_timeout(PATIENCE_S * 1000)
        page.on("console", lambda m: self._note("console", m.text) if m.type == "error" else None)
        page.on("pageerror", lambda e: self._note("page error", str(e)))
        page.on("request", lambda r: self._watch(r.url))
        page.on("websocket", lambda w: self._watch(w.url))
        page.goto(address.format(name=name))
        self.page.wait_for_function(_READY)

    def _note(self, kind: str, text: str) -> None:
        self.problems.append(f"{kind}: {text}")

    def _watch(self, url: str) -> None:
        parts = urlsplit(url)
        if parts.scheme not in ("data", "blob", "about") and parts.hostname != HERE:
            self._note("left the machine", url)

    def run_all(self) -> None:
        """Run all cells as the menu does, wait for the last; fail on a cell's error."""
        self.page.evaluate(_RUN_ALL)
        self.page.wait_for_function(_READY)
        errors = self.page.evaluate(_ERRORS)
        assert not errors, f"{self.name}: {errors}"

    def reload(self) -> None:
        """Save, as a person's own save or the autosave does, and load the page again; the kernel keeps running.

        About once in a hundred loads JupyterLab itself finds none of the kernel's widgets; a person then loads the
        page once more, and so does this, once. Widgets that are really gone are still gone then.
        """
        self.page.evaluate(_SAVE)
        self._load_again()
        if any(_LOST in problem for problem in self.problems):
            self.problems = [problem for problem in self.problems if _LOST not in problem]
            self._load_again()

    def _load_again(self) -> None:
        self.page.reload()
        self.page.wait_for_function(_READY)
        self.page.wait_for_function(_WIDGETS_SHOWN)

    def close(self) -> None:
        """End the notebook's kernel and leave the page, saving nothing."""
        self.page.evaluate(_SHUT_DOWN)
        self.page.close()

    def slider(self, label: str) -> Locator:
        """Find the handle of the ipywidgets slider with this label."""
        row = self.page.locator(".widget-slider").filter(has=self.page.get_by_text(label, exact=True))
        return row.get_by_role("slider").first

    def press(self, handle: Locator, key: str, times: int = 1) -> None:
        """Move a slider by keyboard, as a person without a mouse does."""
        for _ in range(times):
            handle.press(key)  # each key goes to the handle, even where the page took the focus away meanwhile

    def figure(self, index: int = 0) -> "Figure":
        """Return the ``index``-th figure of the page once it is painted."""
        return Figure(self.page, index)

    def screenshot(self, name: str) -> None:
        """Keep a picture of the page in the folder that OFFGRID_SCREENSHOTS names, if it names one."""
        folder = os.environ.get("OFFGRID_SCREENSHOTS")
        if folder:
            Path(folder).mkdir(parents=True, exist_ok=True)
            self.page.screenshot(path=Path(folder) / f"{name}.png", full_page=True)


class Figure:
    """One plotly figure on a page: what it holds, and the shapes that are really drawn."""

    def __init__(self, page: Page, index: int) -> None:
        self.element = page.locator(_FIGURES).nth(index)
        self.element.wait_for()
        self.element.scroll_into_view_if_needed()
        page.wait_for_function(_PAINTED, arg=[_FIGURES, index])

    @property
    def traces(self) -> list[dict[str, object]]:
        """Name, x and y of each trace."""
        return list(self.element.evaluate(_TRACES))

    @property
    def shapes(self) -> list[str]:
        """Outlines of what is drawn in the plot area."""
        return list(self.element.evaluate(_SHAPES))
