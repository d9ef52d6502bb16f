//! From the bytes of a file to a TOML table, or to a sentence that says why not.

use super::problem::{Problem, Problems, Span};
use super::quoting::{is_invisible_command, presentable, shorten};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A shoot file has a few kilobytes; more than this is another kind of file (ours).
pub const MOST_BYTES: u64 = 1 << 20;

/// No line of a shoot file is longer than this (ours); longer ones could not be shown in a message.
pub(crate) const LONGEST_LINE: usize = 1000;

/// A text with more lines than this that cannot be read is no shoot file, and need not be shown whole.
const MOST_SYNTAX_PROBLEMS: usize = 5;

/// The bytes of a file as text; says what they are when they are no text. `shown` is where they came from.
///
/// # Errors
/// Bytes of a picture or of another kind of file, or letters in another encoding.
pub fn decode(bytes: Vec<u8>, shown: &str) -> Result<String, Problem> {
    let picture = [
        b"\xFF\xD8\xFF".as_slice(),
        b"\x89PNG",
        b"II*\0",
        b"MM\0*",
        b"%PDF",
        b"GIF8",
        b"PK\x03\x04",
    ];
    if picture.iter().any(|start| bytes.starts_with(start)) {
        return Err(
            Problem::new(format!("{shown} is a picture or a document, not a shoot file"))
                .help("A shoot file is a short text whose name ends in .toml."),
        );
    }
    if bytes.starts_with(b"\xFF\xFE") || bytes.starts_with(b"\xFE\xFF") {
        return Err(
            Problem::new(format!("{shown} is saved as UTF-16, which is not read here"))
                .help("In the text editor choose \"Save as\" and the encoding UTF-8."),
        );
    }
    if bytes.contains(&0) {
        return Err(Problem::new(format!("{shown} is not a text file"))
            .help("A shoot file is a short text whose name ends in .toml."));
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = 1 + error.as_bytes()[..good]
            .iter()
            .filter(|byte| **byte == b'\n')
            .count();
        Problem::new(format!(
            "line {line} of {shown} has a letter that is not saved as UTF-8"
        ))
        .help("In the text editor choose \"Save as\" and the encoding UTF-8.")
    })
}

/// Checks that this is a text that could be a shoot file, and parses it.
pub(crate) fn parse<'a>(name: &str, text: &'a str) -> Result<Spanned<DeTable<'a>>, Problems> {
    if let Some(problem) = not_worth_parsing(text) {
        return Err(match problem {
            (problem, true) => Problems::in_text(name, presentable(text), vec![problem], 0),
            (problem, false) => Problems::of_file(name, problem),
        });
    }
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        let mut problems = Vec::new();
        refuse_escaped_commands(table.get_ref(), &mut problems);
        if problems.is_empty() {
            return Ok(table);
        }
        return Err(Problems::in_text(name, presentable(text), problems, 0));
    }
    let mut problems: Vec<Problem> = Vec::new();
    let mut untold = 0;
    for error in &errors {
        let problem = explain(text, error);
        // One slip often makes several errors on its line; the first is the one to read.
        let line = line_of(text, problem.position());
        if problems
            .iter()
            .all(|known| line_of(text, known.position()) != line)
        {
            if problems.len() < MOST_SYNTAX_PROBLEMS {
                problems.push(problem);
            } else {
                untold += 1;
            }
        }
        // After a bracket that is never closed everything looks wrong, and nothing can be said about it.
        if brackets_matter(error) {
            break;
        }
    }
    Err(Problems::in_text(name, presentable(text), problems, untold))
}

/// A reason not to parse at all, and whether its snippet can be shown.
fn not_worth_parsing(text: &str) -> Option<(Problem, bool)> {
    if text.len() as u64 > MOST_BYTES {
        let problem = Problem::new("this text is larger than 1 MB, so it is not a shoot file")
            .help("A shoot file is a short text of a few kilobytes.");
        return Some((problem, false));
    }
    if text.trim().is_empty() {
        let problem = Problem::new("this file is empty").help(
            "A shoot file says at least [place], [camera], [[sitter]] and [ask]; start from one of the examples.",
        );
        return Some((problem, false));
    }
    let mut start = 0;
    for (index, line) in text.split('\n').enumerate() {
        if line.chars().count() > LONGEST_LINE {
            let problem = Problem::new(format!(
                "line {} is longer than {LONGEST_LINE} letters",
                index + 1
            ))
            .help("No shoot file needs that. Is it the right file, and are its line breaks still there?");
            return Some((problem, false));
        }
        if let Some((offset, c)) = line.char_indices().find(|(_, c)| is_invisible_command(*c)) {
            let span = start + offset..start + offset + c.len_utf8();
            let problem = Problem::new("there is an invisible control character in this line")
                .at(span, "here, shown as a question mark")
                .help("Delete it and type the line again; it often comes from copying out of a web page or a mail.");
            return Some((problem, true));
        }
        start += line.len() + 1;
    }
    None
}

