"""Madison, 43° N, slope 60° to the south: Duffie & Beckman, Example 2.19.1 (4th edition; 2.20.1 in the 5th).

The book's H, H0 and HT were seen; clearness, sunset, diffuse share and beam ratio were worked out elsewhere with the
book's formulas ("computed"). Ground reflectance 0.7 in January and February, 0.4 in March and December, else 0.2.
Single values below are from the same book; tags as in ``case``.
"""

LATITUDE, TILT = 43.00, 60.0
GROUND = [0.7, 0.7, 0.4, *[0.2] * 8, 0.4]

#: Month: H and H0, MJ/m²; clearness; sunset, °; diffuse share; beam ratio; HT as the book prints it, MJ/m².
MADISON = {
    "Jan": (6.44, 13.37, 0.482, 69.12, 0.409, 2.788, "13.7"),
    "Feb": (9.89, 18.81, 0.526, 77.61, 0.366, 2.043, "17.2"),
    "Mar": (12.86, 26.03, 0.494, 87.74, 0.435, 1.419, "15.8"),
    "Apr": (16.05, 33.78, 0.475, 98.90, 0.453, 0.960, "14.7"),
    "May": (21.36, 39.42, 0.542, 108.5, 0.390, 0.711, "16.6"),
    "Jun": (23.04, 41.78, 0.552, 113.4, 0.381, 0.617, "16.5"),
    "Jul": (22.58, 40.56, 0.557, 111.2, 0.376, 0.657, "16.8"),
    "Aug": (20.33, 35.92, 0.566, 102.9, 0.368, 0.844, "17.5"),
    "Sep": (14.59, 28.80, 0.507, 92.07, 0.423, 1.214, "15.6"),
    "Oct": (10.48, 20.90, 0.501, 80.93, 0.390, 1.813, "15.2"),
    "Nov": (6.37, 14.62, 0.436, 71.37, 0.458, 2.565, "11.4"),
    "Dec": (5.74, 11.91, 0.482, 66.62, 0.409, 3.062, "12.7"),
}

#: Day of the year, latitude, H0 in MJ/m², relative tolerance, tag.
ABOVE_THE_AIR = [
    ("TR022 April", 105, 43.0, 33.8, 3e-3, "seen"),
    ("TR026 June", 162, 43.0, 41.8, 2e-3, "seen"),
    ("TR025 September", 246, 38.6, 33.25, 1e-3, "computed; the book prints 33.0, 0.8 % below its own formula"),
]
#: Mean day of the month, declination in degrees as printed to a tenth (seen; 13 February computed).
DECLINATIONS = [
    (44, -13.95), (47, -13.0), (105, 9.4), (135, 18.8), (162, 23.1), (198, 21.2), (228, 13.5), (258, 2.2),
    (288, -9.6), (318, -18.9), (344, -23.0),
]  # fmt: skip
