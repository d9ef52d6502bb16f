//! Sentences: where to point, why not the others, what to look out for.

use crate::Job;
use crate::answer::{KeyReading, Route};
use crate::score::{Faults, cast_unusable};
use crate::ways::Way;
use glam::Vec3;
use light::HeadDress;

/// The name of a way in the photographer's words.
pub(crate) fn way_name(way: &Way) -> String {
    match (&way.route, way.dress) {
        (_, HeadDress::Dome) => "plastic dome, head turned up".to_owned(),
        (_, HeadDress::BounceCard) => "bounce card, head turned up".to_owned(),
        (Route::Direct, HeadDress::Umbrella(_)) => "through the umbrella".to_owned(),
        (Route::Direct, HeadDress::Softbox(_)) => "from the softbox".to_owned(),
        (
            Route::Bounce {
                face,
                corner_with: Some(other),
            },
            _,
        ) => {
            format!("{} with the {}", face.words(), other.words())
        }
        (Route::Bounce { face, .. }, _) => face.words().to_owned(),
        (Route::Standing { name }, _) => name.clone(),
        (Route::HeldBoard { name, .. }, _) => format!("{name}, held"),
        (Route::Direct, _) => "straight at the face".to_owned(),
    }
}

/// What takes light in front of the head, in words.
pub(crate) fn front_name(dress: HeadDress) -> &'static str {
    match dress {
        HeadDress::Umbrella(_) => "umbrella",
        HeadDress::Softbox(_) => "softbox",
        HeadDress::Bare | HeadDress::Dome | HeadDress::BounceCard => "",
    }
}

/// Clock hour (0..12) seen from above, sitter in the middle and camera at 6.
///
/// Light from straight behind the camera is 6; from the camera's left is 9.
pub(crate) fn clock(from_sitter: Vec3, to_camera: Vec3) -> f64 {
    let bearing = |v: Vec3| f64::from(v.x).atan2(f64::from(v.y)).to_degrees();
    // Seen from above, clockwise is from y towards x; the camera's bearing is six o'clock.
    (6.0 + (bearing(from_sitter) - bearing(to_camera)) / 30.0).rem_euclid(12.0)
}

/// "half past 7", "9 o'clock".
pub(crate) fn clock_words(hour: f64) -> String {
    let halves = (hour * 2.0).round() as i64;
    let whole = match (halves / 2).rem_euclid(12) {
        0 => 12,
        h => h,
    };
    if halves % 2 == 0 {
        format!("{whole} o'clock")
    } else {
        format!("half past {whole}")
    }
}

/// The third line of the answer.
pub(crate) fn aim_words(
    job: &Job,
    way: &Way,
    flash: Vec3,
    turn_deg: f64,
    tilt_deg: f64,
    clock_hour: f64,
) -> String {
    let turn = turn_words(turn_deg);
    let tilt = tilt_words(tilt_deg);
    let arrow = arrow(turn_deg, tilt_deg);
    let target = way.target;
    let flag = if way.flagged { "; flag the head" } else { "" };
    let words = match &way.route {
        Route::Direct => format!("{arrow} straight at the face, {turn}, {tilt}"),
        Route::HeldBoard {
            name,
            to_face_m,
            centre,
            ..
        } => {
            let face = job.sitters[0].face();
            let height = f64::from(centre.z - face.z);
            format!(
                "{arrow} at {name}, held at {} and {to_face_m:.1} m from the face, middle {}; head {turn}, {tilt}",
                clock_words(clock_hour),
                height_words(height),
            )
        }
        Route::Standing { name } => format!("{arrow} bounce off {name}, {turn}, {tilt}"),
        Route::Bounce { face, corner_with } => {
            let name = face.words().to_uppercase();
            let corner = corner_with.map_or(String::new(), |f| format!(" where it meets the {}", f.words()));
            let along = f64::from(target.y - flash.y);
            let beside = match face {
                scene::Face::Left | scene::Face::Right if along.abs() < 0.15 => {
                    ", level with the camera".to_owned()
                }
                scene::Face::Left | scene::Face::Right if along < 0.0 => {
                    format!(", {:.1} m behind the camera", -along)
                }
                scene::Face::Left | scene::Face::Right | scene::Face::Ceiling => {
                    if along < 0.0 {
                        format!(", {:.1} m behind the camera", -along)
                    } else {
                        format!(", {along:.1} m ahead of the camera")
                    }
                }
                _ => String::new(),
            };
            let high = if matches!(face, scene::Face::Ceiling | scene::Face::Floor) {
                String::new()
            } else {
                format!(" {:.1} m up", target.z)
            };
            format!("{arrow} bounce {name}{corner}{high}{beside}: head {turn}, {tilt}")
        }
    };
    words + flag
}

