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
    import numpy as np
except ImportError as missing:
    sys.exit(f"missing: {missing}")

if __name__ == "__main__":
    mi.set_variant(choose_variant())


def vectorised():
    return not mi.variant().startswith("scalar")


def rgb(values):
    return {"type": "rgb", "value": [float(v) for v in values]}


def flash_dictionary(flash):
    """A point with a beam, as six projectors (fewer where a side is dark) that look through the sides of a cube.

    Each picks its share of the samples by the light that leaves through its side; together they weigh as much
    as one other source.
    """
    turn = mi.ScalarTransform4f()
    place = np.array(flash["position"])
    projectors = {}
    whole = sum(side["light"] for side in flash["sides"])
    for number, side in enumerate(flash["sides"]):
        size = side["size"]
        # A projector shines with pi times its picture over the cube of the cosine; the picture has that in it.
        picture = np.fromfile(side["picture"], "<f4").reshape(size, size, 1)
        picture = picture * np.array(flash["weights"], "<f4")
        projectors[f"flash{number}"] = {
            "type": "projector",
            "fov": 90.0,
            "to_world": turn.look_at(
                origin=place.tolist(), target=(place + side["forward"]).tolist(), up=side["up"]
            ),
            "irradiance": {
                "type": "bitmap",
                "bitmap": mi.Bitmap(picture),
                "raw": True,
                "filter_type": "bilinear",
                "wrap_mode": "clamp",
            },
            "sampling_weight": side["light"] / whole,
        }
    return projectors


def outdoor_dictionary(outdoors):
    """The outdoors as a picture all round, and the sun as light from one direction."""
    turn = mi.ScalarTransform4f()
    width, height = outdoors["width"], outdoors["height"]
    picture = np.fromfile(outdoors["picture"], "<f4").reshape(height, width, 3)
    lights = {
        "outdoors": {
            "type": "envmap",
            "bitmap": mi.Bitmap(picture),
            # Its own up is y, its first column lies along -z.
            "to_world": turn.rotate([1, 0, 0], 90),
        }
    }
    for number, sun in enumerate(outdoors["suns"]):
        lights[f"sun{number}"] = {
            "type": "directional",
            "direction": [-v for v in sun["towards"]],
            "irradiance": rgb(sun["illuminance"]),
        }
    return lights


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
    if description["flash"]:
        scene.update(flash_dictionary(description["flash"]))
    if description["outdoors"]:
        scene.update(outdoor_dictionary(description["outdoors"]))
    return scene


def path_integrator():
    return mi.load_dict({"type": "path", "max_depth": -1, "rr_depth": 8})


def film_dictionary(width, height):
    return {
        "type": "hdrfilm",
        "width": width,
        "height": height,
        "pixel_format": "rgb",
        "component_format": "float32",
        "rfilter": {"type": "box"},
    }


# Edge of the film of a meter in pixels: each pixel is an independent repeat.
REPEATS = 32


def meter_sensor(meter):
    """A flat receptor. Its shape is no part of the scene, so that it shades nothing, itself included."""
    turn = mi.ScalarTransform4f()
    place, normal = np.array(meter["position"]), np.array(meter["normal"])
    up = [0, 0, 1] if abs(normal[2]) < 0.9 else [1, 0, 0]
    return mi.load_dict(
        {
            "type": "rectangle",
            "to_world": turn.look_at(origin=place.tolist(), target=(place + normal).tolist(), up=up)
            @ turn.scale(1e-5),
            "sensor": {
                "type": "irradiancemeter",
                "film": film_dictionary(REPEATS, REPEATS),
                "sampler": {"type": "independent"},
            },
        }
    )


def straight_from_points(scene, meter):
    """Illuminance straight from sources without size, which no ray from a receptor ever meets."""
    at = dr.zeros(mi.SurfaceInteraction3f)
    at.p, normal = mi.Point3f(meter["position"]), mi.Normal3f(meter["normal"])
    total = np.zeros(3)
    for emitter in scene.emitters():
        if emitter.flags() & (int(mi.EmitterFlags.DeltaPosition) | int(mi.EmitterFlags.DeltaDirection)) == 0:
            continue
        sample, strength = emitter.sample_direction(at, mi.Point2f(0.5))
        cosine = float(np.ravel(dr.dot(normal, sample.d))[0])
        ray = mi.Ray3f(at.p, sample.d)
        ray.maxt = sample.dist * (1 - 1e-4)
        if cosine > 0 and not np.ravel(scene.ray_test(ray))[0]:
            total += cosine * np.ravel(np.array(strength))
    return total


def read_meters(description, samples):
    scene = mi.load_dict(scene_dictionary(description))
    integrator = path_integrator()
    readings = []
    for number, meter in enumerate(description["meters"]):
        shape = meter_sensor(meter)
        film = mi.render(scene, sensor=shape.sensor(), integrator=integrator, spp=samples, seed=1 + number)
        mean, error = mean_and_error(np.array(film, dtype=np.float64).reshape(-1, 3))
        mean += straight_from_points(scene, meter)
        readings.append({"name": meter["name"], "mean": mean.tolist(), "standard_error": error.tolist()})
    return readings


def mean_and_error(repeats):
    repeats = np.array(repeats)
    error = repeats.std(axis=0, ddof=1) / np.sqrt(len(repeats))
    return repeats.mean(axis=0), error


def camera_dictionary(camera):
    turn = mi.ScalarTransform4f()
    return {
        "type": "perspective",
        "fov": camera["vertical_field_degrees"],
        "fov_axis": "y",
        "near_clip": 0.01,
        "to_world": turn.look_at(origin=camera["position"], target=camera["look_at"], up=[0, 0, 1]),
        "film": film_dictionary(camera["width"], camera["height"]),
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
    effort = request["effort"]["vectorised" if vectorised() else "scalar"]
    asked = request["reflectances"]
    answer = {"renderer": f"mitsuba {mi.__version__}", "variant": mi.variant(), "scenes": []}
    answer["reflectances"] = reflectances_kept(asked)
    for description in request["scenes"]:
        begun = time.perf_counter()
        scene = {"name": description["name"]}
        scene["meters"] = read_meters(description, description["effort"] * effort["meter_samples"])
        scene["meter_seconds"] = time.perf_counter() - begun
        if description["camera"]:
            scene["picture"] = take_picture(description, effort["picture_samples"], effort["picture_repeats"])
        scene["seconds"] = time.perf_counter() - begun
        answer["scenes"].append(scene)
    with open(answer_path, "w") as file:
        json.dump(answer, file)


if __name__ == "__main__":
    main(*sys.argv[1:])
