//! Ways and readings made up by hand, without a place: what the parts of the solver are tested with.

use super::random_job;
use crate::judge::judged::Judged;
use crate::place::amounts::Amounts;
use crate::place::meters::SEEN_BEHIND;
use crate::ways::light::FaceLight;
use crate::ways::way::{Way, aim as aim_of};
use answer::{Aim, Cast, FlashReading, Job, KeyReading, PatternRead, Route, Settings};
use glam::Vec3;
use scene::Face;
use units::{Duv, Iso, Kelvin, MiredShift, Stops};

/// A job with the plain ask: a key 40° from the nose and 28° above the eyes, soft, neutral, a stop in hand.
pub(crate) fn job() -> Job {
    random_job(1)
}

/// A reading that has everything of the plain ask.
pub(crate) fn key() -> KeyReading {
    let neutral = Cast {
        shift: MiredShift(0.0),
        duv: Duv(0.0),
        kelvin: Kelvin::new(5600.0).unwrap(),
    };
    let (azimuth_deg, elevation_deg) = (-40.0, 28.0);
    KeyReading {
        azimuth_deg,
        elevation_deg,
        full_power_aperture: 4.0,
        near_cheek: Stops(0.0),
        far_cheek: Stops(-1.0),
        ratio: 2.0,
        sockets: Stops(-0.3),
        lit_socket: Stops(-0.2),
        pattern: PatternRead::of(azimuth_deg, elevation_deg),
        flash: FlashReading {
            azimuth_deg,
            elevation_deg,
            ratio: 2.0,
            share: 1.0,
        },
        cast: neutral,
        first_bounce_cast: neutral,
        softness: 0.6,
        spill: None,
        skin: None,
        landmarks: Vec::new(),
    }
}

/// Light from 45° to the camera's left of a nose that looks at the camera: cheeks 2:1, open eyes.
pub(crate) fn amounts() -> Amounts {
    Amounts {
        dome: 1.0,
        vector: Vec3::new(-1.0, -1.0, 0.0),
        cheeks: [2.0, 1.0],
        sockets: [1.0, 0.5],
        below_eyes: [1.0, 0.5],
        background: [1.0; SEEN_BEHIND],
        ..Amounts::default()
    }
}

/// A bounce off the left wall from the camera.
pub(crate) fn way() -> Way {
    Way {
        route: Route::Bounce {
            face: Face::Left,
            corner_with: None,
        },
        place: 0,
        flash: Vec3::new(2.0, 1.5, 1.7),
        target: Vec3::new(0.0, 3.0, 2.0),
        zoom_mm: 50.0,
        dress: light::HeadDress::Bare,
        light: FaceLight::default(),
        flagged: false,
        zoom_gain: None,
    }
}

/// Where its flash points.
pub(crate) fn aim(job: &Job) -> Aim {
    aim_of(job, &way())
}

/// f/4, 1/160, ISO 400.
pub(crate) fn settings() -> Settings {
    Settings {
        aperture: "f/4".parse().unwrap(),
        shutter: "1/160".parse().unwrap(),
        iso: Iso::new(400.0).unwrap(),
        nd: Stops(0.0),
        white_balance: Kelvin::new(5600.0).unwrap(),
        tint: Duv(0.0),
    }
}

/// A way with this many points that misses nothing.
pub(crate) fn judged(way: Way, points: f64) -> Judged {
    Judged {
        way,
        key: key(),
        settings: settings(),
        full: 2.0,
        power: 2.0,
        faults: Vec::new(),
        points,
        wishes: Vec::new(),
        notes: Vec::new(),
        coarsely: None,
    }
}
