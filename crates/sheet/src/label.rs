//! Where labels go: never over one another, never off the sheet, rather not over the light's path.

use crate::svg::{Svg, ink, text_width};
use glam::Vec2;

/// An upright box in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Area {
    pub(crate) min: Vec2,
    pub(crate) max: Vec2,
}

impl Area {
    pub(crate) fn new(min: Vec2, max: Vec2) -> Self {
        Self { min, max }
    }

    pub(crate) fn around(centre: Vec2, size: Vec2) -> Self {
        Self {
            min: centre - size * 0.5,
            max: centre + size * 0.5,
        }
    }

    pub(crate) fn grown(self, by: f32) -> Self {
        Self {
            min: self.min - by,
            max: self.max + by,
        }
    }

    pub(crate) fn size(self) -> Vec2 {
        self.max - self.min
    }

    pub(crate) fn centre(self) -> Vec2 {
        (self.min + self.max) * 0.5
    }

    fn meets(self, other: Self) -> bool {
        self.min.cmplt(other.max).all() && self.max.cmpgt(other.min).all()
    }

    fn holds(self, other: Self) -> bool {
        self.min.cmple(other.min).all() && self.max.cmpge(other.max).all()
    }

    pub(crate) fn has(self, point: Vec2) -> bool {
        self.min.cmple(point).all() && self.max.cmpge(point).all()
    }
}

/// How a label looks.
#[derive(Clone, Copy)]
pub(crate) struct Hand {
    pub(crate) size: f32,
    pub(crate) fill: &'static str,
    pub(crate) bold: bool,
}

impl Hand {
    pub(crate) const PLAIN: Self = Self {
        size: 13.0,
        fill: ink::INK,
        bold: false,
    };
    pub(crate) const SMALL: Self = Self {
        size: 12.0,
        fill: ink::SOFT,
        bold: false,
    };
    pub(crate) const STRONG: Self = Self {
        size: 14.0,
        fill: ink::INK,
        bold: true,
    };
    pub(crate) const LIGHT: Self = Self {
        size: 14.0,
        fill: ink::GLOW,
        bold: true,
    };

    fn width(self, words: &str) -> f32 {
        text_width(words, self.size) * if self.bold { 1.06 } else { 1.0 }
    }
}

/// A label that has found its place.
struct Placed {
    area: Area,
    words: String,
    hand: Hand,
    turned: bool,
    leader: Option<(Vec2, Vec2)>,
}

/// Labels of one drawing.
pub(crate) struct Labels {
    bounds: Area,
    taken: Vec<Area>,
    avoid: Vec<Vec2>,
    placed: Vec<Placed>,
    left_over: Vec<String>,
}

/// Directions tried around a point, the calm ones first: right, left, above, below, then between.
const DIRECTIONS: [(f32, f32); 12] = [
    (1.0, 0.0),
    (-1.0, 0.0),
    (0.0, -1.0),
    (0.0, 1.0),
    (0.8, -0.6),
    (0.8, 0.6),
    (-0.8, -0.6),
    (-0.8, 0.6),
    (0.4, -0.92),
    (0.4, 0.92),
    (-0.4, -0.92),
    (-0.4, 0.92),
];

impl Labels {
    pub(crate) fn new(bounds: Area) -> Self {
        Self {
            bounds,
            taken: Vec::new(),
            avoid: Vec::new(),
            placed: Vec::new(),
            left_over: Vec::new(),
        }
    }

    /// No label may touch this.
    pub(crate) fn take(&mut self, area: Area) {
        self.taken.push(area);
    }

    /// Labels rather keep off this line.
    pub(crate) fn keep_off(&mut self, from: Vec2, to: Vec2) {
        let steps = ((to - from).length() / 6.0).ceil().clamp(1.0, 400.0) as usize;
        self.avoid
            .extend((0..=steps).map(|step| from.lerp(to, step as f32 / steps as f32)));
    }

    /// Remembers words that are to stand elsewhere.
    pub(crate) fn leave_over(&mut self, words: &str) {
        self.left_over.push(words.to_owned());
    }

    /// Names that found no place.
    pub(crate) fn left_over(&self) -> &[String] {
        &self.left_over
    }

    /// Puts words near a point, at least `gap` away; they are remembered as left over when nothing is free.
    pub(crate) fn near(&mut self, point: Vec2, gap: f32, words: &str, hand: Hand) -> bool {
        self.near_first_that_fits(point, gap, &[words], hand)
    }

    /// The same for words with shorter ones to fall back on; the longest are remembered when nothing fits.
    pub(crate) fn near_first_that_fits(
        &mut self,
        point: Vec2,
        gap: f32,
        wordings: &[impl AsRef<str>],
        hand: Hand,
    ) -> bool {
        let placed = wordings
            .iter()
            .any(|words| self.settle_near(point, gap, words.as_ref(), hand));
        if let (false, Some(longest)) = (placed, wordings.first()) {
            self.leave_over(longest.as_ref());
        }
        placed
    }

    fn settle_near(&mut self, point: Vec2, gap: f32, words: &str, hand: Hand) -> bool {
        let size = Vec2::new(hand.width(words), hand.size * 1.25);
        let mut best: Option<(f32, Area, f32)> = None;
        for (ring, reach) in [0.0, 9.0, 20.0, 34.0, 52.0, 76.0, 104.0].into_iter().enumerate() {
            for (rank, direction) in DIRECTIONS.into_iter().enumerate() {
                let direction = Vec2::from(direction).normalize();
                // The box sits outside the ring around the point: its near side or corner touches the ring.
                let lean = (direction * 1.4).clamp(Vec2::NEG_ONE, Vec2::ONE);
                let centre = point + direction * (gap + reach) + size * 0.5 * lean;
                let area = Area::around(centre, size);
                if let Some(cost) = self.cost(area) {
                    let cost = cost + 3.0 * ring as f32 + 0.35 * rank as f32;
                    if best.is_none_or(|(least, ..)| cost < least) {
                        best = Some((cost, area, reach));
                    }
                }
            }
        }
        let Some((_, area, reach)) = best else {
            return false;
        };
        let leader = (reach >= 20.0).then(|| leader(point, gap, area));
        self.settle(area, words, hand, false, leader);
        true
    }

