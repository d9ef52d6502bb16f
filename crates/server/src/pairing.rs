//! Which phones may ask: the door that is open for them, and the secret that lets one in.

use super::refusal::{Code, Refusal};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use shoot::both;
use std::net::SocketAddr;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};
use tokio::task::JoinHandle;

/// How long a secret waits for its phone (ours).
pub(crate) const MINUTES: u64 = 10;
/// Wrong guesses after which a secret is worth nothing (ours).
const MOST_GUESSES: u32 = 5;
/// Phones that are remembered at a time (ours).
const MOST_PHONES: usize = 16;

/// The phone's door.
#[derive(Default)]
pub struct Phone {
    state: Mutex<Admitted>,
}

#[derive(Default)]
struct Admitted {
    open: Option<OpenDoor>,
    /// The secret of the moment; it works once.
    secret: Option<Secret>,
    /// Cookies of the phones that were let in.
    known: Vec<String>,
}

pub(crate) struct OpenDoor {
    pub at: SocketAddr,
    pub served: JoinHandle<()>,
}

struct Secret {
    text: String,
    until: Instant,
    guesses: u32,
}

impl Phone {
    /// Where the door to the local network listens, while it is open.
    pub(crate) fn open_at(&self) -> Option<SocketAddr> {
        self.state().open.as_ref().map(|door| door.at)
    }

    /// Keeps a door that was opened; gives back where the earlier one listens when there is one, and shuts the new.
    pub(crate) fn keep(&self, door: OpenDoor) -> SocketAddr {
        let mut state = self.state();
        if let Some(earlier) = &state.open {
            // Two windows asked at once; one door is enough.
            door.served.abort();
            return earlier.at;
        }
        let at = door.at;
        state.open = Some(door);
        at
    }

    fn state(&self) -> MutexGuard<'_, Admitted> {
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
    pub(crate) fn new_secret(&self) -> Result<String, Refusal> {
        let text = chance()?;
        self.state().secret = Some(Secret {
            text: text.clone(),
            until: Instant::now() + Duration::from_secs(60 * MINUTES),
            guesses: 0,
        });
        Ok(text)
    }

    /// Takes a guess; the right one gives a cookie and is used up by it.
    pub(crate) fn guess(&self, guess: &str) -> Result<String, Refusal> {
        let refused = || {
            Refusal::new(
                Code::NotPaired,
                both!(
                    "This code does not let a phone in; it may have been used already.";
                    "Dieser Code lässt kein Telefon herein; vielleicht ist er schon benutzt."
                ),
            )
            .hint(both!("Have the page on the computer show a new one."; "Lass dir auf der Seite am Rechner einen neuen zeigen."))
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
            both!(
                "The operating system gave no chance for a secret: {error}.";
                "Das Betriebssystem gab keinen Zufall für ein Geheimnis her: {error}."
            ),
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
