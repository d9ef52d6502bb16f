//! What is shown of somebody's text in a message: short, in quotes, and without invisible commands.

/// Letters that are not seen but change what is seen: they could command a terminal, or turn the reading
/// direction so that a line looks like another (Unicode Standard Annex 9, table of directional characters).
pub(crate) fn is_invisible_command(c: char) -> bool {
    c.is_control() && !matches!(c, '\t' | '\r' | '\n')
        || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// What is shown of a text in messages: as many bytes, so that places stay right, but no invisible commands.
pub(crate) fn presentable(text: &str) -> String {
    let shown = |c: char| match c.len_utf8() {
        _ if !is_invisible_command(c) => c,
        1 => '?',
        2 => '¿',
        _ => '\u{fffd}',
    };
    text.chars().map(shown).collect()
}

/// A text in quotes, cut when it is long.
pub(crate) fn shown(text: &str) -> String {
    format!("\"{}\"", shorten(text))
}

/// Long texts are cut, so that a message stays a message.
pub(crate) fn shorten(text: &str) -> String {
    cut(text, 60)
}

/// A text of so many letters at most.
pub(crate) fn cut(text: &str, most: usize) -> String {
    let text = text.trim();
    if text.chars().count() <= most {
        return text.to_owned();
    }
    format!("{}…", text.chars().take(most - 3).collect::<String>())
}
