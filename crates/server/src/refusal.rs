//! Why a request was not done, in words for the person who can act.

use axum::Json;
use axum::extract::rejection::{BytesRejection, JsonRejection, PathRejection, QueryRejection};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::Language;
use shoot::{Words, both};
use store::{Part, StoreError};

/// What kind of refusal it is, for programs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Code {
    /// The request cannot be read.
    BadRequest,
    /// The shoot file has mistakes, or describes what cannot be lit.
    BadShoot,
    /// There is no such thing, or not any more.
    NotFound,
    /// Another window saved in between.
    Conflict,
    /// More than is taken.
    TooLarge,
    /// Too much is waiting already.
    Busy,
    /// The phone has not been let in.
    NotPaired,
    /// Not from there.
    Forbidden,
    /// The store could not do it.
    Storage,
    /// The work was stopped.
    Stopped,
    /// A fault of this program.
    Ours,
}

/// A refusal, in every language: what refuses does not know who asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// What kind it is.
    pub code: Code,
    /// What is wrong, in a sentence.
    pub message: Words,
    /// What to do about it.
    pub hint: Option<Words>,
}

/// A refusal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Refusal")]
pub struct RefusalTold {
    /// What kind it is.
    pub code: Code,
    /// What is wrong, in a sentence.
    pub message: String,
    /// What to do about it.
    pub hint: Option<String>,
}

/// The body of a refusal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct RefusalBody {
    /// Why it was refused.
    pub error: RefusalTold,
}

impl RefusalBody {
    /// A refusal in the language of the request that is being answered.
    pub fn of(refusal: &Refusal) -> Self {
        let language = LANGUAGE.try_with(|language| *language).unwrap_or_default();
        RefusalBody {
            error: refusal.told(language),
        }
    }
}

tokio::task_local! {
    /// The language of the request that is being answered. A refusal can come from any depth, and from what reads a request
    /// before its handler is called; only the outermost layer sees every request and every answer.
    pub(crate) static LANGUAGE: Language;
}

/// The language that an address asks for behind its question mark: English when it says none, or none that is spoken here.
pub(crate) fn language_of(query: Option<&str>) -> Language {
    let said = query
        .unwrap_or_default()
        .split('&')
        .find_map(|pair| pair.strip_prefix("lang="));
    said.and_then(Language::of_code).unwrap_or_default()
}

impl Refusal {
    /// A refusal of a kind.
    pub fn new(code: Code, message: Words) -> Self {
        Refusal {
            code,
            message,
            hint: None,
        }
    }

    /// With what to do.
    pub fn hint(mut self, hint: Words) -> Self {
        self.hint = Some(hint);
        self
    }

    /// Something that is not there.
    pub fn not_found(message: Words) -> Self {
        Refusal::new(Code::NotFound, message)
    }

    /// It in one language.
    pub fn told(&self, language: Language) -> RefusalTold {
        let of = |words: &Words| words.in_language(language).to_owned();
        RefusalTold {
            code: self.code,
            message: of(&self.message),
            hint: self.hint.as_ref().map(of),
        }
    }

