//! The page itself, which the program carries inside.

use super::refusal::Refusal;
use super::requests::At;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use shoot::both;

/// The page.
pub async fn page() -> Response {
    match page::file("index.html") {
        Some(file) => ([(header::CONTENT_TYPE, file.kind)], file.bytes).into_response(),
        None => Refusal::not_found(both!("This program was built without its page."; "Dieses Programm wurde ohne seine Seite gebaut.")).into_response(),
    }
}

/// A file of the page: by its name alone, from a list that was made when the program was built.
pub async fn file(At(name): At<String>) -> Response {
    match page::file(&format!("assets/{name}")) {
        // Its name has its content's number in it, so it never changes.
        Some(file) => (
            [
                (header::CONTENT_TYPE, file.kind),
                (header::CACHE_CONTROL, "private, max-age=31536000, immutable"),
            ],
            file.bytes,
        )
            .into_response(),
        None => Refusal::not_found(both!("The page has no such file."; "Die Seite hat keine solche Datei."))
            .into_response(),
    }
}
