//! Answers: asked for, followed, read, and taken further.

use super::house::House;
use super::jobs::{Bench, Job, WorkKind};
use super::products::{Answered, Product};
use super::refusal::{Code, Refusal};
use super::requests::{At, JsonBody, Query, Spoken, blocking, lane_of};
use super::stage::Stage;
use super::texts::TextRequest;
use super::trouble::{Trouble, refusal_of};
use crate::answering::SEED;
use crate::card;
use crate::moment;
use answer::{FlashSetting, MapCell, Step};
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::{Language, Made, Report, Told, Voice};
use shoot::both;
use shoot::understand::{Geometry, NAME};
use std::convert::Infallible;
use std::sync::Arc;
use tokio_stream::Stream;
use tokio_stream::wrappers::ReceiverStream;

/// Asks for the answer to a set-up.
pub async fn ask(
    State(house): State<Arc<House>>,
    headers: HeaderMap,
    Spoken(language): Spoken,
    JsonBody(request): JsonBody<TextRequest>,
) -> Result<(StatusCode, Json<Job>), Refusal> {
    let asked = (request.text.clone(), request.set_up);
    let job = house
        .jobs
        .ask(WorkKind::Answer, &lane_of(&headers), &asked, move |bench| {
            answer(bench, request)
        })?;
    Ok((StatusCode::ACCEPTED, Json(job.told(language))))
}

/// Asks for the first answer of a shoot before anybody does, and listens to it so that it is not given up.
pub fn ask_ahead(house: &Arc<House>, text: String) {
    let asked = (text.clone(), 0usize);
    let request = TextRequest { text, set_up: 0 };
    let job = house.jobs.ask(WorkKind::Answer, "ahead", &asked, move |bench| {
        answer(bench, request)
    });
    if let Some(mut changes) = job.ok().and_then(|job| house.jobs.follow(&job.id).ok()) {
        tokio::spawn(async move {
            while !changes.borrow_and_update().state.is_final() {
                if changes.changed().await.is_err() {
                    break;
                }
            }
        });
    }
}

fn answer(bench: &Bench, request: TextRequest) -> Result<Product, Trouble> {
    bench.say(Stage::Reading, 0.0);
    let shoot = shoot::parse_set_up(NAME, &request.text, request.set_up)?;
    let watch = |step: Step| {
        bench.say(Stage::Answering(step), step.usual_share());
        bench.go_on()
    };
    let answer = solver::answer_watched(&shoot.job, SEED, &watch)?;
    Ok(Product::Answer(Arc::new(Answered {
        text: request.text,
        set_up: request.set_up,
        shoot,
        answer,
    })))
}

/// An answer as it is told.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct AnswerTold {
    /// What it is called here.
    pub id: String,
    /// The answer as data and in words; its map has no cells here, they are given by themselves.
    pub report: Report,
    /// From above and from the side, SVG.
    pub drawing: String,
    /// Where the stops go, SVG.
    pub chart: String,
    /// Whether lengths are in feet.
    pub feet: bool,
    /// The whole answer as printed text.
    pub text: String,
    /// The shoot text that it answers.
    pub shoot_text: String,
    /// Which set-up of it.
    pub set_up: usize,
    /// What stands where.
    pub geometry: Geometry,
    /// The changes of the answer's shortfall in its order, each with the shoot text that has it.
    pub changes: Vec<ChangeTold>,
}

/// A change that would make an ask possible, written into the shoot text.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ChangeTold {
    /// The shoot text with it; null where the photographer makes it by hand.
    pub text: Option<String>,
}

/// Reads an answer.
pub async fn read(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
) -> Result<Json<AnswerTold>, Refusal> {
    let answered = house.answered(&id)?;
    let voice = answered.voice(language);
    let Answered {
        text,
        set_up,
        shoot,
        answer,
    } = &*answered;
    let told = Told::new(&shoot.job, answer, voice);
    let mut shown = answer.clone();
    shown.map.cells.clear();
    Ok(Json(AnswerTold {
        id,
        report: Report::new(&shoot.job.title, shown, told),
        drawing: sheet::drawing_svg(&shoot.job, Some(answer), voice),
        chart: sheet::stops_chart_svg(answer, voice),
        feet: shoot.uses_feet,
        text: sheet::answer_text(&shoot.job, answer, voice),
        shoot_text: text.clone(),
        set_up: *set_up,
        geometry: Geometry::of(shoot),
        changes: changes(&answered),
    }))
}

