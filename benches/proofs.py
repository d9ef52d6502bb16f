#!/usr/bin/env python3
"""Times the command `rushlight proof` for every set-up of the demo, as a user gives it, and says what it gets wrong.

    python3 benches/proofs.py PROGRAM [--baseline PROGRAM] [--size 800x1000] [--reference SECONDS]

One line of JSON for each set-up: processor and wall seconds of the whole command; with --baseline those of another
program, run right after it, and the ratios; with --reference the relative difference of blocks of 8 x 8 pixels to a
picture without a filter that was given so many seconds, by how bright the block is. The reference's own noise is in
that number, so give it many times what the proof takes. The layer files are read with Mitsuba's bitmap
(`pip install -r requirements-oracle.txt`).
"""

import argparse
import json
import resource
import subprocess
import tempfile
import time
from pathlib import Path

DEMO = Path(__file__).resolve().parent.parent / "examples" / "brass-band.toml"
SET_UPS = range(1, 6)
BLOCK = 8
# Blocks from this part of the brightest hundredth on are light ones, and those below the other one are left out.
LIGHT, BLACK = 0.2, 0.01


def timed(program, arguments):
    """Processor and wall seconds of a command."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    begun = time.monotonic()
    subprocess.run([program, "proof", str(DEMO), *arguments], check=True, stderr=subprocess.DEVNULL)
    wall = time.monotonic() - begun
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return {"cpu_s": round(used, 1), "wall_s": round(wall, 1)}


def blocks(layers):
    """The light of all layers of a file together, in blocks."""
    import mitsuba
    import numpy

    mitsuba.set_variant("scalar_rgb")
    bands = numpy.array(mitsuba.Bitmap(str(layers)), dtype=numpy.float64)
    light = bands.sum(axis=2)
    rows, columns = (side // BLOCK for side in light.shape)
    cut = light[: rows * BLOCK, : columns * BLOCK]
    return cut.reshape(rows, BLOCK, columns, BLOCK).mean(axis=(1, 3))


def off(found, truth):
    """Relative differences of light and of dark blocks: root of the mean square, mean and largest."""
    import numpy

    bright = numpy.quantile(truth, 0.99)
    told = {}
    for name, chosen in (
        ("light", truth >= LIGHT * bright),
        ("dark", (truth < LIGHT * bright) & (truth > BLACK * bright)),
    ):
        apart = found[chosen] / truth[chosen] - 1.0
        if apart.size:
            told[name] = {
                "blocks": int(apart.size),
                "rms": round(float(numpy.sqrt((apart**2).mean())), 4),
                "mean": round(float(apart.mean()), 4),
                "largest": round(float(abs(apart).max()), 4),
            }
    return told


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--baseline")
    parser.add_argument("--size", default="800x1000")
    parser.add_argument("--reference", type=int)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        picture, layers, truth = (str(Path(folder) / name) for name in ("proof.png", "layers.exr", "truth.exr"))
        for set_up in SET_UPS:
            plain = ["--setup", str(set_up), "--size", asked.size, "-o", picture]
            line = {"set_up": set_up, "size": asked.size, **timed(asked.program, plain)}
            if asked.baseline:
                before = timed(asked.baseline, plain)
                line["baseline"] = before
                line["ratio"] = {key: round(line[key] / before[key], 3) for key in before}
            if asked.reference:
                timed(asked.program, [*plain, "--layers", layers])
                timed(asked.program, [*plain, "--layers", truth, "--plain", "--seconds", str(asked.reference)])
                line["off"] = off(blocks(layers), blocks(truth))
            print(json.dumps(line), flush=True)


if __name__ == "__main__":
    main()
