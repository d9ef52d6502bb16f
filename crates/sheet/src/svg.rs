//! An SVG writer that cannot write anything but well-formed XML.

use crate::fitting::clean;
use glam::Vec2;
use std::fmt::Write;

/// Colours of the sheet: a neutral ground, so that nothing on it shifts how a picture beside it is judged.
pub(crate) mod ink {
    /// The sheet.
    pub(crate) const SHEET: &str = "#2e2e2e";
    /// The floor in the plan, the air in the section.
    pub(crate) const FLOOR: &str = "#393939";
    /// Things that stand there.
    pub(crate) const BODY: &str = "#484848";
    /// First ink.
    pub(crate) const INK: &str = "#f4f2ee";
    /// Second ink.
    pub(crate) const SOFT: &str = "#d6d2cb";
    /// Thin lines that are not read.
    pub(crate) const LINE: &str = "#8d8d8d";
    /// Light of the flash.
    pub(crate) const GLOW: &str = "#ffd79a";
}

/// Fonts that are asked for; any sans-serif will do.
pub(crate) const FONTS: &str = "Inter, 'DejaVu Sans', 'Liberation Sans', sans-serif";

/// The inks of a drawing that is laid on another ground than the grey sheet, and a mark for its names, so that
/// several drawings can stand in one document.
#[derive(Clone, Debug)]
pub(crate) struct Ground {
    /// The ground itself.
    pub(crate) sheet: &'static str,
    /// Things that stand there.
    pub(crate) body: &'static str,
    /// Lines and words.
    pub(crate) ink: &'static str,
    /// Thin lines that are not read.
    pub(crate) line: &'static str,
    /// Light of the flash.
    pub(crate) glow: &'static str,
    /// Goes before every id.
    pub(crate) mark: String,
}

impl Ground {
    /// What stands for an attribute's value on this ground.
    fn value(&self, key: &str, value: &str) -> Option<String> {
        let plain = match value {
            ink::SHEET | ink::FLOOR => self.sheet,
            ink::BODY => self.body,
            ink::INK | ink::SOFT => self.ink,
            ink::LINE => self.line,
            ink::GLOW => self.glow,
            _ if key == "id" => return Some(format!("{}{value}", self.mark)),
            _ if key == "aria-labelledby" => {
                let marked: Vec<String> = value.split(' ').map(|id| format!("{}{id}", self.mark)).collect();
                return Some(marked.join(" "));
            }
            _ => {
                let id = value.strip_prefix("url(#")?;
                return Some(format!("url(#{}{id}", self.mark));
            }
        };
        Some(plain.to_owned())
    }
}

/// An SVG under construction.
pub(crate) struct Svg {
    out: String,
    open: Vec<&'static str>,
    ground: Option<Ground>,
}

impl Svg {
    /// A sheet of this size in pixels with a title and a description for those who do not see it.
    pub(crate) fn new(size: Vec2, title: &str, description: &str) -> Self {
        Self::part().sheet(size, title, description)
    }

    /// The same on another ground.
    pub(crate) fn on(ground: Ground, size: Vec2, title: &str, description: &str) -> Self {
        Self::part_on(ground).sheet(size, title, description)
    }

    fn sheet(self, size: Vec2, title: &str, description: &str) -> Self {
        let mut svg = self;
        let (w, h) = (num(size.x), num(size.y));
        svg.start(
            "svg",
            &[
                ("xmlns", "http://www.w3.org/2000/svg"),
                ("viewBox", &format!("0 0 {w} {h}")),
                ("width", &w),
                ("height", &h),
                ("role", "img"),
                ("aria-labelledby", "title desc"),
                ("font-family", FONTS),
                ("font-size", "13"),
            ],
        );
        svg.worded("title", &[("id", "title")], title);
        svg.worded("desc", &[("id", "desc")], description);
        svg
    }

    /// A part that is appended to a sheet later.
    pub(crate) fn part() -> Self {
        Self {
            out: String::new(),
            open: Vec::new(),
            ground: None,
        }
    }

