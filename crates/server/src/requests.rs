//! What handlers take from a request.

use super::refusal::{Code, Refusal};
use axum::Json;
use axum::extract::rejection::JsonRejection;
use axum::extract::{FromRequest, Request};
use axum::http::HeaderMap;
use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use sheet::Language;
use shoot::both;

/// What most requests may bring, in bytes (ours): a shoot text of a mebibyte, twice as long when every letter of it is
/// escaped, and its edits.
pub const MOST_BYTES: usize = 4 << 20;
/// What an upload of a whole collection may bring, and what a scan may (ours).
pub const MOST_IMPORTED: usize = 64 << 20;

/// A JSON body, or a refusal that says what is wrong with it.
pub struct JsonBody<T>(pub T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequest<S> for JsonBody<T> {
    type Rejection = Refusal;

    async fn from_request(request: Request, state: &S) -> Result<Self, Refusal> {
        let body: Result<Json<T>, JsonRejection> = Json::from_request(request, state).await;
        body.map(|Json(value)| JsonBody(value)).map_err(Refusal::from)
    }
}

/// What stands behind the question mark, or a refusal that says what is wrong with it.
pub struct Query<T>(pub T);

impl<T: DeserializeOwned, S: Send + Sync> axum::extract::FromRequestParts<S> for Query<T> {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, state: &S) -> Result<Self, Refusal> {
        let query = axum::extract::Query::<T>::from_request_parts(parts, state).await;
        query
            .map(|axum::extract::Query(value)| Query(value))
            .map_err(Refusal::from)
    }
}

/// The language that a request wants its answer in: English when it does not say.
pub struct Spoken(pub Language);

/// What may say it.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
pub struct LanguageQuery {
    /// Language of the words: "en" or "de"; English when it is not said.
    #[serde(default)]
    #[schemars(extend("enum" = ["en", "de"]))]
    pub lang: Option<String>,
}

impl<S: Send + Sync> axum::extract::FromRequestParts<S> for Spoken {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, state: &S) -> Result<Self, Refusal> {
        let Query(said) = Query::<LanguageQuery>::from_request_parts(parts, state).await?;
        let Some(code) = said.lang else {
            return Ok(Spoken(Language::English));
        };
        Language::of_code(&code).map(Spoken).ok_or_else(|| {
            let [first, second] = Language::ALL.map(Language::code);
            Refusal::new(
                Code::BadRequest,
                both!("This language is not spoken here."; "Diese Sprache wird hier nicht gesprochen."),
            )
            .hint(both!("Say lang={first} or lang={second}."; "Sag lang={first} oder lang={second}."))
        })
    }
}

/// The changing parts of an address, or a refusal that says what is wrong with them.
pub struct At<T>(pub T);

impl<T: DeserializeOwned + Send, S: Send + Sync> axum::extract::FromRequestParts<S> for At<T> {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut axum::http::request::Parts, state: &S) -> Result<Self, Refusal> {
        let path = axum::extract::Path::<T>::from_request_parts(parts, state).await;
        path.map(|axum::extract::Path(value)| At(value))
            .map_err(Refusal::from)
    }
}

/// The lane of who asks: each window of the page says a name of its own.
pub fn lane_of(headers: &HeaderMap) -> String {
    /// A name longer than this is cut: it only tells windows apart.
    const LONGEST: usize = 64;
    let said = headers
        .get("x-rushlight-window")
        .and_then(|value| value.to_str().ok());
    said.unwrap_or("").chars().take(LONGEST).collect()
}

/// Work of a second or two that keeps no other request waiting.
pub async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, Refusal> + Send + 'static,
) -> Result<T, Refusal> {
    tokio::task::spawn_blocking(work).await.unwrap_or_else(|_| {
        Err(Refusal::new(
            Code::Ours,
            both!("This program made a mistake here."; "Dieses Programm hat hier einen Fehler gemacht."),
        ))
    })
}
