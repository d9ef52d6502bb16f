//! Proofs: better and better pictures of an answer, in layers that the page weighs itself.

use super::house::House;
use super::jobs::{Bench, Job, PictureThere, WorkKind};
use super::layers::{Choice, Planes, Table};
use super::products::{Answered, Product, Proof};
use super::refusal::{Code, Refusal};
use super::requests::{At, JsonBody, Query, Spoken, lane_of};
use super::stage::Stage;
use super::trouble::Trouble;
use crate::answering::SEED;
use crate::lights::{Care, ProofLight, lights_of};
use crate::png::png;
use answer::{Failure, SourceName};
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use camera::RawLayer;
use scene::Viewpoint;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use shoot::both;
use std::ops::RangeInclusive;
use std::sync::Arc;
use transport::{Effort, Glance, Layer, Method, Room, SolvedLight, render};

/// Widths of a proof in pixels (ours).
const WIDTHS: RangeInclusive<u32> = 64..=1600;
const USUAL_WIDTH: u32 = 480;
/// The first picture is this many times smaller than the last, so that it is there at once.
const FIRST_SMALLER: usize = 3;
/// The relative errors of the skin at which a picture is shown: rough but telling at once, fair in some seconds, good
/// when one looks at it for long (ours).
const ROUGH: f32 = 0.25;
const TELLING: f32 = 0.12;
const FAIR: f32 = 0.05;
const GOOD: f32 = 0.025;
/// No picture needs more passes than this; its error ends it long before.
const MOST_PASSES: usize = 1_024;

/// A wish for a proof.
#[derive(Clone, Debug, Hash, Serialize, Deserialize, JsonSchema)]
pub struct ProofRequest {
    /// The answer.
    pub answer: String,
    /// Pixels across, 64 to 1600; 480 when it is not said.
    #[serde(default)]
    #[schemars(range(min = 64, max = 1600))]
    pub width: Option<u32>,
}

/// Asks for a proof.
pub async fn ask(
    State(house): State<Arc<House>>,
    headers: HeaderMap,
    Spoken(language): Spoken,
    JsonBody(request): JsonBody<ProofRequest>,
) -> Result<(StatusCode, Json<Job>), Refusal> {
    let width = request.width.unwrap_or(USUAL_WIDTH);
    if !WIDTHS.contains(&width) {
        return Err(Refusal::new(
            Code::BadRequest,
            both!(
                "A proof is {} to {} pixels wide.", WIDTHS.start(), WIDTHS.end();
                "Ein Probebild ist {} bis {} Pixel breit."
            ),
        ));
    }
    let answered = house.answered(&request.answer)?;
    let asked = (request.answer, width);
    let job = house
        .jobs
        .ask(WorkKind::Proof, &lane_of(&headers), &asked, move |bench| {
            prove(bench, answered, width as usize)
        })?;
    Ok((StatusCode::ACCEPTED, Json(job.told(language))))
}

/// Width and height in pixels of a picture this wide: five to four, either way up.
pub(super) fn pixels(viewpoint: &Viewpoint, width: usize) -> [usize; 2] {
    let height = if viewpoint.landscape {
        width * 4 / 5
    } else {
        width * 5 / 4
    };
    [width, height]
}

/// Renders better and better pictures until the last is good.
fn prove(bench: &Bench, answered: Arc<Answered>, width: usize) -> Result<Product, Trouble> {
    bench.say(Stage::BeginningPicture, 0.0);
    let job = answered.shoot.job.as_answered(&answered.answer);
    let mut place = Lit::new(&job, &answered, Care::Sketch)?;
    let names: Vec<SourceName> = place.lights.iter().map(|light| light.name.clone()).collect();
    let proof = Arc::new(Proof::begun(
        Arc::clone(&answered),
        Table::new(&job, &answered.answer, &names, true),
    ));
    bench.check()?;
    let full = pixels(&job.viewpoint, width);
    let small = full.map(|side| (side / FIRST_SMALLER).max(16));
    let stages = [
        (small, ROUGH, 0.0),
        (full, TELLING, 0.02),
        (full, FAIR, 0.07),
        (full, GOOD, 0.25),
    ];
    for (number, (size, error, begins)) in (1..).zip(stages) {
        if number == 2 {
            place = Lit::new(&job, &answered, Care::Proof)?;
        }
        let ends = stages.get(number as usize).map_or(1.0, |next| next.2);
        let mut planes = Planes::new(size[0], size[1]);
        let mut worst: Option<f32> = None;
        let count = place.lights.len() as f64;
        for (index, (light, solved)) in place.lights.iter().zip(&place.solved).enumerate() {
            let from = begins + (ends - begins) * index as f64 / count;
            let share = (ends - begins) / count;
            let allowance = light.noise_allowance(&answered.answer) as f32;
            let error = error * allowance;
            let (layer, reached) = render_one(
                bench,
                &job,
                &place.room,
                light,
                solved,
                size,
                error,
                &Part {
                    stage: Stage::Lighting {
                        light: index + 1,
                        of: place.lights.len(),
                    },
                    from,
                    share,
                },
            )?;
            let reached = reached.map(|reached| reached / allowance);
            worst = match (worst, reached) {
                (Some(before), Some(now)) => Some(before.max(now)),
                (before, now) => before.or(now),
            };
            if light.is_flash() {
                planes.push_bands(&layer, &light.colour, light.dose, &answered.answer);
            } else {
                planes.push_raw(
                    &RawLayer::new(&layer, &light.colour),
                    light.dose,
                    &answered.answer,
                );
            }
        }
        proof.put(number, planes);
        let there = PictureThere {
            number,
            width: size[0] as u32,
            height: size[1] as u32,
            noise_percent: worst.map(|error| (f64::from(error) * 1e3).round() / 10.0),
        };
        bench.show(Product::Proof(Arc::clone(&proof)), there);
    }
    Ok(Product::Proof(proof))
}

