//! Who may ask: looked at before anything else.
//!
//! A page of another site can make a browser send requests here, and a name that it owns can be made to point at this
//! machine. So a request must name one of our own addresses as its host, and where a browser says which page sent it,
//! that must be ours too. A phone in the local network must have been let in with the secret of the moment.

use super::door::Door;
use super::house::House;
use super::refusal::{Code, LANGUAGE, Refusal, language_of};
use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use shoot::{Words, both};
use std::sync::Arc;

/// The name of the cookie that a phone shows.
pub const COOKIE: &str = "rushlight_phone";

/// What a page of ours may do: nothing from elsewhere, nothing inline.
const POLICY: &str = "default-src 'self'; img-src 'self' data: blob:; frame-src 'self' blob:; object-src 'none'; \
                      base-uri 'none'; form-action 'none'; frame-ancestors 'self'";

/// Lets a request through or refuses it, and puts the same careful headers on every response.
pub async fn guard(
    State((house, door)): State<(Arc<House>, Door)>,
    request: Request,
    next: Next,
) -> Response {
    let language = language_of(request.uri().query());
    let mut response = LANGUAGE
        .scope(language, answered(&house, door, request, next))
        .await;
    for (name, value) in [
        ("x-content-type-options", "nosniff"),
        ("referrer-policy", "no-referrer"),
        ("cross-origin-resource-policy", "same-origin"),
        ("cross-origin-opener-policy", "same-origin"),
        ("content-security-policy", POLICY),
        ("cache-control", "no-store"),
    ] {
        // A route may have said something stricter, or that a file never changes.
        response
            .headers_mut()
            .entry(HeaderName::from_static(name))
            .or_insert(HeaderValue::from_static(value));
    }
    response
}

/// The response to a request, or the refusal to let it in.
async fn answered(house: &House, door: Door, mut request: Request, next: Next) -> Response {
    let allowed = may_pass(
        house,
        door,
        request.method(),
        request.uri().path(),
        request.headers(),
    );
    match allowed {
        Ok(()) => {
            request.extensions_mut().insert(door);
            next.run(request).await
        }
        Err(refusal) => refusal.into_response(),
    }
}

/// Whether a request may pass.
fn may_pass(
    house: &House,
    door: Door,
    method: &Method,
    path: &str,
    headers: &HeaderMap,
) -> Result<(), Refusal> {
    let foreign = |message: Words| {
        Err(Refusal::new(Code::Forbidden, message).hint(both!(
            "Open the page at the address that the program printed.";
            "Öffne die Seite unter der Adresse, die das Programm ausgegeben hat."
        )))
    };
    let another_site = || {
        both!(
            "This request comes from a page of another site, which may not ask here.";
            "Diese Anfrage kommt von der Seite eines anderen Anbieters, und die darf hier nicht fragen."
        )
    };
    let host = text(headers, header::HOST);
    if !host.is_some_and(|host| door.answers_to(host)) {
        return foreign(both!(
            "This request comes from an address that is not ours, which may not ask here.";
            "Diese Anfrage kommt von einer fremden Adresse, und von dort darf niemand fragen."
        ));
    }
    if let Some(origin) = text(headers, header::ORIGIN) {
        let ours = origin
            .strip_prefix("http://")
            .is_some_and(|origin| door.answers_to(origin) && Some(origin) == host);
        if !ours {
            return foreign(another_site());
        }
    }
    let site = headers
        .get("sec-fetch-site")
        .and_then(|value| value.to_str().ok());
    let top = headers
        .get("sec-fetch-mode")
        .is_some_and(|mode| mode == "navigate");
    match site {
        None | Some("same-origin" | "none") => {}
        // Following a link to the page itself is how one arrives.
        Some(_) if top && *method == Method::GET && !path.starts_with("/api") => {}
        Some(_) => return foreign(another_site()),
    }
    if matches!(door, Door::Phone { .. }) && needs_pairing(path) {
        let shown = headers
            .get_all(header::COOKIE)
            .iter()
            .filter_map(|value| value.to_str().ok())
            .flat_map(|value| value.split(';'))
            .filter_map(|pair| pair.trim().split_once('='))
            .any(|(name, value)| name == COOKIE && house.phone.knows(value));
        if !shown {
            return Err(Refusal::new(
                Code::NotPaired,
                both!("This phone has not been let in yet."; "Dieses Telefon ist noch nicht eingelassen."),
            )
            .hint(both!(
                "Scan the code that the page shows on the computer; each code lets one phone in.";
                "Scanne den Code, den die Seite am Rechner zeigt; jeder Code lässt ein Telefon ein."
            )));
        }
    }
    Ok(())
}

/// The page itself holds nothing private, and pairing is how one gets in.
fn needs_pairing(path: &str) -> bool {
    path.starts_with("/api") && path != "/api/pair"
}

fn text(headers: &HeaderMap, name: HeaderName) -> Option<&str> {
    let mut all = headers.get_all(name).iter();
    let first = all.next()?.to_str().ok();
    // Two hosts or two origins are a trick.
    if all.next().is_some() { None } else { first }
}
