//! Sitters as surfaces: measured like people, and checked for anything that a renderer would show.

#![allow(
    clippy::print_stdout,
    reason = "measures are easier to judge beside one another"
)]

use std::collections::HashMap;
use std::sync::Arc;

use glam::Vec3;
use scene::figure::{
    FaceShape, Figure, FigureError, FigureRecipe, Garment, HairStyle, KeptFigure, Part, Posture, build,
    face_sliders,
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
    // Square to the neck, which leans forwards by about 20 degrees, below the larynx.
    let (sin, cos) = 20.0_f32.to_radians().sin_cos();
    let open = build(&FigureRecipe {
        garment: Garment::VNeck,
        ..adult(masculinity)
    })
    .expect("an adult");
    put(
        "neckcircumference",
        girth(
            &open,
            *menton + Vec3::new(0.0, 0.06, -0.04),
            Vec3::new(0.0, -sin, cos),
        ),
    );

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

/// Recipes that between them use every option, with extremes.
fn many() -> Vec<FigureRecipe> {
    let mut all = Vec::new();
    let ancestries = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [0.2, 0.3, 0.5]];
    let hair = [HairStyle::Bald, HairStyle::Short, HairStyle::Bob, HairStyle::Cap];
    let garments = [Garment::Crew, Garment::VNeck, Garment::Tunic];
    for (i, age_years) in [3.0, 8.0, 14.0, 25.0, 52.0, 90.0].into_iter().enumerate() {
        for (j, masculinity) in [0.0, 0.5, 1.0].into_iter().enumerate() {
            let k = i * 3 + j;
            all.push(FigureRecipe {
                age_years,
                masculinity,
                ancestry: ancestries[k % 4],
                build: [-1.0, 0.0, 1.0, 0.4][(k + i) % 4],
                stature_m: None,
                face: FaceShape::numbered(k as u32),
                posture: if k % 3 == 1 {
                    Posture::Sitting
                } else {
                    Posture::Standing
                },
                hair: hair[(k + j) % 4],
                garment: garments[(i + j) % 3],
                head_turn_deg: [0.0, 30.0, -45.0][k % 3],
                head_tilt_deg: [0.0, -8.0][k % 2],
                head_nod_deg: [0.0, 10.0, -10.0][i % 3],
            });
        }
    }
    all
}

#[test]
fn every_figure_is_sound() {
    for recipe in many() {
        let figure = build(&recipe).expect("a figure");
        let count = figure.positions.len();
        assert_eq!((figure.normals.len(), figure.blend.len()), (count, count));
        assert_eq!(figure.parts.len(), figure.triangles.len());
        assert!(
            (20_000..=110_000).contains(&figure.triangles.len()),
            "{} triangles",
            figure.triangles.len()
        );
        for p in &figure.positions {
            assert!(
                p.is_finite() && p.x.abs() < 1.2 && p.y.abs() < 1.2 && p.z > -1e-4 && p.z < 2.3,
                "{p} in {recipe:?}"
            );
        }
        assert!(
            figure.normals.iter().all(|n| (n.length() - 1.0).abs() < 1e-4),
            "{recipe:?}"
        );
        assert!(
            figure.blend.iter().flatten().all(|b| (0.0..=1.0).contains(b)),
            "{recipe:?}"
        );
        for t in &figure.triangles {
            let [a, b, c] = t.map(|v| figure.positions[v as usize]);
            assert!(
                (b - a).cross(c - a).length() > 1e-13,
                "a triangle without area in {recipe:?}"
            );
        }
        for part in [
            Part::Skin,
            Part::Sclera,
            Part::Iris,
            Part::Pupil,
            Part::Lash,
            Part::Top,
            Part::Trousers,
            Part::Shoes,
        ] {
            assert!(figure.parts.contains(&part), "no {part:?} in {recipe:?}");
        }
        assert_eq!(figure.parts.contains(&Part::Cap), recipe.hair == HairStyle::Cap);
    }
}

#[test]
fn named_places_lie_where_their_names_say() {
    for recipe in many() {
        let upright = FigureRecipe {
            head_turn_deg: 0.0,
            head_tilt_deg: 0.0,
            head_nod_deg: 0.0,
            ..recipe
        };
        let m = build(&upright).expect("a figure").landmarks;
        let down = [
            m.vertex,
            m.forehead,
            m.brow,
            m.face_centre,
            m.nose_tip,
            m.under_nose,
            m.lip_upper,
            m.lip_lower,
            m.chin,
        ];
        for pair in down.windows(2) {
            assert!(
                pair[0].position.z > pair[1].position.z,
                "{:?} above {:?} in {upright:?}",
                pair[0],
                pair[1]
            );
        }
        for (left, right) in [
            (m.cheek_upper_left, m.cheek_upper_right),
            (m.nose_side_left, m.nose_side_right),
            (m.eye_socket_left, m.eye_socket_right),
            (m.ear_left, m.ear_right),
            (m.eye_left, m.eye_right),
        ] {
            assert!(left.position.x > 0.0, "the sitter's left is at +x");
            assert!(left.position.distance(right.position * Vec3::new(-1.0, 1.0, 1.0)) < 1e-5);
        }
        // Nothing of the face is further forwards than the nose, and an eye lies behind its brow.
        assert!(m.iter().all(|(_, l)| l.position.y >= m.nose_tip.position.y));
        assert!(m.eye_left.position.y > m.brow.position.y);
        assert!(
            m.nose_side_left.normal.x > 0.2 && m.nose_side_left.normal.y < 0.0,
            "{:?}",
            m.nose_side_left
        );
        assert!(m.forehead.normal.y < -0.5, "{:?}", m.forehead);
        assert!(m.chin.normal.y < -0.5, "{:?}", m.chin);
        assert!(m.vertex.normal.z > 0.9, "{:?}", m.vertex);
        assert!(m.iter().all(|(_, l)| (l.normal.length() - 1.0).abs() < 1e-4));
    }
}

