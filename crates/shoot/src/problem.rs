//! What is wrong with a shoot file, said to the person who wrote it.

use super::quoting::presentable;
use super::words::Words;
use crate::both;
use answer::Language;
use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, MietteSpanContents,
    SourceCode, SourceSpan, SpanContents,
};
use std::fmt::{self, Write as _};
use std::ops::Range;
use std::sync::Arc;

/// Bytes of the file that a message is about.
pub type Span = Range<usize>;

/// A list of more problems than this helps no one; the first ones are usually the cause of the rest.
const MOST_SHOWN: usize = 20;

/// What tells one problem from another: its sentence, and its places with what is said of them.
pub(crate) type Identity = (Words, Vec<(Span, Words)>);

/// One thing that is wrong: what, where, and what to do about it, in every language.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    message: Words,
    labels: Vec<(Span, Words)>,
    help: Option<Box<Words>>,
    source: Option<Arc<Shown>>,
}

impl Problem {
    /// A problem without a place in the file.
    pub fn new(message: Words) -> Self {
        Problem {
            message: message.each(presentable),
            labels: Vec::new(),
            help: None,
            source: None,
        }
    }

    /// Points at a place in the file, with a few words under it.
    #[must_use]
    pub fn at(mut self, span: Span, label: Words) -> Self {
        self.labels.push((span, label.each(presentable)));
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn help(mut self, help: Words) -> Self {
        self.help = Some(Box::new(help.each(presentable)));
        self
    }

    /// What is wrong, without the place.
    pub fn message(&self, language: Language) -> &str {
        self.message.in_language(language)
    }

    /// A few words on what is found at its first place, as they stand under it.
    pub fn why(&self, language: Language) -> Option<&str> {
        let (_, words) = self.labels.first()?;
        Some(words.in_language(language)).filter(|words| !words.is_empty())
    }

    /// The bytes of the file that it points at, each with a few words on what is found there.
    pub fn places(&self) -> impl Iterator<Item = (&Span, &Words)> {
        self.labels.iter().map(|(span, words)| (span, words))
    }

    /// Line and column of its first place, both from 1, the column in letters; `None` if it has no place.
    pub fn place(&self) -> Option<(usize, usize)> {
        let (span, _) = self.labels.first()?;
        let text = &self.source.as_ref()?.text;
        // The shown text has the bytes of the file; only a place inside a letter could not be cut.
        let before = text.get(..span.start.min(text.len()))?;
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Some((
            1 + before.matches('\n').count(),
            1 + before[line_start..].chars().count(),
        ))
    }

    /// What to do about it.
    pub fn remedy(&self, language: Language) -> Option<&str> {
        self.help.as_ref().map(|help| help.in_language(language))
    }

    /// What tells it from every other: what is wrong, and where.
    pub(crate) fn identity(&self) -> Identity {
        (self.message.clone(), self.labels.clone())
    }

    /// First byte of the first place that it points at.
    pub(crate) fn position(&self) -> usize {
        self.labels.first().map_or(0, |(span, _)| span.start)
    }
}

/// The text of the file, as it is shown in snippets.
#[derive(Debug, PartialEq)]
struct Shown {
    name: String,
    text: String,
}

/// The library's own source counts the lines of a snippet from the start of the file, and so joins two places
/// that are far apart into one long snippet; this one counts those of the snippet.
impl SourceCode for Shown {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        lines_before: usize,
        lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let (from, to) = (span.offset(), span.offset() + span.len());
        let (Some(before), Some(after)) = (self.text.get(..from), self.text.get(to..)) else {
            return Err(MietteError::OutOfBounds);
        };
        let first = before
            .rmatch_indices('\n')
            .nth(lines_before)
            .map_or(0, |(at, _)| at + 1);
        let end = after
            .match_indices('\n')
            .nth(lines_after)
            .map_or(self.text.len(), |(at, _)| to + at);
        let line = self.text[..first].matches('\n').count();
        // A snippet that starts above the span starts at the beginning of its line.
        let column = if lines_before == 0 {
            from - before.rfind('\n').map_or(0, |at| at + 1)
        } else {
            0
        };
        let start = if lines_before == 0 { from } else { first };
        let shown = &self.text[start..end];
        let contents = MietteSpanContents::new_named(
            self.name.clone(),
            shown.as_bytes(),
            (start, shown.len()).into(),
            line,
            column,
            shown.matches('\n').count() + 1,
        );
        Ok(Box::new(contents))
    }
}

/// One problem as it is told in a language.
#[derive(Debug)]
struct Told<'p> {
    problem: &'p Problem,
    language: Language,
}

