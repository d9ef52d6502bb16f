//! Cards on paper: pages of A5, black on white, drawn with a typeface whose widths are known.

use super::content::{Card, Mark};
use crate::svg::{FONTS, Ground, Svg, num};
use crate::wording::for_assistant::Line;
use crate::wording::on_card;
use glam::Vec2;

/// Pixels of a millimetre: 96 to the inch.
const MM: f32 = 96.0 / 25.4;
/// A5, upright; two stand side by side on A4.
const SIZE_MM: Vec2 = Vec2::new(148.0, 210.0);
/// Nothing is printed nearer to the edge: most printers leave 4 mm white, and a thumb needs as much again.
const MARGIN: f32 = 8.0 * MM;
/// Size of the numbers of camera and flash: in the typeface of our pages, a digit is 0.727 of it, so 9 mm and more.
const LARGE: Size = Size {
    number: 12.5 * MM,
    word: 5.0 * MM,
    row: 12.3 * MM,
};
/// Size of the line that says where, which has more words.
const WHERE: Size = Size {
    number: 8.0 * MM,
    word: 4.7 * MM,
    row: 8.6 * MM,
};
/// Room for what heads a row of a table: so much at least and at most.
const LEAST_HEAD: f32 = 34.0 * MM;
const MOST_HEAD: f32 = 50.0 * MM;
/// The drawings are not made lower than this.
const LEAST_DRAWING: f32 = 38.0 * MM;
const BLACK: &str = "#000000";
const GREY: &str = "#333333";

/// Width in pixels of words at a size in pixels, semibold or regular.
pub type WidthOf<'a> = &'a dyn Fn(&str, f32, bool) -> f32;

/// One page, ready to be printed.
#[derive(Clone, Debug, PartialEq)]
pub struct CardPage {
    /// The drawn page; it refers to nothing outside itself but a typeface.
    pub svg: String,
    /// Its width in millimetres.
    pub width_mm: f32,
    /// Its height in millimetres.
    pub height_mm: f32,
}

/// The pages of one card: the three lines, the drawings and the assistant's five lines on the first, likely changes
/// on the next.
///
/// `width_of` measures words in the typeface that the pages will be printed with; no line is wider than its page.
pub fn card_pages(card: &Card, width_of: WidthOf) -> Vec<CardPage> {
    let mut pages = Pages::new(card, width_of);
    pages.three_lines();
    pages.notices();
    pages.drawings();
    pages.assistant();
    pages.cautions();
    pages.changes();
    pages.about();
    pages.finish()
}

/// How large a line is set.
#[derive(Clone, Copy)]
struct Size {
    number: f32,
    word: f32,
    row: f32,
}

/// How a paragraph is set.
#[derive(Clone, Copy)]
struct Hand {
    size: f32,
    bold: bool,
    fill: &'static str,
}

const PLAIN: Hand = Hand {
    size: 3.6 * MM,
    bold: false,
    fill: BLACK,
};
const STRONG: Hand = Hand { bold: true, ..PLAIN };
const SMALL: Hand = Hand {
    size: 3.1 * MM,
    fill: GREY,
    ..PLAIN
};
const HEAD: Hand = Hand {
    size: 4.2 * MM,
    ..STRONG
};

impl Hand {
    fn row(self) -> f32 {
        1.32 * self.size
    }
}

struct Pages<'a> {
    card: &'a Card,
    width_of: WidthOf<'a>,
    done: Vec<String>,
    page: Svg,
    /// Upper edge of what comes next.
    y: f32,
}

impl<'a> Pages<'a> {
    fn new(card: &'a Card, width_of: WidthOf<'a>) -> Self {
        let mut pages = Self {
            card,
            width_of,
            done: Vec::new(),
            page: Svg::part(),
            y: 0.0,
        };
        pages.open();
        pages
    }

    fn right() -> f32 {
        SIZE_MM.x * MM - MARGIN
    }

    fn bottom() -> f32 {
        SIZE_MM.y * MM - MARGIN
    }

    /// Opens a page with the name of the set-up at its head.
    fn open(&mut self) {
        let size = SIZE_MM * MM;
        let number = self.done.len() + 1;
        let voice = self.card.voice;
        let title = on_card::page_title(voice, &self.card.title, number);
        self.page = Svg::new(size, &title, on_card::page_described(voice));
        self.page.rectangle(Vec2::ZERO, size, &[("fill", "#ffffff")]);
        self.y = MARGIN;
        let right = match &self.card.made {
            Some(made) => format!("{} · {number}", made.trim_end_matches('.')),
            None => number.to_string(),
        };
        let right_width = (self.width_of)(&right, SMALL.size, false);
        let title = self.cut(
            &self.card.title,
            HEAD,
            Self::right() - MARGIN - right_width - 12.0,
        );
        self.words(MARGIN, &title, HEAD);
        self.words(Self::right() - right_width, &right, SMALL);
        self.y += HEAD.row() + 2.0;
    }

