"""A year of an off-grid system, hour by hour: its weather, its run, its reliability."""
