//! Sitters as surfaces: measured like people, and checked for anything that a renderer would show.

use std::collections::HashMap;

use glam::Vec3;
use scene::figure::{
    FaceShape, Figure, FigureError, FigureRecipe, Garment, HairStyle, Part, Posture, build, face_sliders,
};

fn adult(masculinity: f32) -> FigureRecipe {
    FigureRecipe {
        masculinity,
        hair: HairStyle::Bald,
        ..FigureRecipe::default()
    }
}

/// Points of the triangles of a part.
fn points(figure: &Figure, part: Part) -> Vec<Vec3> {
    let mut used = vec![false; figure.positions.len()];
    for (t, p) in figure.triangles.iter().zip(&figure.parts) {
        if *p == part {
            t.iter().for_each(|v| used[*v as usize] = true);
        }
    }
    figure
        .positions
        .iter()
        .zip(used)
        .filter(|(_, u)| *u)
        .map(|(p, _)| *p)
        .collect()
}

fn breadth(points: impl Iterator<Item = Vec3>) -> f32 {
    let (low, high) = points.fold((f32::MAX, f32::MIN), |(l, h), p| (l.min(p.x), h.max(p.x)));
    high - low
}

/// Girth of the skin cut by the plane through `at` square to `axis`, near the neck.
fn girth(figure: &Figure, at: Vec3, axis: Vec3) -> f32 {
    let mut length = 0.0;
    for (t, part) in figure.triangles.iter().zip(&figure.parts) {
        let corner = t.map(|v| figure.positions[v as usize]);
        if *part != Part::Skin || corner[0].distance(at) > 0.2 {
            continue;
        }
        let height = corner.map(|p| (p - at).dot(axis));
        let cut: Vec<Vec3> = (0..3)
            .filter(|k| (height[*k] > 0.0) != (height[(k + 1) % 3] > 0.0))
            .map(|k| {
                let next = (k + 1) % 3;
                corner[k].lerp(corner[next], height[k] / (height[k] - height[next]))
            })
            .collect();
        if let [a, b] = cut[..] {
            length += a.distance(b);
        }
    }
    length
}

/// The measures of the survey, in millimetres, taken off the surface.
fn measures(masculinity: f32) -> HashMap<&'static str, f32> {
    let figure = build(&adult(masculinity)).expect("an adult");
    let skin = points(&figure, Part::Skin);
    let marks = &figure.landmarks;
    let eye = marks.eye_left.position;
    let glabella = marks.brow.position;
    let sellion = marks.face_centre.position;
    let mut all = HashMap::new();
    let mut put = |name, metres: f32| all.insert(name, metres * 1000.0);
    // Greatest breadth above the ears.
    put(
        "headbreadth",
        breadth(skin.iter().copied().filter(|p| p.z > eye.z + 0.042)),
    );
    // From the glabella to the furthest point of the back of the head in the middle plane.
    let middle = |p: &&Vec3| p.x.abs() < 0.004 && p.z > eye.z - 0.05;
    put(
        "headlength",
        skin.iter()
            .filter(middle)
            .map(|p| p.distance(glabella))
            .fold(0.0, f32::max),
    );
    // Greatest breadth over the cheek bones: before the ears, between the eyes and the nose's foot.
    let before_ear = marks.ear_left.position.y - 0.030;
    let low = marks.under_nose.position.z;
    put(
        "bizygomaticbreadth",
        breadth(
            skin.iter()
                .copied()
                .filter(|p| p.y < before_ear && p.z > low && p.z < eye.z + 0.005),
        ),
    );
    // Lowest point of the chin in the middle plane.
    let menton = skin
        .iter()
        .filter(|p| p.x.abs() < 0.004 && p.z < marks.chin.position.z && p.y < marks.chin.position.y + 0.025)
        .min_by(|a, b| a.z.total_cmp(&b.z))
        .expect("a chin");
    put("mentonsellionlength", menton.distance(sellion));
    put(
        "interpupillarybreadth",
        marks.eye_left.position.distance(marks.eye_right.position),
    );
    put("stature", marks.vertex.position.z);
    put("eye below vertex", marks.vertex.position.z - eye.z);
    // Square to the neck, which leans forwards by about 20 degrees, under the larynx.
    let (sin, cos) = 20.0_f32.to_radians().sin_cos();
    for k in 0..6 {
        println!(
            "girth {k} {}",
            girth(
                &figure,
                *menton + Vec3::new(0.0, 0.06, -0.02 - 0.01 * k as f32),
                Vec3::new(0.0, -sin, cos)
            )
        );
    }

    let sitting = build(&FigureRecipe {
        posture: Posture::Sitting,
        ..adult(masculinity)
    })
    .expect("a sitter");
    let seat = points(&sitting, Part::Trousers)
        .into_iter()
        .filter(|p| p.y > -0.15)
        .map(|p| p.z)
        .fold(f32::MAX, f32::min);
    put("sittingheight", sitting.landmarks.vertex.position.z - seat);
    put("eyeheightsitting", sitting.landmarks.eye_left.position.z - seat);
    all
}

#[test]
fn average_adults_measure_like_the_survey() {
    let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../checks/head.json"))
        .expect("the survey");
    let survey: serde_json::Value = serde_json::from_str(&text).expect("valid figures");
    let mut wrong = Vec::new();
    for (sex, masculinity) in [("female", 0.0), ("male", 1.0)] {
        let found = measures(masculinity);
        for case in survey["cases"].as_array().expect("cases") {
            let Some(value) = case["dimension"].as_str().and_then(|d| found.get(d)) else {
                continue;
            };
            let figure = |what: &str| case[format!("{sex}_{what}_mm")].as_f64().expect("a figure") as f32;
            let (mean, sd) = (figure("mean"), figure("sd"));
            let line = format!(
                "{sex} {}: {value:.1} against {mean:.1} ± {sd:.1}",
                case["dimension"]
            );
            println!("{line}");
            if (value - mean).abs() > sd {
                wrong.push(line);
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