    /// Puts words beside a line, as near its middle as can be; says whether there was room.
    pub(crate) fn along(&mut self, from: Vec2, to: Vec2, words: &str, hand: Hand) -> bool {
        let size = Vec2::new(hand.width(words), hand.size * 1.25);
        let along = (to - from).normalize_or_zero();
        let across = Vec2::new(-along.y, along.x);
        let reach = 0.5 * (size.x * across.x.abs() + size.y * across.y.abs()) + 5.0;
        let mut best: Option<(f32, Area)> = None;
        for (rank, t) in [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82]
            .into_iter()
            .enumerate()
        {
            for (turn, side) in [1.0, -1.0].into_iter().enumerate() {
                for (far, extra) in [0.0, 8.0, 18.0].into_iter().enumerate() {
                    let area = Area::around(from.lerp(to, t) + across * side * (reach + extra), size);
                    if let Some(cost) = self.cost(area) {
                        let cost = cost + 0.6 * rank as f32 + 0.3 * turn as f32 + 1.5 * far as f32;
                        if best.is_none_or(|(least, _)| cost < least) {
                            best = Some((cost, area));
                        }
                    }
                }
            }
        }
        let Some((_, area)) = best else {
            return self.near(from.lerp(to, 0.5), 8.0, words, hand);
        };
        self.settle(area, words, hand, false, None);
        true
    }

    /// Puts words exactly here if nothing is in the way.
    pub(crate) fn at(&mut self, centre: Vec2, words: &str, hand: Hand, turned: bool) -> bool {
        let size = Vec2::new(hand.width(words), hand.size * 1.25);
        let area = Area::around(centre, if turned { Vec2::new(size.y, size.x) } else { size });
        if self.cost(area).is_none() {
            return false;
        }
        self.settle(area, words, hand, turned, None);
        true
    }

    /// What it costs to put a label there; `None` where it may not go.
    fn cost(&self, area: Area) -> Option<f32> {
        let padded = area.grown(2.0);
        if !self.bounds.holds(area) || self.taken.iter().any(|taken| taken.meets(padded)) {
            return None;
        }
        Some(self.avoid.iter().filter(|point| padded.has(**point)).count() as f32 * 2.5)
    }

    fn settle(&mut self, area: Area, words: &str, hand: Hand, turned: bool, leader: Option<(Vec2, Vec2)>) {
        self.taken.push(area);
        self.placed.push(Placed {
            area,
            words: words.to_owned(),
            hand,
            turned,
            leader,
        });
    }

    /// Draws all labels, each with a rim in the colour of the sheet so that it is read over any line.
    pub(crate) fn draw(&self, svg: &mut Svg) {
        for (from, to) in self.placed.iter().filter_map(|placed| placed.leader) {
            svg.line(from, to, &[("stroke", ink::LINE), ("stroke-width", "1")]);
        }
        for placed in &self.placed {
            let centre = placed.area.centre();
            let size = format!("{}", placed.hand.size);
            let turn = format!(
                "rotate(-90 {} {})",
                crate::svg::num(centre.x),
                crate::svg::num(centre.y)
            );
            let mut style = vec![
                ("fill", placed.hand.fill),
                ("font-size", &*size),
                ("text-anchor", "middle"),
                ("stroke", ink::SHEET),
                ("stroke-width", "4"),
                ("stroke-linejoin", "round"),
                ("paint-order", "stroke"),
            ];
            if placed.hand.bold {
                style.push(("font-weight", "600"));
            }
            if placed.turned {
                style.push(("transform", &turn));
            }
            svg.text(
                centre + Vec2::new(0.0, placed.hand.size * 0.36),
                &placed.words,
                &style,
            );
        }
    }

    /// The boxes of all placed labels, for the tests.
    #[cfg(test)]
    pub(crate) fn areas(&self) -> Vec<Area> {
        self.placed.iter().map(|placed| placed.area).collect()
    }
}

/// A thin line from a point to the nearest edge of its label.
fn leader(point: Vec2, gap: f32, area: Area) -> (Vec2, Vec2) {
    let end = point.clamp(area.min, area.max);
    let way = (end - point).normalize_or_zero();
    (point + way * gap * 0.9, end - way * 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_never_overlap_and_never_leave_the_sheet() {
        let bounds = Area::new(Vec2::ZERO, Vec2::new(500.0, 400.0));
        let mut labels = Labels::new(bounds);
        labels.keep_off(Vec2::ZERO, Vec2::new(500.0, 400.0));
        let placed = (0..60)
            .filter(|i| labels.near(Vec2::new(250.0, 200.0), 6.0, &format!("label {i}"), Hand::PLAIN))
            .count();
        assert!(
            placed > 20 && placed < 60,
            "{placed} of 60 labels found a place around one point"
        );
        assert_eq!(labels.left_over().len(), 60 - placed);
        let areas = labels.areas();
        for (index, a) in areas.iter().enumerate() {
            assert!(bounds.holds(*a));
            assert!(
                areas[index + 1..].iter().all(|b| !a.meets(*b)),
                "label {index} is covered"
            );
        }
    }
}
