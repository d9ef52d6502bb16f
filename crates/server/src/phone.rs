//! Letting a phone in: a door to the local network that somebody at this machine opens, and a secret that works once.

use super::guard::{COOKIE, Door};
use super::refusal::{Code, Refusal};
use super::routes::Said;
use super::{House, routes};
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
use std::net::{IpAddr, SocketAddr};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use tokio::net::TcpListener;
use tokio::task::JoinHandle;

/// How long a secret waits for its phone (ours).
const MINUTES: u64 = 10;
/// Wrong guesses after which a secret is worth nothing (ours).
const MOST_GUESSES: u32 = 5;
/// Phones that are remembered at a time (ours).
const MOST_PHONES: usize = 16;

/// The phone's door.
#[derive(Default)]
pub struct Phone {
    state: Mutex<State_>,
}

#[derive(Default)]
struct State_ {
    open: Option<OpenDoor>,
    /// The secret of the moment; it works once.
    secret: Option<Secret>,
    /// Cookies of the phones that were let in.
    known: Vec<String>,
}

struct OpenDoor {
    at: SocketAddr,
    served: JoinHandle<()>,
}

struct Secret {
    text: String,
    until: Instant,
    guesses: u32,
}

impl Phone {
    fn state(&self) -> MutexGuard<'_, State_> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Whether a cookie is one of a phone that was let in.
    pub fn knows(&self, cookie: &str) -> bool {
        self.state().known.iter().any(|known| same(known, cookie))
    }

    /// Where the door to the local network is, if it is open, and how many phones were let in.
    pub fn told(&self) -> PhoneTold {
        let state = self.state();
        PhoneTold {
            open: state.open.is_some(),
            url: state.open.as_ref().map(|door| format!("http://{}/", door.at)),
            paired: state.known.len() as u32,
        }
    }

    /// A new secret; an older one is worth nothing any more.
    fn new_secret(&self) -> Result<String, Refusal> {
        let text = chance()?;
        self.state().secret = Some(Secret {
            text: text.clone(),
            until: Instant::now() + Duration::from_secs(60 * MINUTES),
            guesses: 0,
        });
        Ok(text)
    }

    /// Takes a guess; the right one gives a cookie and is used up by it.
    fn guess(&self, guess: &str) -> Result<String, Refusal> {
        let refused = || {
            Refusal::new(
                Code::NotPaired,
                "This code does not let a phone in; it may have been used already.",
            )
            .hint("Have the page on the computer show a new one.")
        };
        let cookie = chance()?;
        let mut state = self.state();
        let Some(secret) = &mut state.secret else {
            return Err(refused());
        };
        let right = same(&secret.text, guess) && Instant::now() < secret.until;
        if !right {
            secret.guesses += 1;
            if secret.guesses >= MOST_GUESSES {
                state.secret = None;
            }
            return Err(refused());
        }
        state.secret = None;
        if state.known.len() >= MOST_PHONES {
            state.known.remove(0);
        }
        state.known.push(cookie.clone());
        Ok(cookie)
    }

    /// Shuts the door and forgets every phone.
    pub fn shut(&self) {
        let mut state = self.state();
        if let Some(door) = state.open.take() {
            door.served.abort();
        }
        state.secret = None;
        state.known.clear();
    }
}

/// Compares without telling by its time how much was right.
fn same(a: &str, b: &str) -> bool {
    a.len() == b.len()
        && a.bytes()
            .zip(b.bytes())
            .fold(0, |differ, (a, b)| differ | (a ^ b))
            == 0
}

/// 128 bits of chance from the operating system, as text.
fn chance() -> Result<String, Refusal> {
    let mut bytes = [0u8; 16];
    getrandom::fill(&mut bytes).map_err(|error| {
        Refusal::new(
            Code::Ours,
            format!("The operating system gave no chance for a secret: {error}."),
        )
    })?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// Where the door to the local network stands.
#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
pub struct PhoneTold {
    /// Whether it is open.
    pub open: bool,
    /// Its address, if it is open.
    pub url: Option<String>,
    /// Phones that were let in.
    pub paired: u32,
}

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
    Said(Nothing {}): Said<Nothing>,
) -> Result<Json<PhoneOpened>, Refusal> {
    only_here(door)?;
    let already = house.phone.state().open.as_ref().map(|door| door.at);
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
            "This machine is in no local network, so no phone can reach it.",
        )
        .hint(
            "Join the wireless network that the phone is in, or let the phone share its own, and try again.",
        )
    })?;
    let cannot = |error: std::io::Error| {
        Refusal::new(
            Code::Ours,
            format!("The door to the local network could not be opened: {error}."),
        )
    };
    let listener = TcpListener::bind(SocketAddr::from((address, 0)))
        .await
        .map_err(cannot)?;
    let at = listener.local_addr().map_err(cannot)?;
    let router = routes::router(Arc::clone(house), Door::Phone { at });
    let served = tokio::spawn(async move {
        // The door is shut by ending this task; nobody is left to hear of its error.
        let _ = axum::serve(listener, router).await;
    });
    let mut state = house.phone.state();
    if let Some(earlier) = &state.open {
        // Two windows asked at once; one door is enough.
        served.abort();
        return Ok(earlier.at);
    }
    state.open = Some(OpenDoor { at, served });
    Ok(at)
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
    let code = QRBuilder::new(url)
        .build()
        .map_err(|error| Refusal::new(Code::Ours, format!("The code could not be drawn: {error}.")))?;
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
    Said(request): Said<PairRequest>,
) -> Result<Response, Refusal> {
    let cookie = house.phone.guess(&request.secret)?;
    let value = format!("{COOKIE}={cookie}; HttpOnly; SameSite=Strict; Path=/");
    let value = HeaderValue::from_str(&value)
        .map_err(|error| Refusal::new(Code::Ours, format!("The cookie could not be written: {error}.")))?;
    Ok((StatusCode::NO_CONTENT, [(header::SET_COOKIE, value)]).into_response())
}

/// What only somebody at this machine may do.
fn only_here(door: Door) -> Result<(), Refusal> {
    match door {
        Door::Here { .. } => Ok(()),
        Door::Phone { .. } => Err(Refusal::new(
            Code::Forbidden,
            "Only the page on the computer may open or shut the door to the local network.",
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_secret_works_once() {
        let phone = Phone::default();
        let secret = phone.new_secret().expect("chance");
        let cookie = phone.guess(&secret).expect("the right secret");
        assert!(phone.knows(&cookie));
        assert!(phone.guess(&secret).is_err(), "a second time");
        phone.shut();
        assert!(!phone.knows(&cookie), "after the door was shut");
    }

    #[test]
    fn five_wrong_guesses_end_it() {
        let phone = Phone::default();
        let secret = phone.new_secret().expect("chance");
        for guess in ["", "0", "00000000000000000000000000000000", "x", &secret[1..]] {
            assert!(phone.guess(guess).is_err(), "{guess}");
        }
        assert!(phone.guess(&secret).is_err(), "the right one comes too late");
    }

    #[test]
    fn a_newer_secret_ends_an_older_one() {
        let phone = Phone::default();
        let (first, second) = (
            phone.new_secret().expect("chance"),
            phone.new_secret().expect("chance"),
        );
        assert_ne!(first, second);
        assert!(phone.guess(&first).is_err());
        assert!(phone.guess(&second).is_ok());
    }
}
