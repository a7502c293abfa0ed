"""How one learner wants numbers shown: chosen once, remembered in the learner's folder, followed everywhere."""

import json
import os
import warnings
from dataclasses import asdict, dataclass, replace
from functools import lru_cache
from pathlib import Path

from offgrid_core.errors import OffgridError
from offgrid_core.files import put_aside, write_whole
from offgrid_core.quantities.units import Unit, menu, unit_of
from offgrid_core.quantities.wording import say

CHOICES: dict[str, tuple[str, ...]] = {
    "temperature": ("°C", "°F"),
    "length": ("m", "ft"),
    "wire": ("mm²", "AWG"),
    "decimal": (".", ","),
}
_LABEL_MOST = 8
_FILE = "settings.json"
_FILE_MOST = 10_000


@dataclass(frozen=True)
class Settings:
    """Units and marks for a person to read and type; stored values never change with them.

    Attributes
    ----------
    temperature, length, wire, decimal
        One each of :data:`CHOICES`. A temperature difference follows ``temperature``.
    currency
        A label of at most 8 characters written after an amount of money; may be empty.

    Raises
    ------
    OffgridError
        Naming the field, the value and what is allowed.
    """

    temperature: str = "°C"
    length: str = "m"
    wire: str = "mm²"
    decimal: str = "."
    currency: str = ""

    def __post_init__(self) -> None:
        """Refuse what is not among the choices."""
        for field, allowed in CHOICES.items():
            value = getattr(self, field)
            if value not in allowed:
                told = ", ".join(map(repr, allowed))
                raise OffgridError(say("settings.allowed", field=field, allowed=told, value=repr(value)[:40]))
        if not _is_label(self.currency):
            told = repr(self.currency)[:40]
            raise OffgridError(say("settings.currency", most=_LABEL_MOST, value=told))

    @property
    def in_sums(self) -> "Settings":
        """The same, with temperatures in °C, as the rules are written: 14 °F − 25 would be another number."""
        return replace(self, temperature="°C")

    def unit_for(self, name: str) -> Unit:
        """Return the unit to show a quantity in. An area stays in mm²; a gauge is written beside it."""
        return _unit_for(self, name)


@lru_cache(maxsize=4096)
def _unit_for(settings: Settings, name: str) -> Unit:
    canonical = unit_of(name)
    if canonical.kind == "money":
        return replace(canonical, symbol=settings.currency)
    difference = "K" if settings.temperature == "°C" else "°F steps"
    wanted = {"temperature": settings.temperature, "difference": difference, "length": settings.length}
    units = menu(name)
    return next((u for u in units if u.symbol == wanted.get(canonical.kind)), units[0])


def _is_label(text: object) -> bool:
    if not isinstance(text, str) or len(text) > _LABEL_MOST or text != text.strip():
        return False
    return text.isprintable() and not any(c.isdigit() or c in "<>&" for c in text) and text[:1] not in {*"+-−.,'"}


def my_folder() -> Path:
    """Return the learner's own folder: the environment's ``OFFGRID_FOLDER``, or ``my-work`` where the lesson runs."""
    return Path(os.environ.get("OFFGRID_FOLDER") or "my-work")


def load(folder: str | Path | None = None) -> Settings:
    """Return the remembered settings, or the usual ones if none were remembered.

    Parameters
    ----------
    folder
        Where to look; :func:`my_folder` if not given.

    Warns
    -----
    UserWarning
        If the file cannot be read. A damaged one is kept beside as ``settings.json.damaged-1``, or the next number.
    """
    path = Path(folder or my_folder()) / _FILE
    try:
        return _read(path)
    except FileNotFoundError:
        return Settings()
    except OSError as e:
        told = say("settings.damaged", path=path, reason=e.strerror, kept=say("settings.left"))
    except (ValueError, RecursionError) as e:
        told = say("settings.damaged", path=path, reason=e, kept=_set_aside(path))
    warnings.warn(told, UserWarning, stacklevel=2)
    return Settings()


def remember(settings: Settings, folder: str | Path | None = None) -> Path:
    """Write the settings for next time, whole or not at all, and return the file.

    A damaged file that is in the way is set aside first, as by :func:`load`.

    Raises
    ------
    OffgridError
        If the folder cannot be written; what was remembered before is still there.
    """
    path = Path(folder or my_folder()) / _FILE
    load(path.parent)
    try:
        write_whole(path, json.dumps(asdict(settings), ensure_ascii=False, indent=2) + "\n")
    except OSError as e:
        raise OffgridError(say("settings.unwritten", path=path.parent, reason=e.strerror)) from None
    return path


def _read(path: Path) -> Settings:
    """Read strictly; a byte-order mark that an editor put in front does no harm."""
    if path.stat().st_size > _FILE_MOST:
        raise ValueError(f"more than {_FILE_MOST} bytes")
    held = json.loads(path.read_text(encoding="utf-8-sig"))
    if not isinstance(held, dict):
        raise ValueError("not a list of named settings")
    if unknown := sorted(set(held) - set(asdict(Settings()))):
        raise ValueError(f"there is no setting {unknown[0][:40]!r}")
    return Settings(**held)


def _set_aside(path: Path) -> str:
    kept = put_aside(path)
    return say("settings.kept", path=kept.name) if kept else say("settings.left")
