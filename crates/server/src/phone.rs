//! Letting a phone in: a door to the local network that somebody at this machine opens, and a secret that works once.

use super::door::Door;
use super::guard::COOKIE;
use super::house::House;
use super::pairing::{MINUTES, OpenDoor, PhoneTold};
use super::refusal::{Code, Refusal};
use super::requests::JsonBody;
use axum::Extension;
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use fast_qr::QRBuilder;
use fast_qr::convert::svg::SvgBuilder;
use fast_qr::convert::{Builder, Shape};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use shoot::both;
use std::net::{IpAddr, SocketAddr};
use std::sync::Arc;
use tokio::net::TcpListener;

/// A door that was opened, with the secret of the moment.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct PhoneOpened {
    /// The address with the secret, for one phone.
    pub url: String,
    /// The same as a code to scan, SVG.
    pub qr: String,
    /// Minutes for which the secret waits.
    pub minutes: u64,
}

/// A request that says nothing.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub struct Nothing {}

/// A phone's guess.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct PairRequest {
    /// The secret that was scanned.
    pub secret: String,
}

/// Opens the door to the local network, or makes a new secret for the one that is open.
pub async fn open(
    State(house): State<Arc<House>>,
    Extension(door): Extension<Door>,
    JsonBody(Nothing {}): JsonBody<Nothing>,
) -> Result<Json<PhoneOpened>, Refusal> {
    only_here(door)?;
    let already = house.phone.open_at();
    let at = match already {
        Some(at) => at,
        None => open_door(&house).await?,
    };
    let secret = house.phone.new_secret()?;
    let url = format!("http://{at}/#pair={secret}");
    Ok(Json(PhoneOpened {
        qr: code(&url)?,
        url,
        minutes: MINUTES,
    }))
}

async fn open_door(house: &Arc<House>) -> Result<SocketAddr, Refusal> {
    let address = local_address().ok_or_else(|| {
        Refusal::new(
            Code::BadRequest,
            both!(
                "This machine is in no local network, so no phone can reach it.";
                "Dieser Rechner ist in keinem lokalen Netz, darum kann ihn kein Telefon erreichen."
            ),
        )
        .hint(both!(
            "Join the wireless network that the phone is in, or let the phone share its own, and try again.";
            "Geh in das Funknetz, in dem das Telefon ist, oder lass das Telefon seins teilen, und versuch es noch einmal."
        ))
    })?;
    let cannot = |error: std::io::Error| {
        Refusal::new(
            Code::Ours,
            both!(
                "The door to the local network could not be opened: {error}.";
                "Der Zugang zum lokalen Netz ließ sich nicht öffnen: {error}."
            ),
        )
    };
    let listener = TcpListener::bind(SocketAddr::from((address, 0)))
        .await
        .map_err(cannot)?;
    let at = listener.local_addr().map_err(cannot)?;
    let router = house.router(Door::Phone { at });
    let served = tokio::spawn(async move {
        // The door is shut by ending this task, and no one is left to hear of its error.
        let _ = axum::serve(listener, router).await;
    });
    Ok(house.phone.keep(OpenDoor { at, served }))
}

/// An address of this machine in the local network: a private IPv4 one, by choice.
fn local_address() -> Option<IpAddr> {
    let mut found: Vec<IpAddr> = if_addrs::get_if_addrs()
        .ok()?
        .into_iter()
        .filter(|interface| !interface.is_loopback())
        .map(|interface| interface.ip())
        .filter(IpAddr::is_ipv4)
        .collect();
    let private = |address: &IpAddr| matches!(address, IpAddr::V4(v4) if v4.is_private());
    found.sort_by_key(|address| !private(address));
    found.first().copied()
}

fn code(url: &str) -> Result<String, Refusal> {
    let code = QRBuilder::new(url).build().map_err(|error| {
        let why = error.to_string();
        Refusal::new(
            Code::Ours,
            both!("The code could not be drawn: {why}."; "Der Code ließ sich nicht zeichnen: {why}."),
        )
    })?;
    Ok(SvgBuilder::default().shape(Shape::Square).margin(4).to_str(&code))
}

/// Shuts the door and forgets every phone.
pub async fn shut(
    State(house): State<Arc<House>>,
    Extension(door): Extension<Door>,
) -> Result<StatusCode, Refusal> {
    only_here(door)?;
    house.phone.shut();
    Ok(StatusCode::NO_CONTENT)
}

/// Lets a phone in that shows the secret of the moment.
pub async fn pair(
    State(house): State<Arc<House>>,
    JsonBody(request): JsonBody<PairRequest>,
) -> Result<Response, Refusal> {
    let cookie = house.phone.guess(&request.secret)?;
    let value = format!("{COOKIE}={cookie}; HttpOnly; SameSite=Strict; Path=/");
    let value = HeaderValue::from_str(&value)
        .map_err(|error| {
        Refusal::new(
            Code::Ours,
            both!("The cookie could not be written: {error}."; "Das Cookie ließ sich nicht schreiben: {error}."),
        )
    })?;
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, value)]).into_response())
}

/// What only somebody at this machine may do.
fn only_here(door: Door) -> Result<(), Refusal> {
    match door {
        Door::Here { .. } => Ok(()),
        Door::Phone { .. } => Err(Refusal::new(
            Code::Forbidden,
            both!(
                "Only the page on the computer may open or shut the door to the local network.";
                "Nur die Seite am Rechner darf den Zugang zum lokalen Netz öffnen oder schließen."
            ),
        )),
    }
}

/// What program this is, and through which door it is seen.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct About {
    /// Version of the program.
    pub version: String,
    /// The door to the local network.
    pub phone: PhoneTold,
    /// "here" on this machine, "phone" from the local network.
    pub you: Seen,
    /// Where shoots are kept, in words.
    pub storage: String,
}

/// From where the page is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Seen {
    /// From this machine.
    Here,
    /// From the local network.
    Phone,
}

/// What program this is.
pub async fn about(State(house): State<Arc<House>>, Extension(door): Extension<Door>) -> Json<About> {
    Json(About {
        version: env!("CARGO_PKG_VERSION").to_owned(),
        phone: house.phone.told(),
        you: match door {
            Door::Here { .. } => Seen::Here,
            Door::Phone { .. } => Seen::Phone,
        },
        storage: house.store.describe(),
    })
}
