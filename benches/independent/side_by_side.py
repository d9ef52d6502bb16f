"""Runs our benchmarks and the other programs' one after the other and prints what the ratios are.

    python3 benches/independent/side_by_side.py [--seconds 60]

Every line of JSON is shown as it comes; the table at the end compares processor time, which a busy
machine disturbs less than the clock on the wall.
"""

import argparse
import json
import os
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.join(HERE, "../..")


def lines(command):
    """The JSON lines that a program prints."""
    run = subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, text=True, check=True)
    found = [json.loads(line) for line in run.stdout.splitlines() if line.startswith("{")]
    for line in found:
        print(json.dumps(line), flush=True)
    return found


def target_folder():
    metadata = subprocess.run(
        ["cargo", "metadata", "--format-version", "1", "--no-deps"], cwd=ROOT, stdout=subprocess.PIPE, check=True
    )
    return os.path.join(json.loads(metadata.stdout)["target_directory"], "tmp", "independent")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--seconds", default="60", help="how long the other renderer is watched, per scene")
    seconds = parser.parse_args().seconds
    folder = target_folder()
    python = lambda script, *rest: [sys.executable, os.path.join(HERE, script), *rest]
    bench = lambda name: ["cargo", "bench", "-q", "-p", "transport", "--bench", name]

    rays = {line["rays"]: line for line in lines(bench("rays"))}
    embree = {line["rays"]: line for line in lines(python("embree_rays.py", os.path.join(folder, "rays")))}
    proofs = {line["case"]: line for line in lines(bench("proof"))}
    others = {
        case: lines(python("mitsuba_time.py", os.path.join(folder, case), "--seconds", seconds))[0]
        for case in proofs
    }

    print("\nclosest hit, one thread, million rays per second")
    for name, ours in rays.items():
        theirs = embree[name]["million_rays_per_s"]
        ratio = ours["million_rays_per_s"] / theirs
        print(f"  {name:11} ours {ours['million_rays_per_s']:5.2f}  Embree {theirs:5.2f}  ours is {ratio:.2f} of it")
    print("\nface at 400 x 500 right to 2 %, processor seconds")
    for case, ours in proofs.items():
        low, high = ours["error_against_referee"]
        here, there = ours["cpu_s_to_2_percent_by_pairs"], others[case]["cpu_s_to_2_percent"]
        print(
            f"  {case:11} ours {here:7.1f} (error against the referee {100 * low:.1f} to {100 * high:.1f} %)"
            f"  the other {there:9.1f}  {there / here:.0f} times as long"
        )


if __name__ == "__main__":
    main()
