"""Time that Mitsuba 3 needs to read one landmark under one aim to 1 %, on the scene that
`cargo bench -p transport --bench operator` leaves.

    python3 mitsuba_irradiance.py FOLDER [--variant llvm_ad_rgb] [--seconds 20]

The renderer's own irradiance meter on a tiny disc just off the skin. The variance of a pass is measured
from independent passes and carried to 1 % by the square-root law; loading and compiling are left out. A
thousand aims at twenty landmarks would take twenty thousand times as long. One JSON line.
"""

import argparse
import json
import os
import sys
import time

import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.join(HERE, "../../crates/transport/tests/oracle"))
ASKED = 0.01
READINGS = 1000 * 20


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("folder")
    parser.add_argument("--variant", default="llvm_ad_rgb")
    parser.add_argument("--seconds", type=float, default=20)
    parser.add_argument("--samples", type=int, default=4096)
    parser.add_argument("--landmark", type=int, default=1, help="which meter of the scene")
    options = parser.parse_args()

    import mitsuba as mi

    mi.set_variant(options.variant)
    import renderer

    with open(os.path.join(options.folder, "scene.json")) as file:
        description = json.load(file)
    meter = description["meters"][options.landmark]
    position, normal = np.array(meter["position"]), np.array(meter["normal"])
    disc = {
        "type": "disk",
        "to_world": mi.ScalarTransform4f()
        .look_at(
            origin=position.tolist(),
            target=(position + normal).tolist(),
            up=[0.3, 0.5, 0.8],
        )
        .scale(1e-4),
        "sensor": {
            "type": "irradiancemeter",
            "film": {"type": "hdrfilm", "width": 1, "height": 1, "rfilter": {"type": "box"}, "pixel_format": "rgb"},
            "sampler": {"type": "independent", "sample_count": options.samples},
        },
    }
    dictionary = renderer.scene_dictionary(description)
    # A tenth of a millimetre across, black, and part of the scene: too small for any path to meet by chance.
    dictionary["meter"] = disc | {"bsdf": {"type": "diffuse", "reflectance": {"type": "rgb", "value": 0.0}}}
    scene = mi.load_dict(dictionary)
    sensor = scene.sensors()[0]
    integrator = mi.load_dict({"type": "path", "max_depth": 16, "rr_depth": 5})

    def take(seed):
        clock, work = time.perf_counter(), time.process_time()
        value = np.array(mi.render(scene, sensor=sensor, integrator=integrator, spp=options.samples, seed=seed))
        return float(value.mean()), time.perf_counter() - clock, time.process_time() - work

    take(0)
    passes, begun = [], time.perf_counter()
    while len(passes) < 16 or time.perf_counter() - begun < options.seconds:
        passes.append(take(1 + len(passes)))
    values, wall, cpu = (np.array(column) for column in zip(*passes))
    error = float(values.std(ddof=1) / values.mean())
    needed = (error / ASKED) ** 2
    print(
        json.dumps(
            {
                "program": f"mitsuba {mi.__version__} {options.variant}",
                "meter": meter["name"],
                "mean": float(values.mean()),
                "error_of_a_pass": error,
                "samples_per_pass": options.samples,
                "wall_s_to_1_percent": needed * float(np.median(wall)),
                "cpu_s_to_1_percent": needed * float(np.median(cpu)),
                "thousand_aims_cpu_s": READINGS * needed * float(np.median(cpu)),
            }
        )
    )


if __name__ == "__main__":
    main()