    fn close(&mut self) {
        let page = std::mem::replace(&mut self.page, Svg::part());
        self.done.push(page.finish());
    }

    /// Goes on to the next page where this much does not fit any more.
    fn room_for(&mut self, height: f32) {
        if self.y + height > Self::bottom() {
            self.close();
            self.open();
        }
    }

    fn finish(mut self) -> Vec<CardPage> {
        self.close();
        self.done
            .into_iter()
            .map(|svg| CardPage {
                svg,
                width_mm: SIZE_MM.x,
                height_mm: SIZE_MM.y,
            })
            .collect()
    }

    /// Words on the row that begins at the present height.
    fn words(&mut self, x: f32, words: &str, hand: Hand) {
        self.words_at(Vec2::new(x, self.y + hand.size), words, hand);
    }

    fn words_at(&mut self, at: Vec2, words: &str, hand: Hand) {
        let size = num(hand.size);
        let mut style = vec![("font-family", FONTS), ("font-size", &*size), ("fill", hand.fill)];
        if hand.bold {
            style.push(("font-weight", "600"));
        }
        self.page.text(at, words, &style);
    }

    fn rule(&mut self) {
        let (from, to) = (Vec2::new(MARGIN, self.y), Vec2::new(Self::right(), self.y));
        self.page
            .line(from, to, &[("stroke", GREY), ("stroke-width", "0.8")]);
    }

    /// As much of the words as fits, with an ellipsis.
    fn cut(&self, words: &str, hand: Hand, width: f32) -> String {
        let fits = |words: &str| (self.width_of)(words, hand.size, hand.bold) <= width;
        if fits(words) {
            return words.to_owned();
        }
        let mut kept: Vec<char> = words.chars().collect();
        while !kept.is_empty() && !fits(&(kept.iter().collect::<String>() + "…")) {
            kept.pop();
        }
        kept.into_iter().collect::<String>().trim_end().to_owned() + "…"
    }

    /// Rows of words that are no wider than this; a word that is wider by itself is broken.
    fn rows(&self, words: &str, hand: Hand, width: f32) -> Vec<String> {
        let fits = |words: &str| (self.width_of)(words, hand.size, hand.bold) <= width;
        let mut rows: Vec<String> = vec![String::new()];
        for word in words.split_whitespace() {
            let last = rows.len() - 1;
            let longer = match rows[last].is_empty() {
                true => word.to_owned(),
                false => format!("{} {word}", rows[last]),
            };
            if fits(&longer) {
                rows[last] = longer;
                continue;
            }
            if !rows[last].is_empty() {
                rows.push(String::new());
            }
            for c in word.chars() {
                let last = rows.len() - 1;
                let longer = format!("{}{c}", rows[last]);
                if fits(&longer) || rows[last].is_empty() {
                    rows[last] = longer;
                } else {
                    rows.push(c.to_string());
                }
            }
        }
        rows
    }

    /// A paragraph from x to the right edge.
    fn paragraph(&mut self, x: f32, words: &str, hand: Hand) {
        for row in self.rows(words, hand, Self::right() - x) {
            self.room_for(hand.row());
            self.words(x, &row, hand);
            self.y += hand.row();
        }
    }

    /// A heading that is not left alone at the foot of a page.
    fn heading(&mut self, words: &str, with: f32) {
        let rows = self.rows(words, HEAD, Self::right() - MARGIN);
        self.room_for(8.0 + rows.len() as f32 * HEAD.row() + 3.0 + with);
        self.y += 8.0;
        for row in rows {
            self.words(MARGIN, &row, HEAD);
            self.y += HEAD.row();
        }
        self.y += 3.0;
    }

    fn three_lines(&mut self) {
        if let Some((setting, flash)) = self.card.planned() {
            let camera: Vec<&str> = setting.camera.iter().map(String::as_str).collect();
            self.line(&camera, LARGE, 0.0, None, true);
            let parts = self.card.flash_line(flash);
            let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
            self.line(&parts, LARGE, 0.0, Some(flash.mark), true);
        }
        let words: Vec<&str> = self.card.aim.split(' ').collect();
        let arrow = 11.0 * MM;
        let centre = Vec2::new(MARGIN + 0.4 * arrow, self.y + 0.62 * WHERE.row);
        self.line(&words, WHERE, arrow, None, false);
        self.arrow(centre, 0.42 * WHERE.row);
        self.rule();
        self.y += 6.0;
    }