impl fmt::Display for Told<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.problem.message(self.language))
    }
}

impl std::error::Error for Told<'_> {}

impl Diagnostic for Told<'_> {
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        match self.language {
            Language::English => Some(Box::new(self.problem.remedy(self.language)?)),
            // The library's own heading of it is English; see `footer`.
            Language::German => None,
        }
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        if self.problem.labels.is_empty() {
            return None;
        }
        let label = |(index, (span, words)): (usize, &(Span, Words))| {
            let text = Some(words.in_language(self.language).to_owned()).filter(|text| !text.is_empty());
            // The snippet's heading takes its line and column from the primary label.
            if index == 0 {
                LabeledSpan::new_primary_with_span(text, span.clone())
            } else {
                LabeledSpan::new_with_span(text, span.clone())
            }
        };
        Some(Box::new(self.problem.labels.iter().enumerate().map(label)))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.problem
            .source
            .as_deref()
            .map(|source| source as &dyn SourceCode)
    }
}

impl Told<'_> {
    /// The remedy, where the library would put it under a heading in another language.
    fn footer(&self) -> Option<String> {
        match self.language {
            Language::English => None,
            Language::German => Some(format!("Hilfe: {}", self.problem.remedy(self.language)?)),
        }
    }
}

/// Everything that is wrong with one shoot file, in the order of the file.
#[derive(Clone, Debug, PartialEq)]
pub struct Problems {
    name: String,
    list: Vec<Problem>,
    untold: usize,
}

impl Problems {
    /// Problems of a file whose text could be read; `source` is what is shown of it, `untold` counts
    /// further problems that are not in the list.
    pub(crate) fn in_text(name: &str, source: String, mut list: Vec<Problem>, untold: usize) -> Self {
        let source = Arc::new(Shown {
            name: presentable(name),
            text: source,
        });
        list.sort_by_key(Problem::position);
        for problem in &mut list {
            problem.source = Some(Arc::clone(&source));
        }
        Problems {
            name: presentable(name),
            list,
            untold,
        }
    }

    /// A file that could not be read at all.
    pub fn of_file(name: &str, problem: Problem) -> Self {
        Problems {
            name: presentable(name),
            list: vec![problem],
            untold: 0,
        }
    }

    /// The problems, first in the file first; never empty.
    pub fn list(&self) -> &[Problem] {
        &self.list
    }

    /// What is wrong with the file as a whole, in one line.
    pub fn headline(&self) -> Words {
        let name = &self.name;
        match &self.list[..] {
            [only] => both!("{name}: {}", only.message; "{name}: {}"),
            list => {
                let count = list.len() + self.untold;
                both!("{name}: {count} things to put right"; "{name}: {count} Dinge zu berichtigen")
            }
        }
    }

    /// All of it as text for a terminal of this width, with colours or without.
    pub fn render(&self, language: Language, width: usize, colours: bool) -> String {
        let theme = if colours {
            GraphicalTheme::unicode()
        } else {
            GraphicalTheme::unicode_nocolor()
        };
        let handler = GraphicalReportHandler::new_themed(theme)
            .with_width(width)
            .with_context_lines(1)
            .with_links(false);
        let mut text = String::new();
        for problem in self.list.iter().take(MOST_SHOWN) {
            // Writing to a string cannot fail, and a message without its snippet still helps.
            let told = Told { problem, language };
            let handler = match told.footer() {
                Some(footer) => handler.clone().with_footer(footer),
                None => handler.clone(),
            };
            if handler.render_report(&mut text, &told).is_err() {
                text.push_str(problem.message(language));
            }
            text.push('\n');
        }
        if let Some(rest) = self.rest() {
            let _ = writeln!(text, "{}", rest.in_language(language));
        }
        text
    }

    /// What is said below the problems that are shown.
    fn rest(&self) -> Option<Words> {
        let hidden = self.list.len().saturating_sub(MOST_SHOWN) + self.untold;
        let (count, name) = (self.list.len(), &self.name);
        if hidden > 0 {
            return Some(both!(
                "… and {hidden} more; they are shown once these are put right.";
                "… und {hidden} weitere; sie werden gezeigt, sobald diese berichtigt sind."
            ));
        }
        (count > 1).then(
            || both!("{count} things to put right in {name}."; "{count} Dinge zu berichtigen in {name}."),
        )
    }
}

/// In English, for programs and logs; [`Problems::render`] and [`Problems::headline`] speak to people.
impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.headline().in_language(Language::English))
    }
}

impl std::error::Error for Problems {}
