"""Renders exported scenes with Mitsuba 3, a general-purpose renderer that shares no code with this project.

    python3 renderer.py REQUEST.json ANSWER.json

The request lists scenes (see mod.rs beside this file). The answer holds, for every scene, the illuminance
at every meter and, where a camera is given, a picture, each with its standard error from independent
repeats. Three channels are carried as plain numbers: nothing here is a colour.
"""

import json
import subprocess
import sys
import time

import numpy as np

TRIAL = """
import drjit as dr, mitsuba as mi
mi.set_variant("llvm_ad_rgb")
assert dr.all(mi.Float([1, 2]) * 2 == mi.Float([2, 4]))
"""


def choose_variant():
    """The vectorised variant where its compiler works, the scalar one elsewhere.

    It is tried in a process of its own, because a compiler of the wrong age ends the process.
    """
    trial = subprocess.run([sys.executable, "-c", TRIAL], capture_output=True)
    return "llvm_ad_rgb" if trial.returncode == 0 else "scalar_rgb"


try:
    import drjit as dr
    import mitsuba as mi
except ImportError as missing:
    sys.exit(f"missing: {missing}")

if __name__ == "__main__":
    mi.set_variant(choose_variant())


def vectorised():
    return not mi.variant().startswith("scalar")


def rgb(values):
    return {"type": "rgb", "value": [float(v) for v in values]}


def make_flash_class():
    """The class is made late, because its base depends on the variant."""

    class TabulatedPoint(mi.Emitter):
        """A point whose intensity by direction comes from a table, linear between its entries."""

        def __init__(self, props):
            super().__init__(props)
            self.m_flags = mi.EmitterFlags.DeltaPosition
            rows, columns = int(props["rows"]), int(props["columns"])
            table = np.fromfile(props["table"], "<f4").reshape(rows, columns)
            # One more column on either side closes the circle.
            table = np.concatenate([table[:, -1:], table, table[:, :1]], axis=1)
            self.columns = columns
            self.table = mi.Texture2f(
                mi.TensorXf(np.ascontiguousarray(table[..., None])), wrap_mode=dr.WrapMode.Clamp
            )
            self.place = [float(v) for v in props["place"].split()]
            self.axes = np.array([float(v) for v in props["axes"].split()]).reshape(3, 3).tolist()

        def intensity(self, direction):
            x, y, z = (dr.dot(mi.Vector3f(*axis), direction) for axis in self.axes)
            row = dr.sqrt(dr.acos(dr.clip(z, -1, 1)) / dr.pi)
            turn = dr.atan2(y, x) / (2 * dr.pi)
            turn = turn - dr.floor(turn)
            column = (turn * self.columns + 1) / (self.columns + 2)
            return self.table.eval(mi.Point2f(column, row))[0]

        def sample_direction(self, it, sample, active=True):
            ds = mi.DirectionSample3f()
            ds.p = mi.Point3f(*self.place)
            ds.n = mi.Normal3f(0)
            ds.uv = mi.Point2f(0)
            ds.time = it.time
            ds.pdf = mi.Float(1)
            ds.delta = mi.Bool(True)
            ds.emitter = mi.EmitterPtr(self) if vectorised() else self
            towards = ds.p - it.p
            square = dr.squared_norm(towards)
            ds.dist = dr.sqrt(square)
            ds.d = towards / ds.dist
            return ds, spectrum(self.intensity(-ds.d) / square)

        def pdf_direction(self, it, ds, active=True):
            return mi.Float(0)

        def eval_direction(self, it, ds, active=True):
            return spectrum(mi.Float(0))

        def eval(self, si, active=True):
            return spectrum(mi.Float(0))

        def bbox(self):
            return mi.ScalarBoundingBox3f(self.place)

        def to_string(self):
            return "TabulatedPoint[]"

    return TabulatedPoint


def spectrum(value):
    """The same strength in every channel."""
    return mi.UnpolarizedSpectrum(value)


def register_flash():
    kind = make_flash_class()
    mi.register_emitter("tabulated_point", lambda props: kind(props))


def words(values):
    return " ".join(repr(float(v)) for v in np.ravel(values))


def scene_dictionary(description, reflectance=lambda mesh: rgb(mesh["channels"])):
    """What the renderer needs to build a scene: meshes and sources, without meters and camera."""
    scene = {"type": "scene"}
    for number, mesh in enumerate(description["meshes"]):
        matt = {"type": "diffuse", "reflectance": reflectance(mesh)}
        shape = {
            "type": "ply",
            "filename": mesh["ply"],
            "face_normals": not mesh["smooth"],
            "surface": {"type": "twosided", "bsdf": matt} if mesh["two_sided"] else matt,
        }
        if mesh["luminance"] > 0:
            shape["glow"] = {"type": "area", "radiance": rgb([mesh["luminance"]] * 3)}
        scene[f"mesh{number}"] = shape
    flash = description["flash"]
    if flash:
        scene["flash"] = {
            "type": "tabulated_point",
            "table": flash["table"],
            "rows": flash["rows"],
            "columns": flash["columns"],
            "place": words(flash["position"]),
            "axes": words(flash["axes"]),
        }
    return scene