#[test]
fn eyes_sit_between_their_lids() {
    for recipe in many() {
        let figure = build(&FigureRecipe {
            head_turn_deg: 0.0,
            head_tilt_deg: 0.0,
            head_nod_deg: 0.0,
            ..recipe.clone()
        })
        .expect("a figure");
        let pupil = figure.landmarks.eye_left.position;
        let near: Vec<Vec3> = points(&figure, Part::Skin)
            .into_iter()
            .filter(|p| (p.x - pupil.x).abs() < 0.0025 && p.y < pupil.y + 0.004)
            .collect();
        let above = near
            .iter()
            .filter(|p| p.z > pupil.z)
            .map(|p| p.z - pupil.z)
            .fold(f32::MAX, f32::min);
        let below = near
            .iter()
            .filter(|p| p.z < pupil.z)
            .map(|p| pupil.z - p.z)
            .fold(f32::MAX, f32::min);
        // The upper lid covers the top of an iris of 5.9 mm radius; neither lid covers the pupil.
        assert!(
            (0.0018..0.0062).contains(&above),
            "upper lid {above} m above the pupil in {recipe:?}"
        );
        assert!(
            (0.0018..0.0075).contains(&below),
            "lower lid {below} m below the pupil in {recipe:?}"
        );
    }
}

#[test]
fn both_sides_of_the_face_are_alike() {
    let figure = build(&adult(0.3)).expect("an adult");
    let skin = points(&figure, Part::Skin);
    let cell = |p: Vec3| (p * 2000.0).round().as_ivec3();
    let mut cells: HashMap<_, Vec<Vec3>> = HashMap::new();
    skin.iter()
        .for_each(|p| cells.entry(cell(*p)).or_default().push(*p));
    for p in skin.iter().filter(|p| p.z > figure.landmarks.chin.position.z) {
        let mirrored = *p * Vec3::new(-1.0, 1.0, 1.0);
        let middle = cell(mirrored);
        let found = (-1..=1).any(|x| {
            (-1..=1).any(|y| {
                (-1..=1).any(|z| {
                    cells
                        .get(&(middle + glam::IVec3::new(x, y, z)))
                        .is_some_and(|list| list.iter().any(|q| q.distance(mirrored) < 2e-5))
                })
            })
        });
        assert!(found, "no counterpart of {p}");
    }
}

/// Whether a ray meets any triangle (Möller and Trumbore 1997).
fn blocked(figure: &Figure, from: Vec3, way: Vec3) -> bool {
    figure.triangles.iter().any(|t| {
        let [a, b, c] = t.map(|v| figure.positions[v as usize]);
        let (e, f) = (b - a, c - a);
        let p = way.cross(f);
        let det = e.dot(p);
        if det.abs() < 1e-14 {
            return false;
        }
        let s = from - a;
        let u = s.dot(p) / det;
        let q = s.cross(e);
        let v = way.dot(q) / det;
        u >= 0.0 && v >= 0.0 && u + v <= 1.0 && f.dot(q) / det > 0.0
    })
}

