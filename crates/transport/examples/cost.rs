#[path = "../tests/places/mod.rs"]
mod places;
use std::time::Instant;
use transport::*;
fn main() {
    for place in places::TestPlace::all() {
        let t = Instant::now();
        let stage = place.stage();
        let a = t.elapsed().as_secs_f64();
        let t = Instant::now();
        let tracer = Tracer::new(&stage.geometry);
        let b = t.elapsed().as_secs_f64();
        drop(tracer);
        let meters = place.meters(&stage);
        for fine in [
            Fineness::operator_in(place.area()),
            Fineness::sketch_in(place.area()),
            Fineness {
                pitch_m: 0.3,
                rays: 25,
            },
        ] {
            let t = Instant::now();
            let room = Room::new(stage.geometry.clone(), fine, 1);
            let c = t.elapsed().as_secs_f64();
            let t = Instant::now();
            let op = Operator::solve(&room, &meters);
            let d = t.elapsed().as_secs_f64();
            let t = Instant::now();
            let aims = places::random_aims(&place, 10);
            let map = AimMap::new(&room, &op, aims[0].0.position);
            let e = t.elapsed().as_secs_f64();
            let flashes: Vec<_> = aims
                .iter()
                .map(|(f, _)| {
                    let mut f = f.clone();
                    f.position = map.position();
                    f
                })
                .collect();
            let t = Instant::now();
            let mut out = vec![colour::Spectrum::ZERO; meters.len()];
            let mut s = 0.0;
            for i in 0..20000 {
                map.read_meters(&op, &flashes[i % 10], &mut out);
                s += out[0].mean();
            }
            let f = t.elapsed().as_secs_f64() / 20000.0;
            println!(
                "{}: assemble {a:.3} bvh {b:.3} | {fine:?} room {c:.3} operator {d:.3} map {e:.3} aim {:.2} us ({s:.0}) meters {}",
                place.name,
                f * 1e6,
                meters.len()
            );
        }
    }
}