    fn arrow(&mut self, centre: Vec2, half: f32) {
        let turn = format!(
            "translate({} {}) rotate({:.0}) scale({})",
            num(centre.x),
            num(centre.y),
            self.card.turn_deg,
            num(half / 11.0)
        );
        let style = [
            ("transform", &*turn),
            ("fill", "none"),
            ("stroke", BLACK),
            ("stroke-width", "3.6"),
            ("stroke-linecap", "round"),
            ("stroke-linejoin", "round"),
        ];
        self.page.drawn("M0 11V-9M-8 -2L0 -10L8 -2", &style);
    }

    /// A line of parts that are not broken where it can be helped; words with a number are large.
    fn line(&mut self, parts: &[&str], size: Size, indent: f32, mark: Option<Mark>, dotted: bool) {
        self.rule();
        self.y += 0.12 * size.row;
        // Between parts stands a dot, so that two numbers are never read as one; between words a space.
        let gap = if dotted {
            0.12 * size.number
        } else {
            0.32 * size.word
        };
        let mut x = MARGIN + indent;
        for (index, part) in parts.iter().enumerate() {
            let last = index + 1 == parts.len();
            let (from, to) = self.part(part, size, x);
            if last && matches!(mark, Some(Mark::Low | Mark::Short)) {
                self.frame(from, to, size);
            }
            x = to + gap;
            if dotted && !last {
                x = self.dot(x, size, gap);
            }
        }
        self.y += size.row + 2.0;
    }

    /// Sets a part of a line, in the next row where this one has no room; returns where it begins and ends.
    fn part(&mut self, part: &str, size: Size, x: f32) -> (f32, f32) {
        let pieces = self.pieces(part, size);
        let width: f32 = pieces.iter().map(|piece| piece.width).sum();
        let mut x = self.in_this_row(x, width, size);
        let from = x;
        for piece in &pieces {
            // A part wider than the page goes on in the next row.
            x = self.in_this_row(x, piece.width, size);
            let hand = Hand {
                size: piece.size,
                bold: piece.bold,
                fill: BLACK,
            };
            let shown = self.cut(&piece.words, hand, Self::right() - x);
            self.words_at(Vec2::new(x, self.y + 0.76 * size.row), &shown, hand);
            x += piece.width;
        }
        (from, x)
    }

    /// Where something so wide begins: here, or at the head of the next row.
    fn in_this_row(&mut self, x: f32, width: f32, size: Size) -> f32 {
        if x > MARGIN && x + width > Self::right() {
            self.y += size.row;
            MARGIN
        } else {
            x
        }
    }

    /// A frame around what is little.
    fn frame(&mut self, from: f32, to: f32, size: Size) {
        let corner = Vec2::new(from - 3.0, self.y + 1.0);
        let extent = Vec2::new(to - from + 6.0, size.row - 4.0);
        let style = [
            ("fill", "none"),
            ("stroke", BLACK),
            ("stroke-width", "2"),
            ("rx", "4"),
        ];
        self.page.rectangle(corner, extent, &style);
    }

    /// A dot between two parts where there is room for it; returns where the next part may begin.
    fn dot(&mut self, x: f32, size: Size, gap: f32) -> f32 {
        let hand = Hand {
            size: size.number,
            ..STRONG
        };
        let width = (self.width_of)("·", hand.size, hand.bold);
        if x + width >= Self::right() {
            return x;
        }
        self.words_at(Vec2::new(x, self.y + 0.76 * size.row), "·", hand);
        x + width + gap
    }

    /// The words of a part with their sizes; the space between two belongs to the first.
    fn pieces(&self, part: &str, size: Size) -> Vec<Piece> {
        let words: Vec<&str> = part.split(' ').collect();
        let last = words.len().saturating_sub(1);
        let piece = |(index, word): (usize, &&str)| {
            let number = word.contains(|c: char| c.is_ascii_digit());
            let size_px = if number { size.number } else { size.word };
            let space = if index < last { 0.32 * size.word } else { 0.0 };
            Piece {
                words: (*word).to_owned(),
                size: size_px,
                bold: number,
                width: (self.width_of)(word, size_px, number) + space,
            }
        };
        words.iter().enumerate().map(piece).collect()
    }

    fn notices(&mut self) {
        for words in &self.card.first {
            self.paragraph(MARGIN, words, STRONG);
            self.y += 4.0;
        }
    }

    /// Plan and side view beside one another.
    fn drawings(&mut self) {
        let ground = |mark: &str| Ground {
            sheet: "#ffffff",
            body: "#d9d9d9",
            ink: "#000000",
            line: "#555555",
            glow: "#7a3d00",
            mark: mark.to_owned(),
        };
        let (above, side) = (
            self.card.plans.above(&ground("a")),
            self.card.plans.side(&ground("s")),
        );
        let gap = 10.0;
        let width = Self::right() - MARGIN - gap;
        // Both at one scale, so that the words in them are of one size; never larger than they were drawn for.
        let tallest = above.size.y.max(side.size.y);
        let left = (Self::bottom() - self.y - self.assistant_height() - 4.0).max(LEAST_DRAWING);
        let scale = (width / (above.size.x + side.size.x))
            .min(left / tallest)
            .min(0.9);
        let height = tallest * scale;
        self.room_for(height);
        let mut x = MARGIN;
        for drawn in [above, side] {
            let place = format!("translate({} {}) scale({:.4})", num(x), num(self.y), scale);
            let style = [
                ("transform", &*place),
                ("font-family", FONTS),
                ("font-size", "13"),
            ];
            self.page.start("g", &style);
            x += drawn.size.x * scale + gap;
            self.page.append(drawn.part);
            self.page.end();
        }
        self.y += height;
    }

