"""Sun as some weather services publish it, in megajoules, on the way to the hours of full sun."""

from offgrid_core.worksheet import Sheet, line


@line("sun on the tilted array a day", standing="physics", source="1 kWh is 3.6 MJ, exactly")
def plane_by_month_kwh_m2(plane_by_month_mj_m2):
    return plane_by_month_mj_m2 / 3.6


#: From megajoules, as read in a table of sun, to what the worksheets use.
SUN_READ = Sheet(plane_by_month_kwh_m2)