#[test]
fn the_skin_of_the_face_has_no_cracks() {
    for recipe in many() {
        let recipe = FigureRecipe {
            hair: HairStyle::Bald,
            head_turn_deg: 0.0,
            head_tilt_deg: 0.0,
            head_nod_deg: 0.0,
            posture: Posture::Standing,
            ..recipe
        };
        let figure = build(&recipe).expect("a figure");
        let mut uses: HashMap<(u32, u32), i32> = HashMap::new();
        let mut directed: HashMap<(u32, u32), i32> = HashMap::new();
        for (t, part) in figure.triangles.iter().zip(&figure.parts) {
            if *part == Part::Skin {
                for k in 0..3 {
                    let (a, b) = (t[k], t[(k + 1) % 3]);
                    *uses.entry((a.min(b), a.max(b))).or_default() += 1;
                    *directed.entry((a, b)).or_default() += 1;
                }
            }
        }
        assert!(
            directed.values().all(|n| *n == 1),
            "an edge is walked twice the same way in {recipe:?}"
        );
        let m = &figure.landmarks;
        let views = [
            (-1.2, 0.0),
            (-0.6, 0.0),
            (0.0, 0.0),
            (0.6, 0.0),
            (1.2, 0.0),
            (0.0, 0.4),
            (0.0, -0.4),
        ]
        .map(|(x, z)| Vec3::new(x, -1.0, z).normalize());
        let top = points(&figure, Part::Top);
        for ((a, b), _) in uses.iter().filter(|(_, n)| **n == 1) {
            let p = (figure.positions[*a as usize] + figure.positions[*b as usize]) / 2.0;
            let under_cloth =
                p.z < m.chin.position.z && top.iter().any(|q| q.distance(p) < 0.06 && q.z > p.z);
            let eye = if p.x > 0.0 {
                m.eye_left.position
            } else {
                m.eye_right.position
            };
            // On or behind the eyeball, within the socket.
            let behind_eye = p.distance(eye + Vec3::Y * 0.016) < 0.021 && p.y > eye.y + 0.002;
            // Anything else must be inside the head, out of sight from wherever a camera could see the face.
            let hidden = || {
                views
                    .iter()
                    .all(|view| blocked(&figure, p + *view * 0.0002, *view))
            };
            let from_eye = p - eye;
            assert!(
                under_cloth || behind_eye || hidden(),
                "a crack at {p}, {from_eye} from the eye, in {recipe:?}"
            );
        }
    }
}

#[test]
fn recipes_are_obeyed() {
    let figure = |recipe: FigureRecipe| build(&recipe).expect("a figure");
    for stature in [1.0, 1.5, 1.9] {
        let built = figure(FigureRecipe {
            stature_m: Some(stature),
            ..adult(0.5)
        });
        assert!(
            (built.landmarks.vertex.position.z - stature).abs() < 0.004,
            "{stature}"
        );
    }
    let turned = figure(FigureRecipe {
        head_turn_deg: 30.0,
        ..adult(0.5)
    })
    .landmarks
    .face_centre
    .normal;
    assert!(
        (turned.x.atan2(-turned.y).to_degrees() - 30.0).abs() < 0.1,
        "towards the sitter's left: {turned}"
    );
    let nodded = figure(FigureRecipe {
        head_nod_deg: 10.0,
        ..adult(0.5)
    })
    .landmarks
    .face_centre
    .normal;
    assert!(
        (nodded.z.asin().to_degrees() + 10.0).abs() < 0.1,
        "down: {nodded}"
    );
    let tilted = figure(FigureRecipe {
        head_tilt_deg: 10.0,
        ..adult(0.5)
    })
    .landmarks;
    assert!(tilted.eye_left.position.z < tilted.eye_right.position.z);
    assert_eq!(
        figure(adult(1.0)),
        figure(adult(1.0)),
        "the same recipe gives the same figure"
    );
    assert_ne!(FaceShape::numbered(1), FaceShape::numbered(2));
}

#[test]
fn a_kept_figure_is_that_of_the_recipe_asked_for() {
    let kept = KeptFigure::default();
    let of = |kept: &KeptFigure, recipe: &FigureRecipe| kept.of(recipe).expect("a figure");
    let (man, woman) = (adult(1.0), adult(0.0));
    let first = of(&kept, &man);
    assert_eq!(*first, build(&man).expect("a figure"));
    assert!(
        Arc::ptr_eq(&first, &of(&kept.clone(), &man)),
        "a clone finds what was made"
    );
    assert_eq!(*of(&kept, &woman), build(&woman).expect("a figure"));
}

#[test]
fn impossible_recipes_are_refused() {
    let error = |recipe: FigureRecipe| build(&recipe).expect_err("an impossible recipe");
    for recipe in [
        FigureRecipe {
            age_years: 2.0,
            ..adult(0.5)
        },
        FigureRecipe {
            age_years: f32::NAN,
            ..adult(0.5)
        },
        FigureRecipe {
            masculinity: 1.5,
            ..adult(0.5)
        },
        FigureRecipe {
            ancestry: [0.0; 3],
            ..adult(0.5)
        },
        FigureRecipe {
            ancestry: [1.0, -0.5, 0.0],
            ..adult(0.5)
        },
        FigureRecipe {
            stature_m: Some(3.0),
            ..adult(0.5)
        },
        FigureRecipe {
            head_turn_deg: 90.0,
            ..adult(0.5)
        },
        FigureRecipe {
            face: FaceShape {
                sliders: vec![("nose hump".into(), 1.5)],
            },
            ..adult(0.5)
        },
    ] {
        assert!(matches!(error(recipe), FigureError::OutOfRange { .. }));
    }
    let unknown = FaceShape {
        sliders: vec![("no such thing".into(), 0.5)],
    };
    let found = error(FigureRecipe {
        face: unknown,
        ..adult(0.5)
    });
    assert_eq!(found, FigureError::UnknownSlider("no such thing".into()));
    for name in face_sliders().expect("sliders") {
        for amount in [-0.5, 0.5] {
            let face = FaceShape {
                sliders: vec![(name.to_owned(), amount)],
            };
            assert!(build(&FigureRecipe { face, ..adult(0.5) }).is_ok(), "{name}");
        }
    }
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
