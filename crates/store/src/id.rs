//! The identifier of a document.

use std::fmt;

/// The opaque identifier of a document: 16 characters, digits and lower-case letters without `i`, `l`, `o`
/// and `u`, so that it can go into an address or a file name, and be read aloud.
///
/// It holds 80 random bits that the database drew, so no one finds another's document by guessing, but it is
/// no substitute for a password.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct DocumentId(String);

const ALPHABET: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";

impl DocumentId {
    /// Spells ten random bytes, five bits a character.
    pub(crate) fn spelling(chance: [u8; 10]) -> DocumentId {
        let bits = chance
            .iter()
            .fold(0u128, |bits, &byte| bits << 8 | u128::from(byte));
        let character = |place: usize| char::from(ALPHABET[(bits >> (75 - 5 * place)) as usize & 31]);
        DocumentId((0..16).map(character).collect())
    }

    /// Takes an identifier as it was spelt before, or nothing if no document can have it, so that the
    /// database is never asked for text that it may refuse to read.
    pub(crate) fn read(text: &str) -> Option<DocumentId> {
        let fits = text.len() == 16 && text.bytes().all(|byte| ALPHABET.contains(&byte));
        fits.then(|| DocumentId(text.to_owned()))
    }

    /// The sixteen characters.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for DocumentId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl AsRef<str> for DocumentId {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl From<DocumentId> for String {
    fn from(id: DocumentId) -> String {
        id.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_bit_is_spelt() {
        let check = |chance: [u8; 10], expected: &str| {
            let id = DocumentId::spelling(chance);
            assert_eq!(id.as_str(), expected);
            assert_eq!(DocumentId::read(expected), Some(id));
        };
        check([0; 10], "0000000000000000");
        check([255; 10], "zzzzzzzzzzzzzzzz");
        check([0, 0, 0, 0, 0, 0, 0, 0, 0, 1], "0000000000000001");
        check([0x80, 0, 0, 0, 0, 0, 0, 0, 0, 0x20], "g000000000000010");
        for bit in 0..80 {
            let mut chance = [0; 10];
            chance[bit / 8] = 1 << (bit % 8);
            assert_ne!(
                DocumentId::spelling(chance),
                DocumentId::spelling([0; 10]),
                "bit {bit}"
            );
        }
    }

    #[test]
    fn nothing_else_is_an_identifier() {
        for text in [
            "",
            "0",
            "000000000000000",
            "00000000000000000",
            "000000000000000u",
            "000000000000000A",
            "\0",
        ] {
            assert_eq!(DocumentId::read(text), None, "{text:?}");
        }
    }
}