    /// The status that goes with its kind.
    pub fn status(&self) -> StatusCode {
        match self.code {
            Code::BadRequest => StatusCode::BAD_REQUEST,
            Code::BadShoot => StatusCode::UNPROCESSABLE_ENTITY,
            Code::NotFound => StatusCode::NOT_FOUND,
            Code::Conflict => StatusCode::CONFLICT,
            Code::TooLarge => StatusCode::PAYLOAD_TOO_LARGE,
            Code::Busy => StatusCode::TOO_MANY_REQUESTS,
            Code::NotPaired | Code::Forbidden => StatusCode::FORBIDDEN,
            Code::Storage => StatusCode::INSUFFICIENT_STORAGE,
            Code::Stopped => StatusCode::GONE,
            Code::Ours => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        let mut headers = HeaderMap::new();
        if self.code == Code::Busy {
            headers.insert("retry-after", axum::http::HeaderValue::from_static("2"));
        }
        let status = self.status();
        (status, headers, Json(RefusalBody::of(&self))).into_response()
    }
}

impl From<&StoreError> for Refusal {
    fn from(error: &StoreError) -> Self {
        let code = match error {
            StoreError::NotFound => Code::NotFound,
            StoreError::Conflict { .. } => Code::Conflict,
            StoreError::TooLong { .. } => Code::TooLarge,
            StoreError::NoName | StoreError::Unprintable { .. } => Code::BadRequest,
            StoreError::Busy { .. } => Code::Busy,
            _ => Code::Storage,
        };
        Refusal::new(code, words_of_store(error))
    }
}

impl From<StoreError> for Refusal {
    fn from(error: StoreError) -> Self {
        Refusal::from(&error)
    }
}

/// Why the store did not do it. Where documents are kept, and what the system said, is the same in every language.
fn words_of_store(error: &StoreError) -> Words {
    match error {
        StoreError::NotFound => both!(
            "There is no such document here. It may have been saved somewhere else; look through the list.";
            "Ein solches Dokument gibt es hier nicht. Vielleicht ist es woanders gespeichert; sieh in der Liste nach."
        ),
        StoreError::Conflict { theirs } => {
            let (name, version) = (&theirs.name, theirs.version);
            both!(
                "“{name}” was saved by somebody else in the meantime, as version {version}. Look at that version, put the two \
                 together and save again.";
                "„{name}“ wurde inzwischen anderswo gespeichert, als Fassung {version}. Sieh dir diese Fassung an, führe beide \
                 zusammen und speichere noch einmal."
            )
        }
        StoreError::NoName => both!(
            "A document needs a name. Give it one and save again.";
            "Ein Dokument braucht einen Namen. Gib ihm einen und speichere noch einmal."
        ),
        StoreError::TooLong {
            part: Part::Name,
            length,
            most,
        } => both!(
            "The name is too long: {length} characters, and at most {most} fit. Shorten it and save again.";
            "Der Name ist zu lang: {length} Zeichen, und höchstens {most} gehen. Kürze ihn und speichere noch einmal."
        ),
        StoreError::TooLong {
            part: Part::Text,
            length,
            most,
        } => both!(
            "The text is too long: {length} bytes, and at most {most} fit. Shorten it and save again.";
            "Der Text ist zu lang: {length} Bytes, und höchstens {most} gehen. Kürze ihn und speichere noch einmal."
        ),
        StoreError::Unprintable { part, at, character } => {
            let character = character.escape_unicode().to_string();
            match part {
                Part::Name => both!(
                    "The name has a character that cannot be printed ({character}, the {at}. character). Take it out and save again.";
                    "Im Namen steht ein Zeichen, das sich nicht drucken lässt ({character}, das {at}. Zeichen). Nimm es heraus \
                     und speichere noch einmal."
                ),
                Part::Text => both!(
                    "The text has a character that cannot be printed ({character}, the {at}. character). Take it out and save again.";
                    "Im Text steht ein Zeichen, das sich nicht drucken lässt ({character}, das {at}. Zeichen). Nimm es heraus \
                     und speichere noch einmal."
                ),
            }
        }
        StoreError::Full { place } => both!(
            "There is no room left where {place} is kept: the disk is full, or your share of it. Nothing saved before is lost. \
             Free some space and save again.";
            "Wo {place} liegt, ist kein Platz mehr: Der Datenträger ist voll, oder dein Anteil daran. Was schon gespeichert war, \
             ist da. Schaffe Platz und speichere noch einmal."
        ),
        StoreError::ReadOnly { place } => both!(
            "{place} can be read but not written. Allow writing to it and to its folder, or copy it to where you may write.";
            "{place} lässt sich lesen, aber nicht beschreiben. Erlaube das Schreiben dort und im Ordner, oder kopiere es \
             dorthin, wo du schreiben darfst."
        ),
        StoreError::Busy { place } => both!(
            "{place} is busy with somebody else's work. Try again in a moment.";
            "{place} ist mit anderer Arbeit beschäftigt. Versuch es gleich noch einmal."
        ),
        StoreError::Newer { place } => both!(
            "{place} was written by a later version of this program, and is left as it is. Use that version to open it.";
            "{place} stammt von einer neueren Fassung dieses Programms und bleibt, wie es ist. Öffne es mit jener Fassung."
        ),
        StoreError::Damaged { place, detail } => both!(
            "{place} is damaged ({detail}). It is left untouched. Put back a copy of it; or move it away, keep it, and start \
             with an empty one.";
            "{place} ist beschädigt ({detail}) und bleibt unangetastet. Spiel eine Kopie davon zurück; oder leg es beiseite, \
             hebe es auf und fang mit einem leeren an."
        ),
        StoreError::NotOurs { place } => both!(
            "{place} belongs to another program, and is left untouched. Name another file, or a database of its own.";
            "{place} gehört zu einem anderen Programm und bleibt unangetastet. Nenne eine andere Datei, oder eine eigene \
             Datenbank."
        ),
        StoreError::Unreachable { place, detail } => both!(
            "{place} cannot be reached ({detail}). See that it is there and lets you in, then try again.";
            "{place} ist nicht zu erreichen ({detail}). Sieh nach, ob es da ist und dich hineinlässt, und versuch es noch einmal."
        ),
        StoreError::DiskFailed { place, detail } => both!(
            "{place} could not be used: the disk failed ({detail}). Copy it to another disk.";
            "{place} war nicht zu benutzen: Der Datenträger hat versagt ({detail}). Kopiere es auf einen anderen."
        ),
        StoreError::Other { place, detail } => both!(
            "{place} could not be used: {detail}.";
            "{place} war nicht zu benutzen: {detail}."
        ),
    }
}

impl From<JsonRejection> for Refusal {
    fn from(rejection: JsonRejection) -> Self {
        of_body(rejection.status(), &rejection.body_text())
    }
}

impl From<BytesRejection> for Refusal {
    fn from(rejection: BytesRejection) -> Self {
        of_body(rejection.status(), &rejection.body_text())
    }
}

/// A body that could not be taken.
fn of_body(status: StatusCode, why: &str) -> Refusal {
    match status {
        StatusCode::PAYLOAD_TOO_LARGE => Refusal::new(
            Code::TooLarge,
            both!("This is larger than what is taken here."; "Das ist größer, als hier angenommen wird."),
        )
        .hint(both!("Send less at a time."; "Schick weniger auf einmal.")),
        StatusCode::UNSUPPORTED_MEDIA_TYPE => Refusal::new(
            Code::BadRequest,
            both!("This is not sent as JSON."; "Das kommt nicht als JSON."),
        )
        .hint(both!(
            "Say \"Content-Type: application/json\".";
            "Sag \"Content-Type: application/json\"."
        )),
        _ => Refusal::new(
            Code::BadRequest,
            both!("The request cannot be read: {why}."; "Die Anfrage ist nicht zu lesen: {why}."),
        ),
    }
}

impl From<PathRejection> for Refusal {
    fn from(rejection: PathRejection) -> Self {
        let why = rejection.body_text();
        Refusal::new(
            Code::BadRequest,
            both!("The address cannot be read: {why}."; "Die Adresse ist nicht zu lesen: {why}."),
        )
    }
}

impl From<QueryRejection> for Refusal {
    fn from(rejection: QueryRejection) -> Self {
        let why = rejection.body_text();
        Refusal::new(
            Code::BadRequest,
            both!(
                "What stands behind the question mark cannot be read: {why}.";
                "Was hinter dem Fragezeichen steht, ist nicht zu lesen: {why}."
            ),
        )
    }
}
