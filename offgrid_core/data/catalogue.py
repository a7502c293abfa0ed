"""Places, chemistries and the classroom catalogue, by name."""

from pathlib import Path

from offgrid_core.data.models import BatteryUnit, Chemistry, Controller, Inverter, Module, Site
from offgrid_core.data.reading import by_key, read_rows


def sites(folder: Path | None = None) -> tuple[Site, ...]:
    """Return all places; irradiation in kWh/m² a day, temperatures in °C, January first.

    Raises
    ------
    DataError
        For a damaged file.
    """
    return read_rows("sites.csv", Site, folder)


def site(key: str, folder: Path | None = None) -> Site:
    """Return one place by its key.

    Raises
    ------
    DataError
        If it is not known (the nearest names are given), or for a damaged file.
    """
    return by_key(sites(folder), key, "sites.csv")


def chemistries(folder: Path | None = None) -> tuple[Chemistry, ...]:
    """Return all battery chemistries.

    Raises
    ------
    DataError
        For a damaged file.
    """
    return read_rows("chemistries.csv", Chemistry, folder)


def chemistry(key: str, folder: Path | None = None) -> Chemistry:
    """Return one chemistry by its key.

    Raises
    ------
    DataError
        If it is not known (the nearest names are given), or for a damaged file.
    """
    return by_key(chemistries(folder), key, "chemistries.csv")


def battery_units(folder: Path | None = None) -> tuple[BatteryUnit, ...]:
    """Return the batteries of the catalogue (invented).

    Raises
    ------
    DataError
        For a damaged file.
    """
    return read_rows("battery_units.csv", BatteryUnit, folder)


def battery_unit(key: str, folder: Path | None = None) -> BatteryUnit:
    """Return one battery of the catalogue by its key.

    Raises
    ------
    DataError
        If it is not known (the nearest names are given), or for a damaged file.
    """
    return by_key(battery_units(folder), key, "battery_units.csv")


def modules(folder: Path | None = None) -> tuple[Module, ...]:
    """Return the solar modules of the catalogue (invented).

    Raises
    ------
    DataError
        For a damaged file.
    """
    return read_rows("modules.csv", Module, folder)


def module(key: str, folder: Path | None = None) -> Module:
    """Return one solar module of the catalogue by its key.

    Raises
    ------
    DataError
        If it is not known (the nearest names are given), or for a damaged file.
    """
    return by_key(modules(folder), key, "modules.csv")


def controllers(folder: Path | None = None) -> tuple[Controller, ...]:
    """Return the charge controllers of the catalogue (invented).

    Raises
    ------
    DataError
        For a damaged file.
    """
    return read_rows("controllers.csv", Controller, folder)


def controller(key: str, folder: Path | None = None) -> Controller:
    """Return one charge controller of the catalogue by its key.

    Raises
    ------
    DataError
        If it is not known (the nearest names are given), or for a damaged file.
    """
    return by_key(controllers(folder), key, "controllers.csv")


def inverters(folder: Path | None = None) -> tuple[Inverter, ...]:
    """Return the inverters of the catalogue (invented).

    Raises
    ------
    DataError
        For a damaged file.
    """
    return read_rows("inverters.csv", Inverter, folder)


def inverter(key: str, folder: Path | None = None) -> Inverter:
    """Return one inverter of the catalogue by its key.

    Raises
    ------
    DataError
        If it is not known (the nearest names are given), or for a damaged file.
    """
    return by_key(inverters(folder), key, "inverters.csv")
