//! What is wrong with a shoot file, said to the person who wrote it.

use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, SourceCode};
use std::fmt::{self, Write as _};
use std::ops::Range;
use std::sync::Arc;

/// Bytes of the file that a message is about.
pub type Span = Range<usize>;

/// Beyond this many problems a list helps nobody; the first ones are usually the cause of the rest.
const MOST_SHOWN: usize = 20;

/// One thing that is wrong: what, where, and what to do about it.
#[derive(Clone, Debug)]
pub struct Problem {
    message: String,
    labels: Vec<(Span, String)>,
    help: Option<String>,
    source: Option<Arc<NamedSource<String>>>,
}

impl Problem {
    /// A problem without a place in the file.
    pub fn new(message: impl Into<String>) -> Self {
        Problem { message: message.into(), labels: Vec::new(), help: None, source: None }
    }

    /// Points at a place in the file, with a few words under it.
    #[must_use]
    pub fn at(mut self, span: Span, label: impl Into<String>) -> Self {
        self.labels.push((span, label.into()));
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// What is wrong, without the place.
    pub fn message(&self) -> &str {
        &self.message
    }

    /// What to do about it.
    pub fn remedy(&self) -> Option<&str> {
        self.help.as_deref()
    }

    /// First byte of the first place that it points at.
    pub(crate) fn position(&self) -> usize {
        self.labels.first().map_or(0, |(span, _)| span.start)
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Problem {}

impl Diagnostic for Problem {
    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        if self.labels.is_empty() {
            return None;
        }
        let label = |(index, (span, text)): (usize, &(Span, String))| {
            let text = Some(text.clone()).filter(|text| !text.is_empty());
            // The snippet's heading takes its line and column from the primary label.
            if index == 0 {
                LabeledSpan::new_primary_with_span(text, span.clone())
            } else {
                LabeledSpan::new_with_span(text, span.clone())
            }
        };
        Some(Box::new(self.labels.iter().enumerate().map(label)))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.source.as_deref().map(|source| source as &dyn SourceCode)
    }
}

/// Everything that is wrong with one shoot file, in the order of the file.
#[derive(Clone, Debug)]
pub struct Problems {
    name: String,
    list: Vec<Problem>,
}

impl Problems {
    /// Problems of a file whose text could be read; `source` is what is shown of it.
    pub(crate) fn in_text(name: &str, source: String, mut list: Vec<Problem>) -> Self {
        let source = Arc::new(NamedSource::new(name, source));
        list.sort_by_key(Problem::position);
        for problem in &mut list {
            problem.source = Some(Arc::clone(&source));
        }
        Problems { name: name.to_owned(), list }
    }

    /// A file that could not be read at all.
    pub(crate) fn of_file(name: &str, problem: Problem) -> Self {
        Problems { name: name.to_owned(), list: vec![problem] }
    }

    /// The problems, first in the file first; never empty.
    pub fn list(&self) -> &[Problem] {
        &self.list
    }

    /// All of it as text for a terminal of this width, with colours or without.
    pub fn render(&self, width: usize, colours: bool) -> String {
        let theme = if colours { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
        let handler =
            GraphicalReportHandler::new_themed(theme).with_width(width).with_context_lines(1).with_links(false);
        let mut text = String::new();
        for problem in self.list.iter().take(MOST_SHOWN) {
            // Writing to a string cannot fail, and a message without its snippet still helps.
            if handler.render_report(&mut text, problem).is_err() {
                text.push_str(&problem.message);
            }
            text.push('\n');
        }
        let hidden = self.list.len().saturating_sub(MOST_SHOWN);
        if hidden > 0 {
            let _ = writeln!(text, "… and {hidden} more; they are shown once these are put right.");
        } else if self.list.len() > 1 {
            let _ = writeln!(text, "{} things to put right in {}.", self.list.len(), self.name);
        }
        text
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.list[..] {
            [only] => write!(f, "{}: {only}", self.name),
            list => write!(f, "{}: {} things to put right", self.name, list.len()),
        }
    }
}

impl std::error::Error for Problems {}

impl Diagnostic for Problems {
    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        Some(Box::new(self.list.iter().map(|problem| problem as &dyn Diagnostic)))
    }
}
