"""Published jobs that more than one test asks about."""

__all__ = ["GCUT5D"]

GCUT5D = (
    (282, 356, 58), (364, 236, 94), (343, 245, 63), (342, 151, 75), (352, 145, 32),
    (164, 250, 27), (198, 205, 91), (272, 147, 74), (179, 155, 71), (132, 174, 60),
)  # fmt: skip
"""Width, height and demand on a sheet of 500 × 500: gcut5d of Cintra, Miyazawa, Wakabayashi and Xavier, Eur. J. Oper. Res. 191 (2008)."""