    /// A part on another ground.
    pub(crate) fn part_on(ground: Ground) -> Self {
        Self {
            ground: Some(ground),
            ..Self::part()
        }
    }

    /// Takes a finished part over.
    pub(crate) fn append(&mut self, part: Self) {
        self.out.push_str(&part.finish());
    }

    /// Opens an element.
    pub(crate) fn start(&mut self, name: &'static str, attributes: &[(&str, &str)]) {
        self.tag(name, attributes);
        self.out.push_str(">\n");
        self.open.push(name);
    }

    /// Closes the element opened last.
    pub(crate) fn end(&mut self) {
        if let Some(name) = self.open.pop() {
            let _ = writeln!(self.out, "</{name}>");
        }
    }

    /// An element without content.
    pub(crate) fn empty(&mut self, name: &'static str, attributes: &[(&str, &str)]) {
        self.tag(name, attributes);
        self.out.push_str("/>\n");
    }

    /// An element with words in it.
    pub(crate) fn worded(&mut self, name: &'static str, attributes: &[(&str, &str)], words: &str) {
        self.tag(name, attributes);
        let _ = writeln!(self.out, ">{}</{name}>", escape(words));
    }

    fn tag(&mut self, name: &str, attributes: &[(&str, &str)]) {
        let _ = write!(self.out, "<{name}");
        for (key, value) in attributes {
            let other = self.ground.as_ref().and_then(|ground| ground.value(key, value));
            let value = other.as_deref().unwrap_or(value);
            let _ = write!(self.out, " {key}=\"{}\"", escape(value));
        }
    }

    /// A straight line.
    pub(crate) fn line(&mut self, from: Vec2, to: Vec2, style: &[(&str, &str)]) {
        let ends = [num(from.x), num(from.y), num(to.x), num(to.y)];
        let mut attributes = vec![
            ("x1", &*ends[0]),
            ("y1", &*ends[1]),
            ("x2", &*ends[2]),
            ("y2", &*ends[3]),
        ];
        attributes.extend_from_slice(style);
        self.empty("line", &attributes);
    }

    /// An upright rectangle.
    pub(crate) fn rectangle(&mut self, corner: Vec2, size: Vec2, style: &[(&str, &str)]) {
        let at = [
            num(corner.x),
            num(corner.y),
            num(size.x.max(0.0)),
            num(size.y.max(0.0)),
        ];
        let mut attributes = vec![
            ("x", &*at[0]),
            ("y", &*at[1]),
            ("width", &*at[2]),
            ("height", &*at[3]),
        ];
        attributes.extend_from_slice(style);
        self.empty("rect", &attributes);
    }

    /// A circle.
    pub(crate) fn circle(&mut self, centre: Vec2, radius: f32, style: &[(&str, &str)]) {
        let at = [num(centre.x), num(centre.y), num(radius.max(0.0))];
        let mut attributes = vec![("cx", &*at[0]), ("cy", &*at[1]), ("r", &*at[2])];
        attributes.extend_from_slice(style);
        self.empty("circle", &attributes);
    }

    /// A line through points, closed or not.
    pub(crate) fn path(&mut self, points: &[Vec2], closed: bool, style: &[(&str, &str)]) {
        if points.len() < 2 {
            return;
        }
        let mut d = String::new();
        for (index, point) in points.iter().enumerate() {
            let _ = write!(
                d,
                "{}{} {}",
                if index == 0 { "M" } else { "L" },
                num(point.x),
                num(point.y)
            );
        }
        if closed {
            d.push('Z');
        }
        self.drawn(&d, style);
    }

    /// A path in SVG's own notation.
    pub(crate) fn drawn(&mut self, d: &str, style: &[(&str, &str)]) {
        let mut attributes = vec![("d", d)];
        attributes.extend_from_slice(style);
        self.empty("path", &attributes);
    }

