//! The doors of the house.

use std::net::SocketAddr;

/// The door through which a request comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Door {
    /// The loopback address: this machine.
    Here {
        /// Where it listens.
        at: SocketAddr,
    },
    /// The local network: a phone.
    Phone {
        /// Where it listens.
        at: SocketAddr,
    },
}

impl Door {
    /// Whether a host's name is one of this door's own.
    pub(crate) fn answers_to(self, host: &str) -> bool {
        match self {
            Door::Here { at } => {
                let port = at.port();
                ["127.0.0.1", "localhost", "[::1]"]
                    .iter()
                    .any(|name| host.eq_ignore_ascii_case(&format!("{name}:{port}")))
            }
            Door::Phone { at } => host == at.to_string(),
        }
    }
}
