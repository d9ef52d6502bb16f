"""Cuts the typeface of printed pages down to the characters that they use.

    python3 tools/font/subset.py UNPACKED_PACKAGE crates/print/data/inter

needs `fonttools` (`pip install fonttools`); crates/print/data/inter/PROVENANCE.md says which package and what came out.
"""

import sys
from pathlib import Path

from fontTools import subset

# Basic Latin, Latin-1, Latin Extended-A; arrows; the marks of the trade's notation.
MARKS = "←↖↑↗→↘↓↙−·°½⅓⅔¼¾×–—’‘“”…•≈≤≥±²³µ"
CHARACTERS = {*range(0x20, 0x7F), *range(0xA0, 0x180), *map(ord, MARKS)}


def main(package: Path, out: Path) -> None:
    for folder, weight in [("400Regular", "Regular"), ("600SemiBold", "SemiBold")]:
        options = subset.Options()
        options.hinting = False
        options.layout_features = ["kern", "mark", "mkmk", "ccmp", "locl"]
        options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
        # The same input must give the same bytes.
        options.recalc_timestamp = False
        font = subset.load_font(str(package / folder / f"Inter_{folder}.ttf"), options)
        cut = subset.Subsetter(options)
        cut.populate(unicodes=CHARACTERS)
        cut.subset(font)
        subset.save_font(font, str(out / f"Inter-{weight}.ttf"), options)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
