"""Rows of the one table of inputs: a log of the meters on the wall, and what is wrong with a system.

They are part of :mod:`offgrid_core.quantities.names`, and stand apart only because that table is long.
"""

#: Name, words, and validity in the unit of the name.
LOG_NAMES: tuple[tuple[str, str, float, float], ...] = (
    ("clean_yield_h", "hours of full power that the hour brings a sound array", 0, 2),
    ("listed_wanted_wh", "energy the listed loads want of the bank", 0, 1e7),
    ("plane_now_kw_m2", "sun on the array now", 0, 2),
    ("warm_now_c", "battery temperature now, were nothing wrong", -30, 50),
    ("dirt_per_h", "share lost to dirt for each dry hour", 0, 0.01),
    ("dry_h", "hours since the last rain", 0, 10_000),
    ("open_count", "module strings open", 0, 100),
    ("shaded_frac", "share lost to a shadow at fixed hours", 0, 1),
    ("unlisted_frac", "load that nobody listed as a share of the mean", 0, 5),
    ("sleepless_frac", "whether the inverter never sleeps, 1 for yes", 0, 1),
    ("frozen_frac", "how far the cold of a frozen spell has gone into the bank", 0, 1),
    ("frozen_below_k", "how far a frozen spell is below the coldest for charging", 0, 10),
    ("stuck_frac", "whether the temperature sensor is stuck, 1 for yes", 0, 1),
    ("stuck_c", "temperature at which the sensor is stuck", -40, 80),
    ("typed_low_frac", "how much too low the set-point is, of its height above rest", 0, 0.9),
    ("weak_frac", "share of its capacity that the weakest unit has lost", 0, 0.9),
    ("lug_drop_frac", "voltage lost in a loose lug at the charging current", 0, 0.2),
    ("array_meter_factor", "what the array's ammeter makes of the truth", 0.01, 100),
    ("load_meter_factor", "what the ammeter of the loads makes of the truth", 0.01, 100),
    ("battery_meter_factor", "what the battery's ammeter makes of the truth", 0.01, 100),
    ("sun_noise_kw_m2", "noise of this reading of the sun", -1, 1),
    ("array_noise_a", "noise of this reading of the array current", -1000, 1000),
    ("voltage_noise_v", "noise of this reading of the voltage", -10, 10),
    ("load_noise_a", "noise of this reading of the load current", -1000, 1000),
    ("battery_noise_a", "noise of this reading of the battery current", -1000, 1000),
    ("sensor_noise_k", "noise of this reading of the battery temperature", -10, 10),
)
