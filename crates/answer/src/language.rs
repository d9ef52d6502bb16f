//! The languages that people are spoken to in.

/// A language that sheets speak.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, serde::Serialize, schemars::JsonSchema)]
pub enum Language {
    /// English.
    #[default]
    #[serde(rename = "en")]
    English,
    /// German.
    #[serde(rename = "de")]
    German,
}

impl Language {
    /// Every language.
    pub const ALL: [Language; 2] = [Language::English, Language::German];

    /// Its code: "en", "de".
    pub fn code(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::German => "de",
        }
    }

    /// The language of a code; `None` for one that is not spoken here.
    pub fn of_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|language| language.code() == code)
    }
}
