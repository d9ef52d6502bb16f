//! Why a request was not done, in words for the person who can act.

use axum::Json;
use axum::extract::rejection::{BytesRejection, JsonRejection, PathRejection, QueryRejection};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use store::StoreError;

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

/// A refusal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Refusal {
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
    pub error: Refusal,
}

impl Refusal {
    /// A refusal of a kind.
    pub fn new(code: Code, message: impl Into<String>) -> Self {
        Refusal {
            code,
            message: message.into(),
            hint: None,
        }
    }

    /// With what to do.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// Something that is not there.
    pub fn not_found(message: impl Into<String>) -> Self {
        Refusal::new(Code::NotFound, message)
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
        (self.status(), headers, Json(RefusalBody { error: self })).into_response()
    }
}

impl From<StoreError> for Refusal {
    fn from(error: StoreError) -> Self {
        let code = match &error {
            StoreError::NotFound => Code::NotFound,
            StoreError::Conflict { .. } => Code::Conflict,
            StoreError::TooLong { .. } => Code::TooLarge,
            StoreError::NoName | StoreError::Unprintable { .. } => Code::BadRequest,
            StoreError::Busy { .. } => Code::Busy,
            _ => Code::Storage,
        };
        Refusal::new(code, error.to_string())
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
        StatusCode::PAYLOAD_TOO_LARGE => {
            Refusal::new(Code::TooLarge, "This is larger than what is taken here.")
                .hint("Send less at a time.")
        }
        StatusCode::UNSUPPORTED_MEDIA_TYPE => Refusal::new(Code::BadRequest, "This is not sent as JSON.")
            .hint("Say \"Content-Type: application/json\"."),
        _ => Refusal::new(Code::BadRequest, format!("The request cannot be read: {why}.")),
    }
}

impl From<PathRejection> for Refusal {
    fn from(rejection: PathRejection) -> Self {
        Refusal::new(
            Code::BadRequest,
            format!("The address cannot be read: {}.", rejection.body_text()),
        )
    }
}

impl From<QueryRejection> for Refusal {
    fn from(rejection: QueryRejection) -> Self {
        Refusal::new(
            Code::BadRequest,
            format!(
                "What stands behind the question mark cannot be read: {}.",
                rejection.body_text()
            ),
        )
    }
}
