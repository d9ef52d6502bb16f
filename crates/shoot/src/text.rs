//! From the bytes of a file to a TOML table, or to a sentence that says why not.

use super::problem::{Problem, Problems, Span};
use super::quoting::{is_invisible_command, presentable, shorten};
use super::words::Words;
use crate::both;
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
        return Err(Problem::new(both!(
            "{shown} is a picture or a document, not a shoot file";
            "{shown} ist ein Bild oder ein Dokument, keine Auftragsdatei"
        ))
        .help(both!(
            "A shoot file is a short text whose name ends in .toml.";
            "Eine Auftragsdatei ist ein kurzer Text, dessen Name auf .toml endet."
        )));
    }
    if bytes.starts_with(b"\xFF\xFE") || bytes.starts_with(b"\xFE\xFF") {
        return Err(Problem::new(both!(
            "{shown} is saved as UTF-16, which is not read here";
            "{shown} ist als UTF-16 gespeichert, was hier nicht gelesen wird"
        ))
        .help(both!(
            "In the text editor choose \"Save as\" and the encoding UTF-8.";
            "Im Texteditor \"Speichern unter\" und die Kodierung UTF-8 wählen."
        )));
    }
    if bytes.contains(&0) {
        return Err(
            Problem::new(both!("{shown} is not a text file"; "{shown} ist keine Textdatei")).help(both!(
                "A shoot file is a short text whose name ends in .toml.";
                "Eine Auftragsdatei ist ein kurzer Text, dessen Name auf .toml endet."
            )),
        );
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = 1 + error.as_bytes()[..good]
            .iter()
            .filter(|byte| **byte == b'\n')
            .count();
        Problem::new(both!(
            "line {line} of {shown} has a letter that is not saved as UTF-8";
            "Zeile {line} von {shown} hat einen Buchstaben, der nicht als UTF-8 gespeichert ist"
        ))
        .help(both!(
            "In the text editor choose \"Save as\" and the encoding UTF-8.";
            "Im Texteditor \"Speichern unter\" und die Kodierung UTF-8 wählen."
        ))
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
        let problem = Problem::new(both!(
            "this text is larger than 1 MB, so it is not a shoot file";
            "dieser Text ist größer als 1 MB, also keine Auftragsdatei"
        ))
        .help(both!(
            "A shoot file is a short text of a few kilobytes.";
            "Eine Auftragsdatei ist ein kurzer Text von ein paar Kilobyte."
        ));
        return Some((problem, false));
    }
    if text.trim().is_empty() {
        let problem = Problem::new(both!("this file is empty"; "diese Datei ist leer")).help(
            both!(
                "A shoot file says at least [place], [camera], [[sitter]] and [ask]; start from one of the examples.";
                "Eine Auftragsdatei nennt mindestens [place], [camera], [[sitter]] und [ask]; mit einem der Beispiele beginnen."
            ),
        );
        return Some((problem, false));
    }
    let mut start = 0;
    for (index, line) in text.split('\n').enumerate() {
        if line.chars().count() > LONGEST_LINE {
            let problem = Problem::new(both!(
                "line {} is longer than {LONGEST_LINE} letters", index + 1;
                "Zeile {} ist länger als {LONGEST_LINE} Buchstaben"
            ))
            .help(both!(
                "No shoot file needs that. Is it the right file, and are its line breaks still there?";
                "Das braucht keine Auftragsdatei. Ist es die richtige Datei, und sind ihre Zeilenumbrüche noch da?"
            ));
            return Some((problem, false));
        }
        if let Some((offset, c)) = line.char_indices().find(|(_, c)| is_invisible_command(*c)) {
            let span = start + offset..start + offset + c.len_utf8();
            let problem = Problem::new(both!(
                "there is an invisible control character in this line";
                "in dieser Zeile steht ein unsichtbares Steuerzeichen"
            ))
                .at(span, both!("here, shown as a question mark"; "hier, als Fragezeichen gezeigt"))
                .help(both!(
                    "Delete it and type the line again; it often comes from copying out of a web page or a mail.";
                    "Es löschen und die Zeile neu tippen; oft kommt es vom Kopieren aus einer Webseite oder einer Mail."
                ));
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
            Problem::new(both!(
                "there is an invisible control character in this text";
                "in diesem Text steht ein unsichtbares Steuerzeichen"
            ))
                .at(span, both!("in here"; "hier drin"))
                .help(
                    both!(
                        "Take out what begins with a backslash \\, or the line break, and write plain letters.";
                        "Entfernen, was mit einem umgekehrten Schrägstrich \\ beginnt, oder den Zeilenumbruch, und einfache Buchstaben schreiben."
                    ),
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
    let at = |problem: Problem, label: Words| problem.at(span.clone(), label);
    let message = error.message();
    if message.contains("recurs") {
        return at(
            Problem::new(both!("this is nested too deeply"; "das ist zu tief verschachtelt")),
            both!("deeper than any shoot file"; "tiefer als jede Auftragsdatei"),
        )
        .help(both!(
            "Brackets in brackets go two levels deep at most, as in rgb = [0.45, 0.16, 0.12].";
            "Klammern in Klammern gehen höchstens zwei Stufen tief, wie in rgb = [0.45, 0.16, 0.12]."
        ));
    }
    if message.contains("duplicate key") {
        return explain_repeated(text, span, line);
    }
    let line = without_remark(line);
    if let Some(quote) = line.chars().find(|c| "“”„«»‘’‚".contains(*c)) {
        let place = text[line_span.clone()]
            .find(quote)
            .map_or(line_span.start, |offset| line_span.start + offset);
        return Problem::new(both!(
            "these quotes are the curly ones of a word processor";
            "das sind die typografischen Anführungszeichen einer Textverarbeitung"
        ))
        .at(place..place + quote.len_utf8(), both!("curly"; "typografisch"))
        .help(both!(
            "Use the straight one on both sides: \" (a plain text editor types it by itself).";
            "Auf beiden Seiten das gerade verwenden: \" (ein einfacher Texteditor tippt es von selbst)."
        ));
    }
    if brackets_matter(error) {
        return explain_brackets(text, span, line);
    }
    if line.starts_with('[') && !line.contains('=') {
        let name: String = line.chars().filter(|c| !"[]".contains(*c)).collect();
        return at(
            Problem::new(both!("this heading is not complete"; "diese Überschrift ist nicht vollständig")),
            both!("here"; "hier"),
        )
        .help(both!(
            "A heading stands in brackets: [{0}], or [[{0}]] where there can be several.", name.trim();
            "Eine Überschrift steht in Klammern: [{0}], oder [[{0}]], wo es mehrere geben kann."
        ));
    }
    match line.split_once('=') {
        None => at(
            Problem::new(both!(
                "this line is neither a heading nor \"key = value\"";
                "diese Zeile ist weder eine Überschrift noch \"key = value\""
            )),
            both!("here"; "hier"),
        )
        .help(both!(
            "Write  key = \"value\", or begin a remark with #.";
            "key = \"value\" schreiben, oder eine Bemerkung mit # beginnen."
        )),
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
            Problem::new(both!("this bracket is never closed"; "diese Klammer wird nie geschlossen"))
                .at(bracket..bracket + 1, both!("opened here"; "hier geöffnet"))
                .help(both!(
                    "Put a {close} after the last item, with commas between the items.";
                    "Ein {close} hinter das letzte Glied setzen, mit Kommas zwischen den Gliedern."
                ))
        }
        _ => Problem::new(
            both!("a comma or a closing bracket is missing"; "ein Komma oder eine schließende Klammer fehlt"),
        )
        .at(span, both!("before this"; "davor"))
        .help(both!(
            "The items of a list stand in brackets with commas between them:  rgb = [0.45, 0.16, 0.12]";
            "Die Glieder einer Liste stehen in Klammern mit Kommas dazwischen:  rgb = [0.45, 0.16, 0.12]"
        )),
    }
}

/// What can be wrong to the right of the equals sign.
fn explain_value(key: &str, value: &str, message: &str, at: impl Fn(Problem, Words) -> Problem) -> Problem {
    let (key, bare) = (shorten(key), value.trim_matches('"'));
    let quotes = value.chars().filter(|c| *c == '"').count();
    if value.is_empty() {
        return at(
            Problem::new(both!("\"{key}\" says nothing"; "\"{key}\" sagt nichts")),
            both!("no value"; "kein Wert"),
        )
        .help(both!(
            "Write its value after the equals sign, like  {key} = \"…\"";
            "Den Wert hinter das Gleichheitszeichen schreiben, etwa  {key} = \"…\""
        ));
    }
    if quotes % 2 == 1 {
        return at(
            Problem::new(both!("a quotation mark is missing"; "ein Anführungszeichen fehlt")),
            both!("here"; "hier"),
        )
        .help(both!(
            "Put one before and one after:  {key} = \"{}\"", shorten(bare);
            "Eins davor und eins dahinter setzen:  {key} = \"{}\""
        ));
    }
    if quotes == 0 && !value.starts_with(['[', '{', '\'']) {
        return at(
            Problem::new(both!(
                "the value of \"{key}\" is not in quotes";
                "der Wert von \"{key}\" steht nicht in Anführungszeichen"
            )),
            both!("here"; "hier"),
        )
        .help(both!(
            "Everything but plain numbers, true and false stands in quotes:  {key} = \"{}\"", shorten(bare);
            "Alles außer einfachen Zahlen, true und false steht in Anführungszeichen:  {key} = \"{}\""
        ));
    }
    at(Problem::new(both!(
        "this line cannot be read: {message}";
        "diese Zeile ist nicht zu lesen; das Leseprogramm meldet: {message}"
    )), both!("here"; "hier"))
        .help(both!(
            "Compare it with the examples: each opening bracket and quotation mark needs its closing one, with commas between.";
            "Mit den Beispielen vergleichen: Jede öffnende Klammer und jedes Anführungszeichen braucht ein schließendes, mit Kommas dazwischen."
        ))
}

/// A key or heading that comes twice.
fn explain_repeated(text: &str, span: Span, line: &str) -> Problem {
    let start = floor_char(text, span.start);
    let word = shorten(&text[start..floor_char(text, span.end.max(start))]);
    if line.starts_with('[') {
        let name = line.trim_matches(|c: char| "[] \t".contains(c));
        return Problem::new(both!("the part {} is there twice", shorten(line); "den Teil {} gibt es zweimal"))
            .at(span, both!("the second one"; "der zweite"))
            .help(both!(
                "Put its lines under the first heading; if there are several of them, write [[{name}]] each time.";
                "Seine Zeilen unter die erste Überschrift setzen; gibt es mehrere davon, jedes Mal [[{name}]] schreiben."
            ));
    }
    Problem::new(both!("\"{word}\" is said twice"; "\"{word}\" ist zweimal gesagt"))
        .at(span, both!("the second time"; "das zweite Mal"))
        .help(both!("Keep one of the two lines."; "Eine der beiden Zeilen behalten."))
}