/// "0.5 m to camera left and 0.3 m nearer to the camera"; nothing for less than a hand's breadth.
pub(crate) fn way_to_move(job: &Job, by: Vec3) -> String {
    let (right, _, forward) = job.viewpoint.axes();
    let (across, away) = (by.dot(right), by.dot(forward.with_z(0.0).normalize_or_zero()));
    let mut parts = Vec::new();
    if across.abs() > 0.05 {
        let side = if across < 0.0 { "left" } else { "right" };
        parts.push(format!("{:.1} m to camera {side}", across.abs()));
    }
    if away.abs() > 0.05 {
        let way = if away < 0.0 { "nearer to" } else { "further from" };
        parts.push(format!("{:.1} m {way} the camera", away.abs()));
    }
    parts.join(" and ")
}

fn arrow(turn_deg: f64, tilt_deg: f64) -> &'static str {
    let up = tilt_deg > 35.0;
    match turn_deg {
        t if t.abs() > 150.0 => {
            if up {
                "⤒"
            } else {
                "↓"
            }
        }
        t if t < -20.0 => {
            if up {
                "↖"
            } else {
                "←"
            }
        }
        t if t > 20.0 => {
            if up {
                "↗"
            } else {
                "→"
            }
        }
        _ => "↑",
    }
}

fn turn_words(turn_deg: f64) -> String {
    let about = (turn_deg.abs() / 5.0).round() * 5.0;
    if about < 5.0 {
        "straight ahead".to_owned()
    } else if about > 172.0 {
        "turned right round".to_owned()
    } else {
        format!(
            "turned {about:.0}° {}",
            if turn_deg < 0.0 { "left" } else { "right" }
        )
    }
}

fn tilt_words(tilt_deg: f64) -> String {
    let about = (tilt_deg.abs() / 5.0).round() * 5.0;
    if about < 5.0 {
        "level".to_owned()
    } else {
        format!("tilt {about:.0} {}", if tilt_deg > 0.0 { "up" } else { "down" })
    }
}

fn height_words(above_eyes_m: f64) -> String {
    if above_eyes_m.abs() < 0.08 {
        "at eye height".to_owned()
    } else {
        format!(
            "{:.0} cm {} the eyes",
            above_eyes_m.abs() * 100.0,
            if above_eyes_m > 0.0 { "above" } else { "below" }
        )
    }
}

/// A cast in words: "about 115 mired warm", "mostly green".
pub(crate) fn cast_words(shift: f64, duv: f64) -> String {
    let green = if duv > 0.0 { "green" } else { "magenta" };
    if duv.abs() > 0.006 && shift.abs() < 2500.0 * duv.abs() {
        return format!(
            "mostly {green} (Duv {duv:+.3}) rather than warm or cold ({shift:+.0} mired): the kelvin setting cannot remove it, only tint or a gel can"
        );
    }
    let warm = if shift > 0.0 { "warm" } else { "cold" };
    let mut words = format!("about {:.0} mired {warm}", shift.abs());
    if duv.abs() > 0.004 {
        words += &format!(" and {green} (Duv {duv:+.3})");
    }
    words
}