/// The changes that an answer offers, written into its text.
fn changes(answered: &Answered) -> Vec<ChangeTold> {
    let Answered {
        text,
        set_up,
        shoot,
        answer,
    } = answered;
    let offers = answer.shortfall.iter().flat_map(|shortfall| &shortfall.changes);
    offers
        .map(|offer| ChangeTold {
            text: shoot::with_change(text, *set_up, &shoot.job, &offer.change, shoot.uses_feet),
        })
        .collect()
}

/// The room unrolled, with how good it is to aim at every part of it.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct MapTold {
    /// As a drawing, SVG.
    pub svg: String,
    /// Every piece by itself.
    pub cells: Vec<MapCell>,
    /// Why each piece serves, or why not, in the order of the pieces.
    pub why: Vec<String>,
}

/// The map of an answer.
pub async fn map(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
) -> Result<Json<MapTold>, Refusal> {
    let answered = house.answered(&id)?;
    let voice = answered.voice(language);
    let Answered { shoot, answer, .. } = &*answered;
    let cells = &answer.map.cells;
    Ok(Json(MapTold {
        svg: sheet::room_map_svg(&shoot.job, answer, voice),
        cells: cells.clone(),
        why: cells
            .iter()
            .map(|cell| sheet::words_of_why(voice, &cell.why, None))
            .collect(),
    }))
}

/// The light has changed.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct LightChanged {
    /// By so many stops, -8 to 8; negative is darker.
    #[schemars(range(min = -8, max = 8))]
    pub stops: f64,
}

/// What to set when the light has changed.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct LightChangedTold {
    /// The camera line.
    pub camera: String,
    /// The flash line.
    pub flash: String,
    /// What to do, in words.
    pub words: String,
    /// Whether the look can be kept.
    pub possible: bool,
}

/// How far a piece of work is.
pub async fn job(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
) -> Result<Json<Job>, Refusal> {
    Ok(Json(house.jobs.look(&id)?.told(language)))
}

/// Stops a piece of work.
pub async fn stop(State(house): State<Arc<House>>, At(id): At<String>) -> Result<StatusCode, Refusal> {
    house.jobs.stop(&id)?;
    Ok(StatusCode::NO_CONTENT)
}

/// Follows a piece of work: an event for every change, the last when it ends.
pub async fn events(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, Refusal> {
    let mut changes = house.jobs.follow(&id)?;
    let (tell, told) = tokio::sync::mpsc::channel(1);
    tokio::spawn(async move {
        loop {
            let job = changes.borrow_and_update().clone();
            let over = job.state.is_final();
            let Ok(event) = Event::default().json_data(job.told(language)) else {
                return;
            };
            if tell.send(Ok(event)).await.is_err() || over {
                return;
            }
            tokio::select! {
                changed = changes.changed() => if changed.is_err() { return },
                // The listener has gone; the work stops by itself once no other follows it.
                () = tell.closed() => return,
            }
        }
    });
    Ok(Sse::new(ReceiverStream::new(told)).keep_alive(KeepAlive::default()))
}

/// What to set when the light has changed: the same aim, as few controls as possible.
pub async fn light_changed(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
    JsonBody(change): JsonBody<LightChanged>,
) -> Result<Json<LightChangedTold>, Refusal> {
    const MOST_STOPS: f64 = 8.0;
    let answered = house.answered(&id)?;
    if change.stops.is_nan() || change.stops.abs() > MOST_STOPS {
        return Err(Refusal::new(
            Code::BadRequest,
            both!(
                "Light changes here by {} stops at most, either way.", MOST_STOPS;
                "Das Licht ändert sich hier um höchstens {} Blenden, nach oben wie nach unten."
            ),
        ));
    }
    let voice = answered.voice(language);
    let Answered { shoot, answer, .. } = &*answered;
    let changed = solver::when_light_changes(&shoot.job, answer, units::Stops(change.stops));
    let best = changed.instead.as_ref().unwrap_or(&changed.then);
    let flash = FlashSetting {
        power: best.power,
        in_hand: best.in_hand,
        ..answer.flash
    };
    let touched = sheet::changed_settings(
        voice,
        (&answer.settings, answer.flash.power),
        (&best.settings, best.power),
    );
    let lost = (!changed.lost.is_empty()).then(|| sheet::words_of_losses(voice, &changed.lost));
    Ok(Json(LightChangedTold {
        camera: sheet::camera_line(voice, &best.settings),
        flash: sheet::flash_line(voice, &flash, answer.colouring.gel.as_ref()),
        words: [touched].into_iter().chain(lost).collect::<Vec<_>>().join(". "),
        possible: changed.lost.is_empty(),
    }))
}

/// A card may hold several set-ups.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct CardQuery {
    /// Further answers whose cards follow, by their names, with commas between.
    #[serde(default)]
    pub with: Option<String>,
}

