"""Published jobs that more than one test asks about."""

__all__ = ["CGCUT1", "GCUT5D"]

GCUT5D = (
    (282, 356, 58), (364, 236, 94), (343, 245, 63), (342, 151, 75), (352, 145, 32),
    (164, 250, 27), (198, 205, 91), (272, 147, 74), (179, 155, 71), (132, 174, 60),
)  # fmt: skip
"""Width, height and demand on a sheet of 500 × 500: gcut5d of Cintra, Miyazawa, Wakabayashi and Xavier, Eur. J. Oper. Res. 191 (2008)."""

CGCUT1 = ((8, 4, 2, 66), (3, 7, 1, 35), (8, 2, 3, 24), (3, 4, 5, 17), (3, 3, 2, 11), (3, 2, 2, 8), (2, 1, 1, 2))
"""Width, height, the most that may be cut and value on a sheet of 15 × 10: cgcut1 of N. Christofides and C. Whitlock, Oper. Res. 25 (1977).
The best is 244 (from memory of the literature)."""
