//! What is said to the person who wrote a shoot file, in every language at once.
//!
//! A refusal is worded at the check that makes it, where its numbers are at hand. It is kept in both languages, because the
//! reader of a file does not know who will ask what is wrong with it; a translation that is missing does not compile.

use answer::Language;
use std::borrow::Cow;
use units::{Degrees, Duv, Ev, FNumber, Iso, Kelvin, PowerFraction, Ratio, Seconds, ShutterTime, Stops};

/// A text in every language.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Words {
    english: String,
    german: String,
}

/// A text in both languages: `both!("from {} to {}", from, to; "von {} bis {}")`.
///
/// What is listed behind the English is spoken in the language of the text ([`Spoken`]): a number has its decimal sign, and
/// [`Words`] are those of the language. What stands in the braces by name is the same in both: quotations, and what is to be
/// written into the file.
///
/// ```
/// use shoot::{Language, both};
/// let (from, key) = (0.5, "from_floor");
/// let words = both!("\"{key}\" begins at {} m", from; "\"{key}\" beginnt bei {} m");
/// assert_eq!(words.in_language(Language::English), "\"from_floor\" begins at 0.5 m");
/// assert_eq!(words.in_language(Language::German), "\"from_floor\" beginnt bei 0,5 m");
/// ```
#[macro_export]
macro_rules! both {
    ($english:literal $(, $value:expr)* ; $german:literal $(,)?) => {
        $crate::Words::of(
            ::std::fmt::format(format_args!($english $(, $crate::Spoken::spoken(&$value, $crate::Language::English))*)),
            ::std::fmt::format(format_args!($german $(, $crate::Spoken::spoken(&$value, $crate::Language::German))*)),
        )
    };
}

impl Words {
    /// Both texts, for [`both!`].
    #[doc(hidden)]
    pub fn of(english: String, german: String) -> Self {
        Words { english, german }
    }

    /// What is said in each language.
    pub fn in_each(say: impl Fn(Language) -> String) -> Self {
        Words::of(say(Language::English), say(Language::German))
    }

    /// What is the same in every language: a name, a quotation, the notation of the file.
    pub fn same(text: impl Into<String>) -> Self {
        let english = text.into();
        Words {
            german: english.clone(),
            english,
        }
    }

    /// The text in one language.
    pub fn in_language(&self, language: Language) -> &str {
        match language {
            Language::English => &self.english,
            Language::German => &self.german,
        }
    }

    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        self.english.is_empty() && self.german.is_empty()
    }

    /// With something done to the text of each language.
    pub(crate) fn each(&self, change: impl Fn(&str) -> String) -> Self {
        Words {
            english: change(&self.english),
            german: change(&self.german),
        }
    }

    /// The most letters that it has in a language.
    pub(crate) fn longest(&self) -> usize {
        self.english.chars().count().max(self.german.chars().count())
    }

    /// Several in a row, with something between them that is the same in every language.
    pub(crate) fn joined(parts: &[Words], between: &str) -> Self {
        let of = |language| {
            let parts: Vec<&str> = parts.iter().map(|part| part.in_language(language)).collect();
            parts.join(between)
        };
        Words::of(of(Language::English), of(Language::German))
    }
}

impl std::ops::AddAssign<&Words> for Words {
    fn add_assign(&mut self, more: &Words) {
        self.english += &more.english;
        self.german += &more.german;
    }
}

/// Something that [`both!`] can say in each language.
pub trait Spoken {
    /// It, as that language writes it.
    fn spoken(&self, language: Language) -> Cow<'_, str>;
}

impl Spoken for Words {
    fn spoken(&self, language: Language) -> Cow<'_, str> {
        Cow::Borrowed(self.in_language(language))
    }
}

impl<T: Spoken + ?Sized> Spoken for &T {
    fn spoken(&self, language: Language) -> Cow<'_, str> {
        (**self).spoken(language)
    }
}