/// A place with its lights, each solved.
struct Lit {
    room: Room,
    lights: Vec<ProofLight>,
    solved: Vec<SolvedLight>,
}

impl Lit {
    fn new(job: &answer::Job, answered: &Answered, care: Care) -> Result<Self, Failure> {
        let (room, lights) = lights_of(job, &answered.answer, care, false, SEED)?;
        let solved = lights.iter().map(|light| room.solve(&light.source)).collect();
        Ok(Lit { room, lights, solved })
    }
}

/// A part of the work on a proof.
struct Part {
    /// What is done in it.
    stage: Stage,
    /// The part of the whole at which it begins.
    from: f64,
    /// How much of the whole it is.
    share: f64,
}

/// Renders one light until its error is small enough, and tells the error that it reached.
#[allow(
    clippy::too_many_arguments,
    reason = "each is a different thing and none has a sensible default"
)]
fn render_one(
    bench: &Bench,
    job: &answer::Job,
    room: &Room,
    light: &ProofLight,
    solved: &SolvedLight,
    size: [usize; 2],
    error: f32,
    part: &Part,
) -> Result<(Layer, Option<f32>), Refusal> {
    let mut go_on = |glance: &Glance| {
        // The error falls with the square root of the passes.
        let done = glance
            .progress
            .error
            .map_or(0.0, |reached| f64::from(error / reached).powi(2).min(1.0));
        bench.say(part.stage, part.from + part.share * done);
        bench.let_quick_ones_pass();
        bench.go_on()
    };
    let rendered = render(
        room,
        &light.source,
        solved,
        &job.viewpoint,
        size,
        Method::Solved,
        Effort {
            most_passes: MOST_PASSES,
            error,
            plain: false,
        },
        SEED,
        &mut go_on,
    );
    bench.check()?;
    Ok((rendered.layer, rendered.progress.error))
}

/// Which picture is wanted.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct LayersQuery {
    /// Its number; the newest is given whatever it says, so that it only keeps addresses apart.
    #[serde(default)]
    pub picture: Option<u32>,
}

/// The lights of the newest picture.
pub async fn layers(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Query(_): Query<LayersQuery>,
) -> Result<Response, Refusal> {
    let (number, planes) = house.proof(&id)?.newest()?;
    let bytes = planes.bytes();
    let headers = [
        ("content-type", "application/octet-stream".to_owned()),
        ("x-picture", number.to_string()),
    ];
    Ok((headers, bytes).into_response())
}

/// What weighs them.
pub async fn table(State(house): State<Arc<House>>, At(id): At<String>) -> Result<Json<Table>, Refusal> {
    Ok(Json(house.proof(&id)?.table.clone()))
}

/// What is chosen on each control, by position in the table; the answer's own when it is not said.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct PictureQuery {
    /// Power of the flash.
    #[serde(default)]
    pub power: Option<usize>,
    /// Shutter.
    #[serde(default)]
    pub shutter: Option<usize>,
    /// Aperture.
    #[serde(default)]
    pub aperture: Option<usize>,
    /// Speed.
    #[serde(default)]
    pub iso: Option<usize>,
    /// Gel.
    #[serde(default)]
    pub gel: Option<usize>,
    /// White balance.
    #[serde(default)]
    pub balance: Option<usize>,
}

/// The picture, developed here.
pub async fn picture(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Query(query): Query<PictureQuery>,
) -> Result<Response, Refusal> {
    let proof = house.proof(&id)?;
    let (_, planes) = proof.newest()?;
    let own = proof.table.as_answered();
    let choice = Choice {
        power: query.power.unwrap_or(own.power),
        shutter: query.shutter.unwrap_or(own.shutter),
        aperture: query.aperture.unwrap_or(own.aperture),
        iso: query.iso.unwrap_or(own.iso),
        gel: query.gel.unwrap_or(own.gel),
        balance: query.balance.unwrap_or(own.balance),
    };
    if !proof.table.has(&choice) {
        return Err(Refusal::new(
            Code::BadRequest,
            both!("There is no such setting in this picture's table."; "Eine solche Einstellung steht nicht in der Tabelle dieses Bilds."),
        ));
    }
    let png = tokio::task::spawn_blocking(move || {
        let picture = planes.develop(&proof.table, &choice, &proof.answered.answer)?;
        png(&picture).ok()
    })
    .await
    .ok()
    .flatten()
    .ok_or_else(|| {
        Refusal::new(
            Code::Ours,
            both!("The picture could not be developed."; "Das Bild ließ sich nicht entwickeln."),
        )
    })?;
    Ok(([(header::CONTENT_TYPE, "image/png")], png).into_response())
}
