"""The whole load-index table, and a guard against a slip in it."""

from __future__ import annotations

from firstpitch.outfit.tyres import least_index, load_of

PRINTED = {
    60: 250,
    61: 257,
    62: 265,
    63: 272,
    64: 280,
    65: 290,
    66: 300,
    67: 307,
    68: 315,
    69: 325,
    70: 335,
    71: 345,
    72: 355,
    73: 365,
    74: 375,
    75: 387,
    76: 400,
    77: 412,
    78: 425,
    79: 437,
    80: 450,
    81: 462,
    82: 475,
    83: 487,
    84: 500,
    85: 515,
    86: 530,
    87: 545,
    88: 560,
    89: 580,
    90: 600,
    91: 615,
    92: 630,
    93: 650,
    94: 670,
    95: 690,
    96: 710,
    97: 730,
    98: 750,
    99: 775,
    100: 800,
    101: 825,
    102: 850,
    103: 875,
    104: 900,
    105: 925,
    106: 950,
    107: 975,
    108: 1000,
    109: 1030,
    110: 1060,
    111: 1090,
    112: 1120,
    113: 1150,
    114: 1180,
    115: 1215,
    116: 1250,
    117: 1285,
    118: 1320,
    119: 1360,
}


def test_load_index_exact() -> None:
    """Every index of the printed table has its printed load, and no other index has any."""
    assert {index: load_of(index) for index in range(30, 150) if load_of(index) is not None} == PRINTED


def test_load_index_guard() -> None:
    """Loads grow as 45 times ten to the index over 80, within 1.8 %: no single figure is a misprint."""
    for index, load in PRINTED.items():
        assert abs(load / (45 * 10 ** (index / 80)) - 1) < 0.018


def test_least_index_single_axle() -> None:
    """1500 kg on two tyres with a tenth in hand asks for 833 kg each: index 102 does, 101 does not."""
    assert least_index(1500, 2) == 102
    assert 2 * PRINTED[101] * 0.9 < 1500 <= 2 * PRINTED[102] * 0.9