macro_rules! spoken {
    ($($name:ty),*: as_written) => {
        $(impl Spoken for $name {
            fn spoken(&self, _: Language) -> Cow<'_, str> {
                Cow::Owned(self.to_string())
            }
        })*
    };
    ($($name:ty),*: with_decimals) => {
        $(impl Spoken for $name {
            fn spoken(&self, language: Language) -> Cow<'_, str> {
                Cow::Owned(with_decimals(self.to_string(), language))
            }
        })*
    };
}

spoken!(str, String, Cow<'_, str>, char, usize, i32, i64, u32, u64, FNumber, Iso, PowerFraction: as_written);
spoken!(f32, f64, Degrees, Duv, Ev, Kelvin, Ratio, Seconds, ShutterTime: with_decimals);

impl Spoken for Stops {
    fn spoken(&self, language: Language) -> Cow<'_, str> {
        Cow::Owned(stops_in(language, self.to_string(), self.value()))
    }
}

/// The decimal sign of a language in a number that is written with a point.
fn with_decimals(number: String, language: Language) -> String {
    match language {
        Language::English => number,
        Language::German => number.replace('.', ","),
    }
}

/// A number of stops that is printed in English, in a language.
fn stops_in(language: Language, printed: String, stops: f64) -> String {
    match (language, printed.split_once(' ')) {
        (Language::German, Some((number, _))) => {
            let noun = if stops != 0.0 && stops.abs() <= 1.0 {
                "Blende"
            } else {
                "Blenden"
            };
            format!("{} {noun}", with_decimals(number.to_owned(), language))
        }
        _ => printed,
    }
}

/// Stops to the tenth.
pub(crate) fn stops_to_tenths(stops: Stops) -> Words {
    let of = |language| stops_in(language, format!("{stops:.1}"), stops.value());
    Words::of(of(Language::English), of(Language::German))
}

/// A number with so many decimals.
pub(crate) fn fixed(number: f64, decimals: usize) -> Words {
    in_decimals(format!("{number:.decimals$}"))
}

/// What is written with a decimal point, with the decimal sign of each language.
pub(crate) fn in_decimals(text: String) -> Words {
    let german = with_decimals(text.clone(), Language::German);
    Words::of(text, german)
}

/// Proposes the known word that was probably meant.
pub(crate) fn did_you_mean(word: &str) -> Words {
    both!("Did you mean \"{word}\"?"; "Ist \"{word}\" gemeint?")
}

/// The same in front of another sentence; nothing where no word is near.
pub(crate) fn did_you_mean_first(word: Option<&str>) -> Words {
    word.map_or_else(Words::default, |word| {
        did_you_mean(word).each(|text| format!("{text} "))
    })
}

/// Proposes the line that was probably meant.
pub(crate) fn did_you_mean_line(line: &str) -> Words {
    both!("Did you mean:  {line}"; "Ist gemeint:  {line}")
}

/// Shows a line that would be right.
pub(crate) fn write_it_like(line: &str) -> Words {
    both!("Write it like:  {line}"; "So schreiben:  {line}")
}

/// A noun with its article, for the sentences that are the same for many things.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Noun {
    english: &'static str,
    article: &'static str,
    german: &'static str,
}

impl Noun {
    /// A noun whose German article is "ein"; the English has its own.
    pub const fn ein(english: &'static str, german: &'static str) -> Self {
        Noun {
            english,
            article: "ein",
            german,
        }
    }

    /// A noun whose German article is "eine"; the English has its own.
    pub const fn eine(english: &'static str, german: &'static str) -> Self {
        Noun {
            english,
            article: "eine",
            german,
        }
    }

    /// With its article: "a wall", "eine Wand".
    pub fn one(self) -> Words {
        Words::of(
            self.english.to_owned(),
            format!("{} {}", self.article, self.german),
        )
    }

    /// What something is not: behind "is not" and "cannot be" in English, behind "ist" and "kann" in German: "a wall",
    /// "keine Wand".
    pub fn none(self) -> Words {
        Words::of(
            self.english.to_owned(),
            format!("k{} {}", self.article, self.german),
        )
    }
}

impl From<Noun> for Words {
    fn from(noun: Noun) -> Self {
        noun.one()
    }
}
