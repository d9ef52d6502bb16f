//! Shoot texts: understood, changed, begun. Nothing is kept here.

use super::refusal::{Code, Refusal};
use super::requests::{JsonBody, Query, Spoken, blocking};
use axum::Json;
use axum::body::Bytes;
use axum::extract::rejection::BytesRejection;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::{Language, Voice};
use shoot::edit::{self, Edit, EditError, PartKind};
use shoot::understand as reader;
use shoot::vocabulary as words;
use shoot::{Shoot, Words, both, words_of_scan_error};

pub use shoot::understand::{StartForm, Understood};
pub use shoot::vocabulary::Vocabulary;

/// A set-up of a shoot text.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct TextRequest {
    /// The shoot text.
    pub text: String,
    /// Which of its set-ups, from 0.
    #[serde(default)]
    pub set_up: usize,
}

/// Changes to a shoot text, all of them or none.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct EditRequest {
    /// The shoot text.
    pub text: String,
    /// Which of its set-ups, from 0.
    #[serde(default)]
    pub set_up: usize,
    /// The changes, in order.
    pub edits: Vec<Edit>,
    /// Parts that the set-up gets a copy of its own of, before anything is changed.
    #[serde(default)]
    pub make_own: Vec<String>,
}

/// A kind of part that is kept by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PartWord {
    /// What one owns.
    Bags,
    /// A room or an outdoor spot.
    Places,
}

impl From<PartWord> for PartKind {
    fn from(word: PartWord) -> Self {
        match word {
            PartWord::Bags => PartKind::Bag,
            PartWord::Places => PartKind::Place,
        }
    }
}

/// A kept bag or place for a shoot text.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct TakeRequest {
    /// The shoot text.
    pub text: String,
    /// Which of its set-ups, from 0.
    #[serde(default)]
    pub set_up: usize,
    /// What is put in.
    pub kind: PartWord,
    /// Its text.
    pub part: String,
}

/// A wish for the bag or the place of a shoot text.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct GiveRequest {
    /// The shoot text.
    pub text: String,
    /// Which of its set-ups, from 0.
    #[serde(default)]
    pub set_up: usize,
    /// What is taken out.
    pub kind: PartWord,
}

/// A bag or a place by itself.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct PartText {
    /// Its text.
    pub text: String,
}

/// A clause as a sentence by itself.
fn sentence(clause: &Words) -> Words {
    Words::in_each(|language| sheet::refusals::sentence_of(clause.in_language(language)))
}

impl From<EditError> for Refusal {
    fn from(error: EditError) -> Self {
        let code = match &error {
            EditError::TooLarge | EditError::TooMany { .. } | EditError::LongLine => Code::TooLarge,
            EditError::Ours(_) => Code::Ours,
            EditError::NotReadable { .. } => Code::BadShoot,
            _ => Code::BadRequest,
        };
        Refusal::new(code, sentence(&error.words()))
    }
}

/// What is understood of a shoot text, with the place from above and from the side.
async fn understood(text: String, set_up: usize, language: Language) -> Result<Json<Understood>, Refusal> {
    let sketch =
        move |shoot: &Shoot| sheet::drawing_svg(&shoot.job, None, Voice::new(language, shoot.uses_feet));
    blocking(move || Ok(Json(reader::understand(&text, set_up, language, sketch)))).await
}

/// Says what is understood of a shoot text.
pub async fn understand(
    Spoken(language): Spoken,
    JsonBody(request): JsonBody<TextRequest>,
) -> Result<Json<Understood>, Refusal> {
    understood(request.text, request.set_up, language).await
}

/// Changes a shoot text and keeps its remarks.
pub async fn edit(
    Spoken(language): Spoken,
    JsonBody(request): JsonBody<EditRequest>,
) -> Result<Json<Understood>, Refusal> {
    let mut text = request.text;
    for part in &request.make_own {
        text = edit::make_own(&text, request.set_up, part)?;
    }
    let text = edit::edit(&text, request.set_up, &request.edits)?;
    understood(text, request.set_up, language).await
}

/// Writes a shoot text from a few fill-ins.
pub async fn begin(
    Spoken(language): Spoken,
    JsonBody(form): JsonBody<StartForm>,
) -> Result<Json<Understood>, Refusal> {
    understood(reader::begin(&form), 0, language).await
}

/// Puts a kept bag or place into a shoot text.
pub async fn take(
    Spoken(language): Spoken,
    JsonBody(request): JsonBody<TakeRequest>,
) -> Result<Json<Understood>, Refusal> {
    let text = PartKind::from(request.kind).take(&request.text, request.set_up, &request.part)?;
    understood(text, request.set_up, language).await
}

/// Takes the bag or the place of a shoot text out.
pub async fn give(JsonBody(request): JsonBody<GiveRequest>) -> Result<Json<PartText>, Refusal> {
    let text = PartKind::from(request.kind).give(&request.text, request.set_up)?;
    Ok(Json(PartText { text }))
}

/// What a scan is called, and which way it is turned.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct ScanQuery {
    /// The name of its file: its ending says what it is.
    pub name: String,
    /// Quarters of a turn, 0 to 3, anticlockwise seen from above: which wall is behind the sitter.
    #[serde(default)]
    #[schemars(range(max = 3))]
    pub turned: u8,
}

/// A place that was made of a scan.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct ScannedPlace {
    /// The part `[place]`.
    pub text: String,
    /// What was guessed, left out or turned.
    pub told: Vec<String>,
}

/// Makes a place of a scan.
pub async fn scan(
    Query(query): Query<ScanQuery>,
    body: Result<Bytes, BytesRejection>,
) -> Result<Json<ScannedPlace>, Refusal> {
    let bytes = body?;
    if query.turned > 3 {
        return Err(Refusal::new(
            Code::BadRequest,
            both!("A scan is turned by 0 to 3 quarters."; "Ein Scan wird um 0 bis 3 Viertel gedreht."),
        ));
    }
    blocking(move || {
        let scan = scene::scan::read_scan(&query.name, &bytes)
            .map_err(|error| Refusal::new(Code::BadRequest, sentence(&words_of_scan_error(&error))))?
            .turned(query.turned);
        Ok(Json(ScannedPlace {
            text: shoot::place_text(&scan, &query.name),
            told: scan.told,
        }))
    })
    .await
}

/// The words that a shoot text may use.
pub async fn vocabulary() -> Json<Vocabulary> {
    Json(words::vocabulary())
}

#[cfg(test)]
mod tests {
    use super::*;
    use glam::Vec3;
    use scene::Face;
    use scene::scan::Scan;

    #[test]
    fn a_scan_turns_the_way_that_the_document_says() {
        let mut faces = [None; 6];
        faces[Face::Left.index()] = Some([0.5; 3]);
        let scan = Scan {
            room: Vec3::new(3.0, 4.0, 2.5),
            faces,
            openings: Vec::new(),
            furniture: Vec::new(),
            told: Vec::new(),
        };
        // Seen from above with the camera at the bottom, from the left to the bottom is anticlockwise.
        let turned = scan.turned(1);
        assert!(turned.faces[Face::BehindCamera.index()].is_some());
        let document = schemars::schema_for!(ScanQuery);
        let said = document.as_value()["properties"]["turned"]["description"]
            .as_str()
            .expect("a description");
        assert!(said.contains("anticlockwise seen from above"), "{said}");
    }
}
