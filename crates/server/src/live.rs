//! Live aiming: the picture and the words of any aim from the flash's place, at the rate of a display.

use super::house::House;
use super::jobs::{Bench, Job, WorkKind};
use super::layers::{Planes, Table};
use super::products::{Answered, LiveSession, Product};
use super::proofs::pixels;
use super::refusal::{Code, Refusal};
use super::requests::{At, JsonBody, Query, Spoken, lane_of};
use super::stage::Stage;
use super::trouble::{Trouble, refusal_of};
use crate::answering::SEED;
use answer::{SourceName, Verdict};
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use camera::RawLayer;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::Language;
use shoot::both;
use solver::Aiming;
use std::sync::Arc;
use transport::{LiveView, PlacedFlash};

/// Pixels across the live picture (ours): as many as keep up with a hand on one core.
const WIDTH: usize = 240;

/// A wish for live aiming.
#[derive(Clone, Debug, Hash, Serialize, Deserialize, JsonSchema)]
pub struct LiveRequest {
    /// The answer to start from.
    pub answer: String,
}

/// Makes an answer's place ready.
pub async fn ask(
    State(house): State<Arc<House>>,
    headers: HeaderMap,
    Spoken(language): Spoken,
    JsonBody(request): JsonBody<LiveRequest>,
) -> Result<(StatusCode, Json<Job>), Refusal> {
    let answered = house.answered(&request.answer)?;
    let job = house.jobs.ask(
        WorkKind::Live,
        &lane_of(&headers),
        &request.answer,
        move |bench| ready(bench, answered),
    )?;
    Ok((StatusCode::ACCEPTED, Json(job.told(language))))
}

fn ready(bench: &Bench, answered: Arc<Answered>) -> Result<Product, Trouble> {
    bench.say(Stage::Following, 0.0);
    let answer = &answered.answer;
    let aiming = Aiming::new(&answered.shoot.job, answer, SEED)?;
    bench.check()?;
    bench.say(Stage::ReadyingView, 0.4);
    let job = aiming.job();
    let size = pixels(&job.viewpoint, WIDTH);
    let own = aiming.at(answer.aim.turn_deg, answer.aim.tilt_deg, answer.flash.zoom_mm)?;
    let view = LiveView::new(aiming.room(), &job.viewpoint, size, &own.flash, SEED);
    let table = Table::new(job, answer, &[SourceName::Flash], false);
    Ok(Product::Live(Arc::new(LiveSession {
        answered: Arc::clone(&answered),
        aiming,
        view,
        table,
    })))
}

/// An aim of the head.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct AimQuery {
    /// Turn of the head from the lens axis, degrees, positive to the camera's right.
    #[schemars(range(min = -180, max = 180))]
    pub azimuth: f64,
    /// Tilt above level, degrees.
    #[schemars(range(min = -90, max = 90))]
    pub elevation: f64,
    /// Zoom of the head in millimetres; the answer's when it is not said.
    #[serde(default)]
    #[schemars(range(min = 1, max = 1000))]
    pub zoom: Option<f64>,
}

/// A point of the place in metres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Point {
    /// From the left wall.
    pub x: f32,
    /// From the wall behind the camera.
    pub y: f32,
    /// From the floor.
    pub z: f32,
}

impl From<glam::Vec3> for Point {
    fn from(at: glam::Vec3) -> Self {
        Point {
            x: at.x,
            y: at.y,
            z: at.z,
        }
    }
}

/// What an aim does: the header x-aim.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct AimTold {
    /// The aim in words.
    pub words: String,
    /// The point that the middle of the beam meets.
    pub target: Point,
    /// Where the flash is.
    pub flash: Point,
    /// Nearest power that can be set for an exact exposure.
    pub power: String,
    /// The exact one, in stops below 1/1; negative when the flash falls short.
    pub stops_below_full: f64,
    /// Direction of the light from the nose, degrees, positive to the camera's right.
    pub azimuth_deg: f64,
    /// Its height above the eyes, degrees.
    pub elevation_deg: f64,
    /// Zoom of the head, millimetres.
    pub zoom_mm: f64,
    /// Whether it serves beside the answer.
    pub verdict: Verdict,
    /// Why, or why not.
    pub why: String,
}