def add_probes(scene, meters):
    """A meter is a white matt disc of a tenth of a millimetre, looked at from in front of it.

    Its radiance times pi is the illuminance, direct light from a point included.
    """
    turn = mi.ScalarTransform4f()
    for number, meter in enumerate(meters):
        place, normal = np.array(meter["position"]), np.array(meter["normal"])
        up = [0, 0, 1] if abs(normal[2]) < 0.9 else [1, 0, 0]
        scene[f"probe{number}"] = {
            "type": "disk",
            "to_world": turn.look_at(origin=place.tolist(), target=(place + normal).tolist(), up=up)
            @ turn.scale(1e-4),
            "bsdf": {"type": "diffuse", "reflectance": rgb([1, 1, 1])},
        }


def path_integrator():
    return mi.load_dict({"type": "path", "max_depth": -1, "rr_depth": 8})


LOOK_FROM = 3e-4


def look_at_probes(scene, integrator, sampler, meters, paths, seed):
    """Mean radiance of every probe over `paths` paths each: an array of meters by channels."""
    origins = np.array([m["position"] for m in meters]) + LOOK_FROM * np.array([m["normal"] for m in meters])
    directions = -np.array([m["normal"] for m in meters])
    if vectorised():
        sampler.seed(seed, paths * len(meters))
        which = [np.repeat(values, paths, axis=0).T.astype(np.float32) for values in (origins, directions)]
        ray = mi.Ray3f(mi.Point3f(which[0]), mi.Vector3f(which[1]))
        radiance, _, _ = integrator.sample(scene, sampler, mi.RayDifferential3f(ray))
        return np.array(radiance, dtype=np.float64).T.reshape(len(meters), paths, 3).mean(axis=1)
    means = []
    for number, (origin, direction) in enumerate(zip(origins, directions)):
        sampler.seed(seed * len(meters) + number, 1)
        ray = mi.RayDifferential3f(mi.Ray3f(origin.tolist(), direction.tolist()))
        total = np.zeros(3)
        for _ in range(paths):
            total += np.array(integrator.sample(scene, sampler, ray)[0])
        means.append(total / paths)
    return np.array(means)


def mean_and_error(repeats):
    repeats = np.array(repeats)
    error = repeats.std(axis=0, ddof=1) / np.sqrt(len(repeats))
    return repeats.mean(axis=0), error


def read_meters(description, paths, repeats):
    meters = description["meters"]
    dictionary = scene_dictionary(description)
    add_probes(dictionary, meters)
    scene = mi.load_dict(dictionary)
    integrator = path_integrator()
    sampler = mi.load_dict({"type": "independent"})
    readings = [
        np.pi * look_at_probes(scene, integrator, sampler, meters, paths, 1 + seed) for seed in range(repeats)
    ]
    mean, error = mean_and_error(readings)
    return [
        {"name": m["name"], "mean": mean[i].tolist(), "standard_error": error[i].tolist()}
        for i, m in enumerate(meters)
    ]


def camera_dictionary(camera, film=None):
    turn = mi.ScalarTransform4f()
    return {
        "type": "perspective",
        "fov": camera["vertical_field_degrees"],
        "fov_axis": "y",
        "near_clip": 0.01,
        "to_world": turn.look_at(origin=camera["position"], target=camera["look_at"], up=[0, 0, 1]),
        "film": film
        or {
            "type": "hdrfilm",
            "width": camera["width"],
            "height": camera["height"],
            "pixel_format": "rgb",
            "component_format": "float32",
            "rfilter": {"type": "box"},
        },
        "sampler": {"type": "independent"},
    }


def take_picture(description, samples, repeats):
    dictionary = scene_dictionary(description)
    dictionary["camera"] = camera_dictionary(description["camera"])
    scene = mi.load_dict(dictionary)
    integrator = path_integrator()
    pictures = [
        np.array(mi.render(scene, integrator=integrator, spp=samples, seed=1 + seed), dtype=np.float64)
        for seed in range(repeats)
    ]
    mean, error = mean_and_error(pictures)
    # The camera here has its x axis to the left, which the renderer undoes itself.
    return {"mean": mean.ravel().tolist(), "standard_error": error.ravel().tolist()}


def reflectances_kept(values):
    """What the renderer makes of three numbers given as a reflectance: they must come back untouched."""
    surface = mi.load_dict({"type": "diffuse", "reflectance": rgb(values)})
    at = dr.zeros(mi.SurfaceInteraction3f)
    at.wi = mi.Vector3f(0, 0, 1)
    return np.ravel(np.array(surface.eval(mi.BSDFContext(), at, mi.Vector3f(0, 0, 1))) * np.pi).tolist()


def main(request_path, answer_path):
    with open(request_path) as file:
        request = json.load(file)
    register_flash()
    effort = request["effort"]["vectorised" if vectorised() else "scalar"]
    asked = request["reflectances"]
    answer = {"renderer": f"mitsuba {mi.__version__}", "variant": mi.variant(), "scenes": []}
    answer["reflectances"] = reflectances_kept(asked)
    for description in request["scenes"]:
        begun = time.perf_counter()
        scene = {"name": description["name"]}
        scene["meters"] = read_meters(description, effort["meter_paths"], effort["repeats"])
        scene["meter_seconds"] = time.perf_counter() - begun
        if description["camera"]:
            scene["picture"] = take_picture(description, effort["picture_samples"], effort["repeats"])
        scene["seconds"] = time.perf_counter() - begun
        answer["scenes"].append(scene)
    with open(answer_path, "w") as file:
        json.dump(answer, file)


if __name__ == "__main__":
    main(*sys.argv[1:])
