"""Cell temperature where the wind is known: two measured models beside the nominal-temperature one.

The plan works from monthly means without wind, and so by the nominal temperature of the module. With a measured wind
these two say how far that is off: in still air cells run hotter, in a steady breeze cooler.
"""

from offgrid_core.worksheet import Sheet, line

_FAIMAN = "Faiman, Progress in Photovoltaics 16 (2008) 307: 25 W/(m²·K) still, 6.84 for each metre a second of wind"
_SANDIA = "King and others, Sandia, SAND2004-3535; the exponents are those of the mounting; 2.718282 is Euler's number"


@line("cell temperature by heat shed to the wind", standing="physics", source=_FAIMAN)
def cell_by_shed_by_month_c(air_temp_by_month_c, working_sun_kw_m2, shed_still_w_m2_k, shed_wind_ws_m3_k, wind_m_s):
    return air_temp_by_month_c + 1000 * working_sun_kw_m2 / (shed_still_w_m2_k + shed_wind_ws_m3_k * wind_m_s)


@line("back of the module by its mounting", standing="physics", source=_SANDIA)
def back_by_mount_by_month_c(air_temp_by_month_c, working_sun_kw_m2, mount_exponent, mount_wind_exponent, wind_m_s):
    return air_temp_by_month_c + 1000 * working_sun_kw_m2 * 2.718282 ** (
        mount_exponent + mount_wind_exponent * wind_m_s
    )


@line("cell temperature by its mounting", standing="physics", source=_SANDIA)
def cell_by_mount_by_month_c(back_by_mount_by_month_c, working_sun_kw_m2, cell_over_back_k):
    return back_by_mount_by_month_c + working_sun_kw_m2 * cell_over_back_k


#: From air, sun and wind to the cells, by either model.
CELL_BY_WIND = Sheet(cell_by_shed_by_month_c, back_by_mount_by_month_c, cell_by_mount_by_month_c)
