"""Time that Mitsuba 3 needs until the face is right to 2 %, on the scenes that
`cargo bench -p transport --bench proof` leaves.

    python3 mitsuba_time.py FOLDER [--variant llvm_ad_spectral] [--seconds 60]

The variance of one pass is measured from independent passes, pixel by pixel over the same pixels of the
face as ours, and carried to 2 % by its fall with the square root of the time. Loading and compiling are
left out, which favours the other program. The materials are our sixteen bands. One JSON line.
"""

import argparse
import json
import os
import sys
import time

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.join(HERE, "../../crates/transport/tests/oracle"))
LUMINANCE = np.array([0.2126, 0.7152, 0.0722])
ASKED = 0.02


def banded(edges):
    """A reflectance as sixteen steps over wavelength."""

    def reflectance(mesh):
        wavelengths, values = [], []
        for low, high, value in zip(edges, edges[1:], mesh["bands"]):
            wavelengths += [low + 0.01, high - 0.01]
            values += [value, value]
        text = lambda numbers: ", ".join(f"{n:.6f}" for n in numbers)
        return {"type": "irregular", "wavelengths": text(wavelengths), "values": text(values)}

    return reflectance


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("folder")
    parser.add_argument("--variant", default="llvm_ad_spectral")
    parser.add_argument("--seconds", type=float, default=60)
    parser.add_argument("--samples", type=int, default=8, help="samples per pixel in a pass")
    options = parser.parse_args()

    import mitsuba as mi

    mi.set_variant(options.variant)
    import renderer

    with open(os.path.join(options.folder, "scene.json")) as file:
        description = json.load(file)
    width, height = description["camera"]["width"], description["camera"]["height"]
    face = np.fromfile(os.path.join(options.folder, "face.u8"), "u1").reshape(height, width) > 0
    spectral = "spectral" in options.variant
    kind = banded(description["band_edges_nm"]) if spectral else None
    dictionary = renderer.scene_dictionary(description, *([kind] if kind else []))
    dictionary["camera"] = renderer.camera_dictionary(description["camera"])
    scene = mi.load_dict(dictionary)
    integrator = mi.load_dict({"type": "path", "max_depth": 16, "rr_depth": 5})

    def take(seed):
        clock, work = time.perf_counter(), time.process_time()
        picture = np.array(mi.render(scene, integrator=integrator, spp=options.samples, seed=seed))
        spent = time.perf_counter() - clock, time.process_time() - work
        return picture.astype(np.float64)[face] @ LUMINANCE, spent

    take(0)
    passes, spent, begun = [], [], time.perf_counter()
    while len(passes) < 8 or time.perf_counter() - begun < options.seconds:
        values, cost = take(1 + len(passes))
        passes.append(values)
        spent.append(cost)
    mean = np.mean(passes, axis=0)
    bright = mean > 0.1 * mean.mean()
    error = float(np.sqrt(np.mean(np.var(passes, axis=0, ddof=1)[bright] / mean[bright] ** 2)))
    wall, cpu = np.median(spent, axis=0)
    needed = (error / ASKED) ** 2
    print(
        json.dumps(
            {
                "program": f"mitsuba {mi.__version__} {options.variant}",
                "case": os.path.basename(os.path.normpath(options.folder)),
                "face_pixels": int(face.sum()),
                "passes": len(passes),
                "samples_per_pass": options.samples,
                "wall_s_per_pass": float(wall),
                "cpu_s_per_pass": float(cpu),
                "error_of_a_pass": error,
                "samples_to_2_percent": needed * options.samples,
                "wall_s_to_2_percent": needed * float(wall),
                "cpu_s_to_2_percent": needed * float(cpu),
            }
        )
    )


if __name__ == "__main__":
    main()