    /// Words at a point.
    pub(crate) fn text(&mut self, at: Vec2, words: &str, style: &[(&str, &str)]) {
        let (x, y) = (num(at.x), num(at.y));
        let mut attributes = vec![("x", &*x), ("y", &*y)];
        attributes.extend_from_slice(style);
        self.worded("text", &attributes, words);
    }

    /// Closes what is open and hands the document over.
    pub(crate) fn finish(mut self) -> String {
        while !self.open.is_empty() {
            self.end();
        }
        self.out
    }
}

/// A coordinate to a tenth of a pixel. What is not a number would break the whole drawing, so it becomes 0.
pub(crate) fn num(value: f32) -> String {
    let value = if value.is_finite() {
        value.clamp(-1e5, 1e5)
    } else {
        0.0
    };
    let tenths = (value * 10.0).round() / 10.0;
    format!("{}", if tenths == 0.0 { 0.0 } else { tenths })
}

/// Text that XML takes as text, whatever the photographer named things.
pub(crate) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in clean(text).chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}

/// Width of words in pixels, rather too wide than too narrow: the font of whoever looks is unknown.
pub(crate) fn text_width(words: &str, size: f32) -> f32 {
    let em = |c: char| match c {
        'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '!' | '|' | ' ' => 0.34,
        'f' | 't' | 'r' | '(' | ')' | '/' | '-' | '·' => 0.44,
        'm' | 'w' | 'M' | 'W' | '—' => 0.96,
        '0'..='9' | 'a'..='z' => 0.63,
        c if c.is_ascii() => 0.72,
        '\u{300}'..='\u{36f}' | '\u{200b}'..='\u{200d}' | '\u{fe00}'..='\u{fe0f}' => 0.0,
        c if (c as u32) < 0x2000 => 0.7,
        '−' | '–' | '°' | '’' | '…' | '×' => 0.8,
        _ => 1.25,
    };
    words.chars().map(em).sum::<f32>() * size
}

/// As many of the words as fit into a width, with an ellipsis where something was left off.
pub(crate) fn fit(words: &str, size: f32, width: f32) -> String {
    let words = clean(words);
    let words = words.trim();
    if text_width(words, size) <= width {
        return words.to_owned();
    }
    let mut out = String::new();
    for c in words.chars() {
        out.push(c);
        if text_width(&out, size) + 0.8 * size > width {
            out.pop();
            break;
        }
    }
    format!("{}…", out.trim_end())
}

/// Lines of at most this width; the last one is cut when there is more than fits.
pub(crate) fn wrap(words: &str, size: f32, width: f32, most: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in words.split_whitespace() {
        let last = lines.len() - 1;
        let longer = if lines[last].is_empty() {
            word.to_owned()
        } else {
            format!("{} {word}", lines[last])
        };
        if text_width(&longer, size) <= width || lines[last].is_empty() || lines.len() == most {
            lines[last] = longer;
        } else {
            lines.push(word.to_owned());
        }
    }
    lines.into_iter().map(|line| fit(&line, size, width)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hostile_names_stay_names() {
        let check = |input: &str, expected: &str| assert_eq!(escape(input), expected);
        check("<b>&\"'", "&lt;b&gt;&amp;&quot;&#39;");
        check("a\0b\u{1}\u{ffff}", "a b  ");
        check("🎺", "🎺");
    }

    #[test]
    fn no_coordinate_is_anything_but_a_number() {
        let check = |input: f32, expected: &str| assert_eq!(num(input), expected);
        check(f32::NAN, "0");
        check(f32::INFINITY, "0");
        check(-0.01, "0");
        check(12.34, "12.3");
    }

    #[test]
    fn words_are_cut_to_their_room() {
        assert_eq!(fit("short", 13.0, 200.0), "short");
        let cut = fit(&"wide ".repeat(100), 13.0, 120.0);
        assert!(cut.ends_with('…') && text_width(&cut, 13.0) <= 120.0, "{cut}");
    }
}