    /// Where the assistant's lines begin, behind the words that head them.
    fn column(&self) -> f32 {
        let width = |line: &Line| (self.width_of)(line.head, STRONG.size, STRONG.bold);
        let widest = self.card.assistant.iter().map(width).fold(0.0, f32::max);
        MARGIN + widest + 2.5 * MM
    }

    /// Room that the assistant's five lines and the cautions take, so that the drawings leave it to them.
    fn assistant_height(&self) -> f32 {
        let rows =
            |words: &str, x: f32| self.rows(words, PLAIN, Self::right() - x).len() as f32 * PLAIN.row() + 3.0;
        let heading = 8.0 + HEAD.row() + 3.0;
        let column = self.column();
        let lines: f32 = self
            .card
            .assistant
            .iter()
            .map(|line| rows(&line.words, column))
            .sum();
        let cautions: f32 = self.card.cautions.iter().map(|words| rows(words, MARGIN)).sum();
        let care = if self.card.cautions.is_empty() {
            0.0
        } else {
            heading + cautions
        };
        heading + lines + care
    }

    fn assistant(&mut self) {
        let column = self.column();
        let [first, ..] = &self.card.assistant;
        let with = self.rows(&first.words, PLAIN, Self::right() - column).len();
        self.heading(
            on_card::for_the_assistant(self.card.voice),
            with as f32 * PLAIN.row(),
        );
        for line in &self.card.assistant {
            let rows = self.rows(&line.words, PLAIN, Self::right() - column).len() as f32;
            self.room_for(rows * PLAIN.row());
            self.words(MARGIN, line.head, STRONG);
            self.paragraph(column, &line.words, PLAIN);
            self.y += 3.0;
        }
    }

    fn cautions(&mut self) {
        if self.card.cautions.is_empty() {
            return;
        }
        self.heading(on_card::take_care(self.card.voice), PLAIN.row());
        for words in &self.card.cautions {
            self.paragraph(MARGIN, words, PLAIN);
            self.y += 3.0;
        }
    }

    fn changes(&mut self) {
        let voice = self.card.voice;
        let lights: Vec<[String; 2]> = self
            .card
            .likely_lights()
            .into_iter()
            .map(|(by, then)| [by.to_owned(), then])
            .collect();
        self.table(on_card::if_the_light_has_changed(voice), &lights);
        for (dial, rows) in self.card.likely_distances() {
            let rows: Vec<[String; 2]> = rows
                .into_iter()
                .map(|(value, flash)| {
                    let then = format!("{}.", flash.words(voice));
                    [on_card::about_so_far(voice, value), then]
                })
                .collect();
            self.table(&on_card::if_another_distance(voice, dial.between), &rows);
        }
    }

    /// A table under its heading: what has changed, and what then.
    fn table(&mut self, heading: &str, rows: &[[String; 2]]) {
        if rows.is_empty() {
            return;
        }
        self.heading(heading, 3.0 * PLAIN.row());
        let width = |head: &str| (self.width_of)(head, STRONG.size, STRONG.bold);
        let widest = rows.iter().map(|[head, _]| width(head)).fold(0.0, f32::max);
        let column = MARGIN + widest.clamp(LEAST_HEAD, MOST_HEAD) + 2.5 * MM;
        for [head, words] in rows {
            let lines = self.rows(words, PLAIN, Self::right() - column).len() as f32;
            self.room_for(lines * PLAIN.row() + 4.0);
            self.rule();
            self.y += 3.0;
            let head = self.cut(head, STRONG, MOST_HEAD);
            self.words(MARGIN, &head, STRONG);
            self.paragraph(column, words, PLAIN);
            self.y += 2.0;
        }
    }

    /// How sure the answer is; its rows stay together, so that none is left alone on a page.
    fn about(&mut self) {
        let rows = self.rows(&self.card.about, SMALL, Self::right() - MARGIN).len();
        self.room_for(6.0 + rows as f32 * SMALL.row());
        self.y += 6.0;
        self.paragraph(MARGIN, &self.card.about, SMALL);
    }
}

/// Some words of one size.
struct Piece {
    words: String,
    size: f32,
    bold: bool,
    width: f32,
}
