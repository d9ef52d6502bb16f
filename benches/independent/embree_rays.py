"""Rays per second through Embree on the triangles and rays that `cargo bench -p transport --bench rays` leaves.

    python3 embree_rays.py FOLDER

One thread, closest hit. Embree must also find our hits: the share of rays whose distances differ by more
than a tenth of a millimetre is told. One JSON line per set of rays.
"""

import json
import os
import sys
import time

import numpy as np
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh

RUNS = 5


def vectors(folder, name):
    return np.fromfile(os.path.join(folder, name + ".f32"), "<f4").reshape(-1, 3)


def main(folder):
    triangles = vectors(folder, "triangles").reshape(-1, 3, 3)
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, triangles)
    for name in ("coherent", "incoherent"):
        origins, directions = vectors(folder, name + "-origins"), vectors(folder, name + "-directions")
        ours = np.fromfile(os.path.join(folder, name + "-distances.f32"), "<f4")
        # The first query also builds the hierarchy.
        found = scene.run(origins, directions, query="INTERSECT", output=True)
        rates = []
        for _ in range(RUNS):
            begun = time.perf_counter()
            scene.run(origins, directions, query="INTERSECT")
            rates.append(len(origins) / (time.perf_counter() - begun) / 1e6)
        distances = np.asarray(found["tfar"])
        print(
            json.dumps(
                {
                    "program": "embree",
                    "rays": name,
                    "triangles": len(triangles),
                    "million_rays_per_s": float(np.median(rates)),
                    "best": max(rates),
                    "share_that_differs": float(np.mean(np.abs(distances - ours) > 1e-4)),
                }
            ),
            flush=True,
        )


if __name__ == "__main__":
    main(*sys.argv[1:])