/// One line: why a way was not chosen. `weaker` is stops against the chosen way (negative is weaker).
pub(crate) fn why_not(
    job: &Job,
    way: &Way,
    key: &KeyReading,
    faults: &Faults,
    weaker: f64,
    short: f64,
) -> String {
    let mut worst: Vec<&(String, f64)> = faults.iter().filter(|(_, points)| *points > 0.25).collect();
    worst.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut reasons: Vec<String> = Vec::new();
    if cast_unusable(job, key) {
        reasons.push(format!(
            "{}: unusable for neutral skin",
            cast_words(key.cast.shift.value(), key.cast.duv.value())
        ));
    }
    for (name, _) in worst {
        let reason = match name.as_str() {
            "cast" | "green-magenta" if reasons.is_empty() => {
                cast_words(key.cast.shift.value(), key.cast.duv.value())
            }
            "direction" => direction_words(key),
            "side" => format!(
                "lights the other side ({:.0}° {})",
                key.azimuth_deg.abs(),
                side_words(key.azimuth_deg)
            ),
            "height" => height_reason(key),
            "hollow eyes" => format!("comes {:.0}° down: hollow eyes", key.elevation_deg),
            "hardness" => "small and hard: crisp nose shadow".to_owned(),
            "softness" => "too soft for the crisp shadow asked".to_owned(),
            "power" if short > 0.0 => format!("{short:.1} stops short of what is asked in hand"),
            "evenness" => "uneven over the faces".to_owned(),
            _ => continue,
        };
        if !reasons.contains(&reason) {
            reasons.push(reason);
        }
        if reasons.len() == 3 {
            break;
        }
    }
    if reasons.is_empty() {
        reasons.push(if matches!(way.route, Route::HeldBoard { .. }) {
            "would do as well, but needs a pair of hands".to_owned()
        } else {
            "would do nearly as well".to_owned()
        });
    }
    let strength = if weaker < -0.15 {
        format!("; {:.1} stops weaker", -weaker)
    } else if weaker > 0.15 {
        format!("; {weaker:.1} stops stronger")
    } else {
        String::new()
    };
    format!(
        "{}{strength} (f/{:.1} at full power, ISO 100)",
        reasons.join("; "),
        key.full_power_aperture
    )
}

fn direction_words(key: &KeyReading) -> String {
    let azimuth = key.azimuth_deg.abs();
    match azimuth {
        a if a < 25.0 => format!(
            "flat: comes from only {a:.0}° beside the nose, cheeks {:.1}:1",
            key.ratio
        ),
        a if a > 110.0 => format!("comes from behind ({a:.0}° round)"),
        a => format!("comes from {a:.0}° beside the nose"),
    }
}

fn height_reason(key: &KeyReading) -> String {
    let elevation = key.elevation_deg;
    if elevation < 0.0 {
        format!(
            "comes from below ({:.0}°), like a torch under the chin",
            -elevation
        )
    } else if elevation > 30.0 {
        format!("comes steeply, {elevation:.0}° down: shadow in the eye sockets")
    } else {
        format!("comes {elevation:.0}° above the eyes")
    }
}

pub(crate) fn side_words(azimuth_deg: f64) -> &'static str {
    if azimuth_deg < 0.0 {
        "camera left"
    } else {
        "camera right"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clock_hours_are_seen_from_above_with_the_camera_at_six() {
        let check = |from: Vec3, expected: &str| {
            assert_eq!(clock_words(clock(from, Vec3::NEG_Y)), expected);
        };
        check(Vec3::NEG_Y, "6 o'clock");
        check(Vec3::NEG_X, "9 o'clock");
        check(Vec3::X, "3 o'clock");
        check(Vec3::Y, "12 o'clock");
        check(Vec3::new(-1.0, -1.0, 0.0), "half past 7");
    }
}
