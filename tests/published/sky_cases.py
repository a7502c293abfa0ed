"""Sun in one hour and on one plane, above the air by month, and over real years: the numbers of books and of pvlib.

Book: Duffie & Beckman, *Solar Engineering of Thermal Processes*, 4th edition. Of its examples the inputs were seen and
the answers worked out elsewhere with the book's formulas ("seen, computed"); its tables were seen. Azimuths here are
clockwise from north: the book's 15° west of south is 195. Angles in degrees, sun in MJ/m² where it says so.
Left out, because nothing here uses them: profile angle, daily diffuse share, and the sky that brightens round the sun.
"""

NONE = None

#: Row, latitude, day of the year, hour angle, zenith angle, azimuth (Ex 1.6.3; seen, computed).
SUN_POSITION = ("TR016, TR017", 43, 75, 60.0, 70.33, 246.76)
#: Row, latitude, slope, azimuth, day, hour angle, angle of incidence (Ex 1.6.1; seen, computed).
INCIDENCE = ("TR014", 43, 45, 195, 44, -22.5, 35.16)
#: Row, latitude, slope, azimuth, day, hour angle, beam on the slope ÷ beam on the flat (seen, computed).
BEAM_RATIOS = [
    ("TR015 Ex 1.8.1", 43, 45, 195, 44, -22.5, 1.664),
    ("TR020 Ex 1.8.2", 40, 30, 180, 47, -37.5, 1.612),
    ("TR021 Ex 1.8.3", 40, 50, 180, 47, -37.5, 1.786),
    ("TR040 Ex 2.15.1", 40, 60, 180, 51, -37.5, 1.713),
]
#: Row, latitude, day, hour angle, share of the day in that hour (Collares-Pereira & Rabl 1979; seen, computed).
HOUR_SHARES = [
    ("TR029 Ex 2.13.1 Melbourne", -38, 17, -52.5, 0.0759),
    ("TR030 Ex 2.13.2", 43, 235, 22.5, 0.1177),
    ("TR032 Ex 2.13.3 Madison", 43, 162, 22.5, 0.10845),
]
#: The same of the diffuse sun (Liu & Jordan 1960; seen, computed).
HOUR_SHARE_OF_DIFFUSE = ("TR033 Ex 2.13.3 Madison", 43, 162, 22.5, 0.10148)
#: Row, latitude, day, sunset hour angle (TR024 eq 1.6.10, TR019 Ex 1.6.3; computed).
SUNSETS = [("TR024", 43, 105, 98.895), ("TR019", 43, 75, 87.74)]
#: Clearness, sunset hour angle, monthly diffuse share (TR027 Ex 2.12.1; seen, computed).
MADISON_JUNE_DIFFUSE = (0.5505, 113.4, 0.382)
#: TR034 to TR036, Ex 2.13.3: June at Madison, 23 MJ/m² a day, the hour round 22.5°: global, diffuse, beam, MJ/m².
MADISON_JUNE_HOUR = (43, 23.0, 22.5, 2.494, 0.892, 1.603)
#: Ex 2.15.1 (seen, computed): 40° N, day 51, hour angle −37.5°, 1.04 MJ/m² in the hour, slope 60° S, ground 0.6.
EX_2_15_1 = {
    "latitude": 40,
    "day": 51,
    "hour angle": -37.5,
    "global": 1.04,
    "slope": 60,
    "ground": 0.6,
    "TR037 above the air": 2.335,
    "TR039 diffuse share": 0.7655,
    "TR041 beam on slope": 0.418,
    "TR042 diffuse on slope": 0.597,
    "TR044 all on slope": 1.171,
}

#: TR046 to TR129, Table 1.10.1 (seen): above the air, mean over the days of each month, MJ/m² a day, by latitude.
ABOVE_THE_AIR_BY_MONTH = {
    45: (12.2, 17.4, 25.1, 33.2, NONE, 41.7, 40.4, 35.3, 27.8, 19.6, 13.3, 10.7),
    30: (21.3, 25.7, 31.5, 36.8, 40.0, 41.1, 40.4, 37.8, NONE, 27.4, NONE, 19.9),
    15: (29.6, 32.6, 35.9, 38.0, 38.5, 38.4, 38.3, NONE, 36.4, 33.4, 30.1, 28.5),
    0: (36.2, 37.4, 37.8, 36.7, 34.8, 33.5, 34.0, 35.7, NONE, 37.3, 36.3, 35.7),
    -10: (39.5, 39.3, 37.7, 34.5, 31.1, 29.2, 29.9, 32.9, NONE, 38.5, 39.3, 39.4),
    -45: (42.8, 37.1, 28.6, 19.6, 12.9, 10.0, 11.3, NONE, 24.9, 34.0, 41.2, 44.5),
    -60: (41.0, 32.4, 21.2, 10.9, 4.5, 2.2, 3.1, 8.0, 17.0, 28.4, 38.7, 43.7),
}

#: Year's mean on the flat of shipped places, kWh/m² a day (SR rows; computed, or seen in statistics).
YEAR_ON_THE_FLAT = {
    "fairbanks": 2.591, "sand_point": 2.272, "de_bilt": 2.625, "rothamsted": 2.686, "swift_current": 3.762,
    "port_angeles": 3.457, "brasov": 3.242, "chicago": 3.854, "golden": 4.438, "sterling": 4.058,
    "cordoba_spain": 4.712, "san_francisco": 4.703, "greensboro": 4.291, "maricopa": 5.753, "tucson": 5.486,
    "faisalabad": 5.102, "gainesville": 4.525, "new_delhi": 5.127, "tampa": 4.962, "miami": 4.911,
    "chiang_mai": 4.803, "hyderabad": 5.129, "palmira": 4.868, "sitiung": 3.954, "kadoma": 6.087,
    "pergamino": 4.441, "la_estanzuela": 4.35,
}  # fmt: skip

#: TR179, TR185: hourly year on a plane tilted by the latitude, isotropic sky, by pvlib 0.16.1; with the sky of Perez.
YEAR_ON_THE_PLANE = {"greensboro": ("4.648", 4.859), "miami": ("5.099", 5.255)}
#: TR175 … TR187: the same year and plane by the monthly method (Klein 1977; computed elsewhere).
YEAR_BY_MONTHLY_METHOD = {"chicago": 4.269, "golden": 5.061, "greensboro": 4.688, "tucson": 6.005, "miami": 5.177}
#: TR197 to TR220, tilted by the latitude: hourly by pvlib, and by the monthly method (computed elsewhere).
MONTHS_ON_THE_PLANE = {
    "greensboro": (
        (3.43, 4.09, 4.85, 5.48, 5.25, 5.60, 5.53, 5.45, 4.80, 4.41, 3.40, 3.45),
        (3.79, 4.14, 4.92, 5.43, 5.10, 5.39, 5.36, 5.38, 4.80, 4.61, 3.61, 3.70),
    ),
    "tucson": (
        (5.85, 4.64, 5.33, 7.45, 7.27, 7.24, 6.11, 6.10, 5.47, NONE, 5.38, 5.21),
        (5.99, 4.65, 5.45, 7.41, 7.12, 7.10, 5.97, 5.97, 5.51, NONE, 5.49, 5.36),
    ),
}