/// Finds invisible commands that are written with a backslash: in the file they are harmless, but every name is
/// printed again.
fn refuse_escaped_commands(table: &DeTable<'_>, problems: &mut Vec<Problem>) {
    for (key, value) in table {
        check_text(key.get_ref(), key.span(), problems);
        refuse_in_value(value, problems);
    }
}

fn refuse_in_value(value: &Spanned<DeValue<'_>>, problems: &mut Vec<Problem>) {
    match value.get_ref() {
        DeValue::String(text) => check_text(text, value.span(), problems),
        DeValue::Array(list) => list.iter().for_each(|item| refuse_in_value(item, problems)),
        DeValue::Table(table) => refuse_escaped_commands(table, problems),
        _ => {}
    }
}

/// Whether no text of a shoot file may have this letter: an invisible command, or a line break, which would tear the
/// messages and drawings that repeat it.
pub(crate) fn is_refused(c: char) -> bool {
    is_invisible_command(c) || matches!(c, '\n' | '\r')
}

fn check_text(text: &str, span: Span, problems: &mut Vec<Problem>) {
    if text.chars().any(is_refused) {
        problems.push(
            Problem::new("there is an invisible control character in this text")
                .at(span, "in here")
                .help(
                    "Take out what begins with a backslash \\, or the line break, and write plain letters.",
                ),
        );
    }
}

/// Bounds of the line that holds a byte, without its line break.
fn line_of(text: &str, position: usize) -> Span {
    let position = floor_char(text, position);
    let start = text[..position].rfind('\n').map_or(0, |at| at + 1);
    let end = text[position..].find('\n').map_or(text.len(), |at| position + at);
    start..end
}

/// The nearest place at or before this byte where a letter begins.
fn floor_char(text: &str, position: usize) -> usize {
    let mut position = position.min(text.len());
    while !text.is_char_boundary(position) {
        position -= 1;
    }
    position
}

/// A parser's complaint in a photographer's words.
fn explain(text: &str, error: &toml::de::Error) -> Problem {
    let span = error.span().unwrap_or(0..0);
    let line_span = line_of(text, span.start);
    let line = text[line_span.clone()].trim();
    let span = if span.start >= line_span.end {
        // What is missing at the end of a line is shown under its last letter.
        let end = line_span.start + text[line_span.clone()].trim_end().len();
        floor_char(text, end.saturating_sub(1)).max(line_span.start)..end
    } else {
        span
    };
    let at = |problem: Problem, label: &str| problem.at(span.clone(), label);
    let message = error.message();
    if message.contains("recurs") {
        return at(
            Problem::new("this is nested too deeply"),
            "deeper than any shoot file",
        )
        .help("Brackets in brackets go two levels deep at most, as in rgb = [0.45, 0.16, 0.12].");
    }
    if message.contains("duplicate key") {
        return explain_repeated(text, span, line);
    }
    let line = without_remark(line);
    if let Some(quote) = line.chars().find(|c| "“”„«»‘’‚".contains(*c)) {
        let place = text[line_span.clone()]
            .find(quote)
            .map_or(line_span.start, |offset| line_span.start + offset);
        return Problem::new("these quotes are the curly ones of a word processor")
            .at(place..place + quote.len_utf8(), "curly")
            .help("Use the straight one on both sides: \" (a plain text editor types it by itself).");
    }
    if brackets_matter(error) {
        return explain_brackets(text, span, line);
    }
    if line.starts_with('[') && !line.contains('=') {
        let name: String = line.chars().filter(|c| !"[]".contains(*c)).collect();
        return at(Problem::new("this heading is not complete"), "here").help(format!(
            "A heading stands in brackets: [{0}], or [[{0}]] where there can be several.",
            name.trim()
        ));
    }
    match line.split_once('=') {
        None => at(
            Problem::new("this line is neither a heading nor \"key = value\""),
            "here",
        )
        .help("Write  key = \"value\", or begin a remark with #."),
        Some((key, value)) => explain_value(key.trim(), value.trim(), message, at),
    }
}