/// Set-ups on one card (ours).
const MOST_ON_A_CARD: usize = 40;

/// What a card may do: it is one file with its own script and style, and nothing else. The sandbox keeps it from everything
/// that the page may do.
const CARD_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; img-src data:; sandbox allow-scripts";

/// The card as one file for a phone.
pub async fn card_html(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
    Query(query): Query<CardQuery>,
) -> Result<Response, Refusal> {
    let answers = on_card(&house, &id, &query)?;
    let made = moment::on_card(&house.now());
    let html = blocking(move || Ok(sheet::card_html(&cards(&answers, language, &made)?))).await?;
    let headers = [
        (header::CONTENT_TYPE, "text/html; charset=utf-8"),
        (header::CONTENT_SECURITY_POLICY, CARD_POLICY),
    ];
    Ok((headers, html).into_response())
}

/// The card on paper.
pub async fn card_pdf(
    State(house): State<Arc<House>>,
    At(id): At<String>,
    Spoken(language): Spoken,
    Query(query): Query<CardQuery>,
) -> Result<Response, Refusal> {
    let answers = on_card(&house, &id, &query)?;
    let made = moment::on_card(&house.now());
    let pdf = blocking(move || {
        let cards = cards(&answers, language, &made)?;
        let title = answers
            .first()
            .map_or("", |answered| answered.shoot.job.title.as_str());
        card::on_paper(&cards, title).map_err(|error| {
            Refusal::new(
                Code::Ours,
                both!("The card could not be printed: {error}."; "Die Karte ließ sich nicht drucken: {error}."),
            )
        })
    })
    .await?;
    let headers = [
        (header::CONTENT_TYPE, "application/pdf"),
        (header::CONTENT_DISPOSITION, "inline; filename=\"card.pdf\""),
    ];
    Ok((headers, pdf).into_response())
}

/// The answers that a card shows.
fn on_card(house: &House, id: &str, query: &CardQuery) -> Result<Vec<Arc<Answered>>, Refusal> {
    let others = query
        .with
        .iter()
        .flat_map(|with| with.split(','))
        .filter(|id| !id.is_empty());
    [id].into_iter()
        .chain(others)
        .take(MOST_ON_A_CARD)
        .map(|id| house.answered(id))
        .collect()
}

/// The cards of some answers.
fn cards(answers: &[Arc<Answered>], language: Language, made: &Made) -> Result<Vec<sheet::Card>, Refusal> {
    let feet = answers.first().is_some_and(|answered| answered.shoot.uses_feet);
    let voice = Voice::new(language, feet);
    let set_ups: Vec<card::SetUpOnCard<'_>> = answers
        .iter()
        .map(|answered| card::SetUpOnCard::of(&answered.shoot, &answered.answer))
        .collect();
    card::cards(&set_ups, voice, made).map_err(|failure| refusal_of(&failure, voice.lengths))
}