/// The picture of an aim, at equal exposure of the face.
pub async fn aim(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
    Query(query): Query<AimQuery>,
) -> Result<Response, Refusal> {
    let session = house.live(&id)?;
    let in_range = query.azimuth.abs() <= 180.0
        && query.elevation.abs() <= 90.0
        && query.zoom.is_none_or(|zoom| (1.0..=1000.0).contains(&zoom));
    if !in_range {
        return Err(Refusal::new(
            Code::BadRequest,
            both!(
                "An aim is turned by −180 to 180 degrees and tilted by −90 to 90, with a zoom of 1 to 1000 mm.";
                "Ein Ziel ist um −180 bis 180 Grad gedreht und um −90 bis 90 geneigt, mit einem Zoom von 1 bis 1000 mm."
            ),
        ));
    }
    let (told, bytes) = tokio::task::spawn_blocking(move || frame(&session, &query, language))
        .await
        .map_err(|_| Refusal::new(Code::Ours, both!("The picture of this aim could not be made."; "Das Bild dieses Ziels ließ sich nicht berechnen.")))??;
    let told = serde_json::to_string(&told).map_err(|error| {
        Refusal::new(
            Code::Ours,
            both!("The aim could not be told: {error}."; "Das Ziel ließ sich nicht mitteilen: {error}."),
        )
    })?;
    let told: String = told
        .chars()
        .map(|c| if c.is_ascii() { c.to_string() } else { escaped(c) })
        .collect();
    let headers = [
        ("content-type", "application/octet-stream".to_owned()),
        ("x-aim", told),
    ];
    Ok((headers, bytes).into_response())
}

/// A letter beyond ASCII as JSON may write it, for a header.
fn escaped(c: char) -> String {
    let mut units = [0; 2];
    c.encode_utf16(&mut units)
        .iter()
        .map(|unit| format!("\\u{unit:04x}"))
        .collect()
}

fn frame(session: &LiveSession, query: &AimQuery, language: Language) -> Result<(AimTold, Vec<u8>), Refusal> {
    let answer = &session.answered.answer;
    let voice = session.answered.voice(language);
    let zoom = query.zoom.unwrap_or(answer.flash.zoom_mm);
    let reading = session.aiming.at(query.azimuth, query.elevation, zoom);
    let reading = reading.map_err(|failure| refusal_of(&failure, voice.lengths))?;
    let [width, height] = session.view.size();
    let colour = session.aiming.job().bag.flash.colour();
    let weights = camera::sensor_weights(colour).map(colour::Spectrum);
    let flash: &PlacedFlash = &reading.flash;
    let channels = session.view.tristimulus(session.aiming.room(), flash, &weights);
    // At equal exposure every aim shows what it does to the face, and not how strong it is.
    let power = (-reading.exact_stops_below_full).exp2();
    let mut planes = Planes::new(width, height);
    if let Some(layer) = RawLayer::of_channels(width, height, channels) {
        planes.push_raw(&layer, power, answer);
    }
    let told = AimTold {
        words: sheet::words_of_aim(voice, &reading.aim),
        target: reading.aim.target.into(),
        flash: session.aiming.place().into(),
        power: reading.power.to_string(),
        stops_below_full: reading.exact_stops_below_full,
        azimuth_deg: reading.azimuth_deg,
        elevation_deg: reading.elevation_deg,
        zoom_mm: reading.zoom_mm,
        verdict: reading.verdict,
        why: sheet::words_of_why(voice, &reading.why, None),
    };
    Ok((told, planes.bytes()))
}

/// What weighs the light of live aiming.
pub async fn table(State(house): State<Arc<House>>, At(id): At<String>) -> Result<Json<Table>, Refusal> {
    Ok(Json(house.live(&id)?.table.clone()))
}