/// A line without the remark at its end; a # between quotes is no remark.
fn without_remark(line: &str) -> &str {
    let mut quoted = false;
    for (at, c) in line.char_indices() {
        match c {
            '"' => quoted = !quoted,
            '#' if !quoted => return line[..at].trim_end(),
            _ => {}
        }
    }
    line
}

/// Whether the parser was inside a list or a table in one line when it gave up.
fn brackets_matter(error: &toml::de::Error) -> bool {
    ["array", "inline table", "key-value pairs"]
        .iter()
        .any(|word| error.message().contains(word))
}

/// A comma or a closing bracket that is missing.
fn explain_brackets(text: &str, span: Span, line: &str) -> Problem {
    // The nearest line above that opens more than it closes.
    let open = text[..line_of(text, span.start).end]
        .lines()
        .rev()
        .take(200)
        .find_map(|above| {
            let (_, value) = without_remark(above).split_once('=')?;
            let bracket = value.find(['[', '{'])?;
            let count = |letters: [char; 2]| value.matches(letters).count();
            let start = above.as_ptr() as usize - text.as_ptr() as usize + above.len()
                - above.split_once('=')?.1.len();
            (count(['[', '{']) > count([']', '}'])).then_some(start + bracket)
        });
    let item = line.starts_with(['"', '\'', '[', '{']) && !line.contains('=')
        || line.starts_with(|c: char| c.is_ascii_digit());
    match open {
        Some(bracket) if !item => {
            let close = if text[bracket..].starts_with('[') {
                ']'
            } else {
                '}'
            };
            Problem::new("this bracket is never closed")
                .at(bracket..bracket + 1, "opened here")
                .help(format!(
                    "Put a {close} after the last item, with commas between the items."
                ))
        }
        _ => Problem::new("a comma or a closing bracket is missing")
            .at(span, "before this")
            .help(
                "The items of a list stand in brackets with commas between them:  rgb = [0.45, 0.16, 0.12]",
            ),
    }
}

/// What can be wrong to the right of the equals sign.
fn explain_value(key: &str, value: &str, message: &str, at: impl Fn(Problem, &str) -> Problem) -> Problem {
    let (key, bare) = (shorten(key), value.trim_matches('"'));
    let quotes = value.chars().filter(|c| *c == '"').count();
    if value.is_empty() {
        return at(Problem::new(format!("\"{key}\" says nothing")), "no value").help(format!(
            "Write its value after the equals sign, like  {key} = \"…\""
        ));
    }
    if quotes % 2 == 1 {
        return at(Problem::new("a quotation mark is missing"), "here").help(format!(
            "Put one before and one after:  {key} = \"{}\"",
            shorten(bare)
        ));
    }
    if quotes == 0 && !value.starts_with(['[', '{', '\'']) {
        return at(
            Problem::new(format!("the value of \"{key}\" is not in quotes")),
            "here",
        )
        .help(format!(
            "Everything but plain numbers, true and false stands in quotes:  {key} = \"{}\"",
            shorten(bare)
        ));
    }
    at(Problem::new(format!("this line cannot be read: {message}")), "here")
        .help("Compare it with the examples: each opening bracket and quotation mark needs its closing one, with commas between.")
}

/// A key or heading that comes twice.
fn explain_repeated(text: &str, span: Span, line: &str) -> Problem {
    let start = floor_char(text, span.start);
    let word = shorten(&text[start..floor_char(text, span.end.max(start))]);
    if line.starts_with('[') {
        let name = line.trim_matches(|c: char| "[] \t".contains(c));
        return Problem::new(format!("the part {} is there twice", shorten(line)))
            .at(span, "the second one")
            .help(format!("Put its lines under the first heading; if there are several of them, write [[{name}]] each time."));
    }
    Problem::new(format!("\"{word}\" is said twice"))
        .at(span, "the second time")
        .help("Keep one of the two lines.")
}
