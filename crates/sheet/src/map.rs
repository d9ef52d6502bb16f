//! The room unrolled: how good it is to aim at every piece of its six faces.

use crate::drawing::wrap;
use crate::label::{Area, Hand, Labels};
use crate::path::{Carrier, LightPath, as_answered};
use crate::plan;
use crate::svg::{Svg, ink, num, text_width};
use crate::words::{Lengths, clean, from_nose, plain, shorten};
use glam::{Vec2, Vec3};
use scene::{BoxRoom, Face, Opening, OpeningKind};
use solver::{Aim, Answer, Job, MapCell, Route, Verdict};

/// Width of the sheet in pixels: narrow, so that words stay readable where the sheet is looked at on a phone.
const WIDTH: f32 = 900.0;
const MARGIN: f32 = 40.0;
/// Height that the unrolled room takes if it can.
const HEIGHT: f32 = 1120.0;
/// Space above each face of the middle column, for its name.
const NAME_GAP: f32 = 34.0;
/// Space between the ceiling and the side walls.
const SIDE_GAP: f32 = 10.0;
/// Least width of the column of the key, and its distance from the room.
const KEY: (f32, f32) = (296.0, 44.0);
/// A side wall is drawn at least this high, however long the room is.
const LEAST_WALL: f32 = 110.0;
/// Lines kept free for what a touched piece has to say, and their distance.
const READING: (usize, f32) = (4, 21.0);
/// Up to this many points behind the answer a piece is as good as the answer: half of one clear fault (ours).
const AS_GOOD: f64 = 0.5;

/// Shades by points, from the ask itself to what nobody wants. Their luminance falls all the way, so that the order
/// survives on grey paper and for every kind of sight.
const SHADES: [(f64, [f64; 3]); 6] = [
    (0.0, [255.0, 232.0, 190.0]),
    (1.0, [235.0, 194.0, 132.0]),
    (2.5, [184.0, 140.0, 84.0]),
    (5.0, [130.0, 104.0, 74.0]),
    (10.0, [92.0, 82.0, 70.0]),
    (20.0, [66.0, 64.0, 61.0]),
];

/// Shows what a touched piece has to say, for fingers that get no tooltip; no script and nothing from outside.
const STYLE: &str = ".cell:hover .tip{visibility:visible}.cell:hover .piece{stroke:#f4f2ee;stroke-width:3}";

/// The six faces of the room folded flat, with how good it is to aim the flash at each piece of them.
///
/// The faces lie as someone sees them who stands at the camera, looks at the sitter and then up and back: under one
/// another the wall behind the camera, the ceiling, the wall behind the sitter and the floor, and beside the ceiling
/// the walls on the camera's left and right. Every piece has its shade by points, a mark for what that means, and its
/// reason in words for whoever points at it or touches it. Lengths are in metres or in feet.
pub fn room_map_svg(job: &Job, answer: &Answer, feet: bool) -> String {
    let job = &as_answered(job, answer);
    let lengths = Lengths::new(feet);
    let head = Head::new(job, answer, lengths);
    let net = Net::new(&job.place.room, head.bottom + NAME_GAP);
    let best = points_of_answer(answer);
    let mut body = Svg::part();
    draw_faces(&mut body, &net);
    draw_cells(&mut body, &net, answer, best, lengths, head.reading);
    for opening in &job.place.openings {
        draw_opening(&mut body, &net, opening);
    }
    let mut floor = Labels::new(net.area(Face::Floor));
    draw_floor(&mut body, &net, job, answer, lengths, &mut floor);
    draw_aims(&mut body, &net, answer);
    name_faces(&mut body, &net);
    floor.draw(&mut body);
    let key_bottom = draw_key(&mut body, &net, job, answer, best, floor.left_over());
    let height = net.bottom().max(key_bottom) + MARGIN;

    let mut svg = Svg::new(
        Vec2::new(WIDTH, height),
        &head.title,
        &description(job, answer, best),
    );
    svg.worded("style", &[], STYLE);
    definitions(&mut svg);
    svg.rectangle(Vec2::ZERO, Vec2::new(WIDTH, height), &[("fill", ink::SHEET)]);
    head.draw(&mut svg);
    svg.append(body);
    svg.finish()
}

/// The words above the map.
struct Head {
    title: String,
    aim: Vec<String>,
    /// Top of the lines in which a touched piece says its reason.
    reading: f32,
    bottom: f32,
}

impl Head {
    fn new(job: &Job, answer: &Answer, lengths: Lengths) -> Self {
        let name = shorten(&job.title, 60);
        let title = match name.as_str() {
            "" => "Where to point the flash".to_owned(),
            name => format!("{name}: where to point the flash"),
        };
        let aim = wrap(
            &clean(&lengths.reword(&answer.aim.words)),
            16.0,
            WIDTH - 2.0 * MARGIN,
            3,
        );
        let reading = 82.0 + 24.0 * aim.len() as f32 + 8.0;
        Self {
            title,
            aim,
            reading,
            bottom: reading + READING.1 * READING.0 as f32,
        }
    }

    fn draw(&self, svg: &mut Svg) {
        let title = wrap(&self.title, 22.0, WIDTH - 2.0 * MARGIN, 1);
        svg.text(
            Vec2::new(MARGIN, 54.0),
            &title[0],
            &[("fill", ink::INK), ("font-size", "22"), ("font-weight", "600")],
        );
        for (index, line) in self.aim.iter().enumerate() {
            svg.text(
                Vec2::new(MARGIN, 84.0 + 24.0 * index as f32),
                line,
                &[("fill", ink::GLOW), ("font-size", "16")],
            );
        }
        let lines = [
            "The room unrolled, as you see it from the camera: look at the sitter, then up, and lean back.",
            "Point at a square, or touch it, to read what aiming there would do.",
        ];
        for (index, line) in lines.into_iter().enumerate() {
            svg.text(
                Vec2::new(MARGIN, self.reading + 16.0 + READING.1 * index as f32),
                line,
                &[("fill", ink::SOFT), ("font-size", "14")],
            );
        }
    }
}

/// Where each face lies on the sheet.
struct Net<'a> {
    room: &'a BoxRoom,
    /// Pixels per metre.
    scale: f32,
    /// Upper left corner of the box that holds the ceiling.
    ceiling: Vec2,
}

impl<'a> Net<'a> {
    fn new(room: &'a BoxRoom, top: f32) -> Self {
        let size = room.size.max(Vec3::splat(0.1));
        let most = WIDTH - 2.0 * MARGIN;
        let beside_both = (most - 2.0 * SIDE_GAP) / (size.x + 2.0 * size.z);
        let beside_key = (most - SIDE_GAP - KEY.0 - KEY.1) / (size.x + size.z);
        let wide = beside_both.min(beside_key);
        let high = (HEIGHT - 3.0 * NAME_GAP) / (2.0 * (size.y + size.z));
        let scale = wide.min(high.max(LEAST_WALL / size.z));
        // What is left of the width goes to both sides alike.
        let taken = (size.x + size.z) * scale + SIDE_GAP + (SIDE_GAP + size.z * scale).max(KEY.0 + KEY.1);
        let left = MARGIN + 0.5 * (most - taken).max(0.0) + size.z * scale + SIDE_GAP;
        Self {
            room,
            scale,
            ceiling: Vec2::new(left, top + size.z * scale + NAME_GAP),
        }
    }

    /// A point of a face on the sheet.
    fn at(&self, face: Face, point: Vec3) -> Vec2 {
        let Vec3 { x, y, z } = self.room.size;
        let gap = NAME_GAP / self.scale;
        let side = SIDE_GAP / self.scale;
        let from_ceiling = match face {
            Face::Ceiling => Vec2::new(point.x, point.y),
            Face::Left => Vec2::new(point.z - z - side, point.y),
            Face::Right => Vec2::new(x + side + z - point.z, point.y),
            Face::BehindCamera => Vec2::new(point.x, point.z - z - gap),
            Face::BehindSitter => Vec2::new(point.x, y + gap + z - point.z),
            Face::Floor => Vec2::new(point.x, y + 2.0 * gap + z + y - point.y),
        };
        self.ceiling + from_ceiling * self.scale
    }

    /// A rectangle on a face, from its lower corner and its extent along the two edges of the face.
    fn rectangle(&self, face: Face, from: Vec2, size: Vec2) -> Area {
        let (corner, along, up) = self.room.face_frame(face);
        let (along, up) = (along.normalize_or_zero(), up.normalize_or_zero());
        let low = corner + along * from.x + up * from.y;
        let high = low + along * size.x + up * size.y;
        let (a, b) = (self.at(face, low), self.at(face, high));
        Area::new(a.min(b), a.max(b))
    }

    fn area(&self, face: Face) -> Area {
        let (_, along, up) = self.room.face_frame(face);
        self.rectangle(face, Vec2::ZERO, Vec2::new(along.length(), up.length()))
    }

    fn bottom(&self) -> f32 {
        self.area(Face::Floor).max.y
    }
}

/// Points of the answer itself; those of the best piece where the answer does not say.
fn points_of_answer(answer: &Answer) -> f64 {
    let chosen = answer
        .surfaces
        .iter()
        .find(|surface| surface.verdict == Verdict::Chosen && !surface.score.is_empty());
    let best_cell = || {
        let points = answer.map.cells.iter().map(|cell| cell.points);
        points.filter(|points| points.is_finite()).fold(f64::MAX, f64::min)
    };
    chosen.map_or_else(best_cell, |surface| {
        surface.score.iter().map(|(_, points)| points).sum()
    })
}

/// What a piece is good for, as the map tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Use {
    AsGood,
    WouldDo,
    Spoils,
    NoUse,
}

impl Use {
    const ALL: [Use; 4] = [Use::AsGood, Use::WouldDo, Use::Spoils, Use::NoUse];

    fn of(cell: &MapCell, best: f64) -> Self {
        match cell.verdict {
            Verdict::Unusable => Use::NoUse,
            Verdict::Poor => Use::Spoils,
            Verdict::Chosen => Use::AsGood,
            Verdict::Possible if cell.points <= best + AS_GOOD => Use::AsGood,
            Verdict::Possible => Use::WouldDo,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Use::AsGood => "as good as the answer",
            Use::WouldDo => "would do",
            Use::Spoils => "spoils the look",
            Use::NoUse => "no use",
        }
    }

    /// Points by which its sample in the key is shaded.
    fn sample_points(self) -> f64 {
        match self {
            Use::AsGood => 0.3,
            Use::WouldDo => 1.6,
            Use::Spoils => 5.0,
            Use::NoUse => 20.0,
        }
    }
}

/// The shade for so many points, as red, green and blue of sRGB.
fn shade(points: f64) -> [f64; 3] {
    let last = SHADES[SHADES.len() - 1];
    if !points.is_finite() || points >= last.0 {
        return last.1;
    }
    let points = points.max(0.0);
    let upper = SHADES
        .iter()
        .position(|(at, _)| *at > points)
        .unwrap_or(SHADES.len() - 1);
    let ((low, from), (high, to)) = (SHADES[upper - 1], SHADES[upper]);
    let part = (points - low) / (high - low);
    std::array::from_fn(|i| from[i] + (to[i] - from[i]) * part)
}

fn hex([r, g, b]: [f64; 3]) -> String {
    format!("#{:02x}{:02x}{:02x}", r as u8, g as u8, b as u8)
}

/// The ink for a mark on a shade: dark on light, light on dark, and no louder than it must be on the darkest.
fn ink_on([_, green, _]: [f64; 3]) -> &'static str {
    match green {
        light if light > 115.0 => ink::SHEET,
        dark if dark < 70.0 => "#949494",
        _ => ink::SOFT,
    }
}

/// Pattern of what cannot be aimed at.
fn definitions(svg: &mut Svg) {
    svg.start("defs", &[]);
    svg.start(
        "pattern",
        &[
            ("id", "away"),
            ("width", "9"),
            ("height", "9"),
            ("patternUnits", "userSpaceOnUse"),
        ],
    );
    svg.drawn(
        "M-1 1L1 -1M0 9L9 0M8 10L10 8",
        &[("stroke", "#5c5c5c"), ("stroke-width", "1")],
    );
    svg.end();
    svg.end();
}

const AWAY: [(&str, &str); 3] = [("fill", "url(#away)"), ("stroke", ink::LINE), ("stroke-width", "1")];

fn draw_faces(svg: &mut Svg, net: &Net) {
    for face in Face::ALL {
        let area = net.area(face);
        svg.rectangle(area.min, area.size(), &AWAY);
    }
}

fn draw_cells(svg: &mut Svg, net: &Net, answer: &Answer, best: f64, lengths: Lengths, reading: f32) {
    let style = [("fill", "none"), ("stroke", ink::SHEET), ("stroke-width", "1.2")];
    svg.start("g", &style);
    for cell in &answer.map.cells {
        let area = net.rectangle(cell.face, cell.from, cell.size);
        let used = Use::of(cell, best);
        svg.start("g", &[("class", "cell")]);
        let reason = reason(net.room, cell, used, lengths);
        svg.worded("title", &[], &reason);
        draw_piece(svg, area, cell.points, used);
        draw_tip(svg, &reason, reading);
        svg.end();
    }
    svg.end();
    for face in Face::ALL {
        draw_outline(svg, net, answer, best, face);
    }
}

/// A piece of a face: its shade, and the mark of what it is good for. Its line comes from what it is part of.
fn draw_piece(svg: &mut Svg, area: Area, points: f64, used: Use) {
    let points = if used == Use::NoUse { f64::INFINITY } else { points };
    let colour = shade(points);
    svg.rectangle(
        area.min,
        area.size(),
        &[("class", "piece"), ("fill", &hex(colour))],
    );
    let reach = (0.19 * area.size().min_element()).min(4.5);
    draw_mark(svg, area.centre(), reach, used, ink_on(colour));
}

/// A disc, a ring, a stroke or a cross.
fn draw_mark(svg: &mut Svg, at: Vec2, reach: f32, used: Use, ink: &str) {
    let (x, y) = (num(at.x), num(at.y));
    let (left, right) = (num(at.x - reach), num(at.x + reach));
    let (above, below) = (num(at.y - reach), num(at.y + reach));
    let stroke = format!("M{left} {below}L{right} {above}");
    match used {
        Use::AsGood => svg.circle(at, reach, &[("fill", ink)]),
        Use::WouldDo => {
            let r = num(reach);
            let ring = format!("M{left} {y}A{r} {r} 0 1 0 {x} {above}A{r} {r} 0 0 0 {left} {y}");
            svg.drawn(&ring, &[("stroke", ink)]);
        }
        Use::Spoils => svg.drawn(&stroke, &[("stroke", ink)]),
        Use::NoUse => {
            let cross = format!("{stroke}M{left} {above}L{right} {below}");
            svg.drawn(&cross, &[("stroke", ink)]);
        }
    }
}

/// A line around everything on a face that serves or would do.
fn draw_outline(svg: &mut Svg, net: &Net, answer: &Answer, best: f64, face: Face) {
    let good: Vec<Area> = answer
        .map
        .cells
        .iter()
        .filter(|cell| cell.face == face && matches!(Use::of(cell, best), Use::AsGood | Use::WouldDo))
        .map(|cell| net.rectangle(face, cell.from, cell.size))
        .collect();
    for area in &good {
        let Area { min, max } = *area;
        let corners = [min, Vec2::new(max.x, min.y), max, Vec2::new(min.x, max.y)];
        for (index, from) in corners.into_iter().enumerate() {
            let to = corners[(index + 1) % 4];
            let middle = 0.5 * (from + to);
            let beyond = middle + (middle - area.centre()).normalize_or_zero() * 2.0;
            if !good.iter().any(|other| other.has(beyond)) {
                svg.line(from, to, &EDGE);
            }
        }
    }
}

const EDGE: [(&str, &str); 3] = [
    ("stroke", ink::INK),
    ("stroke-width", "2.4"),
    ("stroke-linecap", "square"),
];

/// What a piece says when it is touched, in the lines kept free for that.
fn draw_tip(svg: &mut Svg, reason: &str, top: f32) {
    let hidden = [
        ("class", "tip"),
        ("visibility", "hidden"),
        ("pointer-events", "none"),
        ("stroke", "none"),
        ("font-size", "14"),
    ];
    svg.start("g", &hidden);
    let size = Vec2::new(WIDTH - 2.0 * MARGIN, READING.1 * READING.0 as f32);
    svg.rectangle(Vec2::new(MARGIN, top), size, &[("fill", ink::SHEET)]);
    for (index, line) in wrap(reason, 14.0, size.x, READING.0).iter().enumerate() {
        let at = Vec2::new(MARGIN, top + 16.0 + READING.1 * index as f32);
        svg.text(at, line, &[("fill", ink::INK)]);
    }
    svg.end();
}

/// Where a piece is, what it is good for and why, with its points and the zoom that does best.
fn reason(room: &BoxRoom, cell: &MapCell, used: Use, lengths: Lengths) -> String {
    let points = if cell.points.is_finite() {
        format!("{} points off the ask, ", plain(cell.points, 1))
    } else {
        String::new()
    };
    format!(
        "{}: {}. {}. {points}zoom {}; light {}.",
        place_words(room, cell.face, cell.target, lengths),
        used.words(),
        sentence(&clean(&lengths.reword(&cell.why))),
        plain(cell.zoom_mm, 0),
        from_nose(cell.azimuth_deg, cell.elevation_deg)
    )
}

/// Words with a capital first and no full stop.
fn sentence(words: &str) -> String {
    let words = words.trim().trim_end_matches('.');
    let mut letters = words.chars();
    letters
        .next()
        .map(|first| first.to_uppercase().chain(letters).collect())
        .unwrap_or_default()
}

/// "left wall, 2.2 m up, 1.4 m from the wall behind the camera".
fn place_words(room: &BoxRoom, face: Face, point: Vec3, lengths: Lengths) -> String {
    let about = |metres: f32| lengths.about(f64::from(metres.max(0.0)));
    let along = match face {
        Face::BehindCamera | Face::BehindSitter => sideways(room, point, lengths),
        _ => format!("{} from the wall behind the camera", about(point.y)),
    };
    match face {
        Face::Ceiling | Face::Floor => {
            format!("{}, {}, {along}", face.words(), sideways(room, point, lengths))
        }
        _ => format!("{}, {} up, {along}", face.words(), about(point.z)),
    }
}

/// The distance from the nearer side wall.
fn sideways(room: &BoxRoom, point: Vec3, lengths: Lengths) -> String {
    let (metres, side) = if point.x <= 0.5 * room.size.x {
        (point.x, "left")
    } else {
        (room.size.x - point.x, "right")
    };
    format!(
        "{} from the {side} wall",
        lengths.about(f64::from(metres.max(0.0)))
    )
}

const WINDOW: [(&str, &str); 3] = [("fill", "none"), ("stroke", ink::INK), ("stroke-width", "2")];
const DOORWAY: [(&str, &str); 4] = [
    ("fill", "none"),
    ("stroke", ink::INK),
    ("stroke-width", "2"),
    ("stroke-dasharray", "6 4"),
];

fn draw_opening(svg: &mut Svg, net: &Net, opening: &Opening) {
    outline_opening(
        svg,
        net.rectangle(opening.face, opening.from, opening.size),
        opening.kind,
    );
}

/// A window has a cross of bars; a doorway is an open outline.
fn outline_opening(svg: &mut Svg, area: Area, kind: OpeningKind) {
    // A dark line around the light one keeps it visible on the lightest shades.
    let around = [("fill", "none"), ("stroke", ink::SHEET), ("stroke-width", "5")];
    svg.rectangle(area.min, area.size(), &around);
    match kind {
        OpeningKind::Window => {
            let centre = area.centre();
            let bar = [("stroke", ink::INK), ("stroke-width", "1")];
            svg.line(
                Vec2::new(centre.x, area.min.y),
                Vec2::new(centre.x, area.max.y),
                &bar,
            );
            svg.line(
                Vec2::new(area.min.x, centre.y),
                Vec2::new(area.max.x, centre.y),
                &bar,
            );
            svg.rectangle(area.min, area.size(), &WINDOW);
        }
        OpeningKind::Doorway => svg.rectangle(area.min, area.size(), &DOORWAY),
    }
}

/// Who and what stands on the floor, from above.
fn draw_floor(
    svg: &mut Svg,
    net: &Net,
    job: &Job,
    answer: &Answer,
    lengths: Lengths,
    labels: &mut Labels,
) {
    let view = plan::View::whole(net.area(Face::Floor), net.scale, net.room.size.truncate());
    for block in &job.place.blocks {
        plan::draw_block(svg, &view, block);
    }
    for panel in &job.place.panels {
        plan::draw_board(svg, &view, panel);
    }
    plan::draw_camera(svg, &view, job, labels);
    let numbered = plan::numbered(job);
    for (index, sitter) in job.sitters.iter().enumerate().rev() {
        plan::draw_sitter(svg, &view, sitter, index, numbered);
        let size = Vec2::splat(2.0 * plan::body_radius(&view));
        labels.take(Area::around(view.at(sitter.stand), size));
    }
    if let Some(Carrier::Board(board)) = LightPath::new(job, answer).map(|path| path.carrier) {
        plan::draw_board(svg, &view, &board);
        let words = format!("{}, {} up", shorten(&board.name, 22), lengths.exact(f64::from(board.centre.z)));
        labels.near(view.at(board.centre), 12.0, &words, Hand::PLAIN);
    }
    let flash = answer.aim.flash;
    let on_camera = flash.distance(job.viewpoint.position) < 0.4;
    if flash.is_finite() {
        plan::draw_flash(svg, view.at(flash));
        labels.take(Area::around(view.at(flash), Vec2::splat(18.0)));
    }
    let up = lengths.exact(f64::from(flash.z));
    if on_camera {
        let wordings = [&*format!("camera, flash {up} up"), "camera"];
        labels.near_first_that_fits(view.at(job.viewpoint.position), 17.0, &wordings, Hand::PLAIN);
    } else {
        labels.near(view.at(job.viewpoint.position), 17.0, "camera", Hand::PLAIN);
        let wordings = [&*format!("flash, {up} up"), "flash"];
        labels.near_first_that_fits(view.at(flash), 11.0, &wordings, Hand::LIGHT);
    }
    if numbered {
        return;
    }
    for (index, sitter) in job.sitters.iter().enumerate() {
        let hand = if index == 0 { Hand::STRONG } else { Hand::PLAIN };
        let gap = plan::body_radius(&view) + 4.0;
        labels.near(view.at(sitter.stand), gap, &shorten(&sitter.name, 24), hand);
    }
}

/// The face of the room that an aim is at, where it is at one.
fn face_of(aim: &Aim) -> Option<Face> {
    match aim.route {
        Route::Bounce { face, .. } if aim.target.is_finite() => Some(face),
        _ => None,
    }
}

/// The aims of the answer and of its alternatives, where they are on a face of the room.
fn draw_aims(svg: &mut Svg, net: &Net, answer: &Answer) {
    for (index, other) in answer.alternatives.iter().enumerate() {
        if let Some(face) = face_of(&other.aim) {
            draw_other_aim(svg, net.at(face, other.aim.target), index);
        }
    }
    if let Some(face) = face_of(&answer.aim) {
        draw_aim(svg, net.at(face, answer.aim.target));
    }
}

/// The answer's aim: two rings and four strokes, light on dark, larger than any mark.
fn draw_aim(svg: &mut Svg, at: Vec2) {
    for (colour, wide) in [(ink::SHEET, "7"), (ink::INK, "2.6")] {
        let style = [("fill", "none"), ("stroke", colour), ("stroke-width", wide)];
        svg.circle(at, 13.0, &style);
        for way in [Vec2::X, Vec2::Y, Vec2::NEG_X, Vec2::NEG_Y] {
            svg.line(at + way * 9.0, at + way * 20.0, &style);
        }
    }
    svg.circle(
        at,
        3.4,
        &[("fill", ink::INK), ("stroke", ink::SHEET), ("stroke-width", "2")],
    );
}

/// Another answer's aim: a numbered disc.
fn draw_other_aim(svg: &mut Svg, at: Vec2, index: usize) {
    svg.circle(
        at,
        9.0,
        &[("fill", ink::SHEET), ("stroke", ink::INK), ("stroke-width", "1.6")],
    );
    svg.text(
        at + Vec2::new(0.0, 4.3),
        &(index + 1).to_string(),
        &[
            ("fill", ink::INK),
            ("font-size", "12"),
            ("font-weight", "600"),
            ("text-anchor", "middle"),
        ],
    );
}

/// Name of a face, and which way is up on it.
fn face_words(face: Face) -> (&'static str, &'static str) {
    let up = match face {
        Face::Left => "up is →",
        Face::Right => "up is ←",
        Face::BehindCamera => "up is ↓",
        Face::BehindSitter => "up is ↑",
        Face::Ceiling => "from below",
        Face::Floor => "from above",
    };
    (face.words(), up)
}

/// Every face has its name above it.
fn name_faces(svg: &mut Svg, net: &Net) {
    for face in Face::ALL {
        let area = net.area(face);
        let (name, up) = face_words(face);
        let side = matches!(face, Face::Left | Face::Right);
        // The names of the side walls stand in two lines, because there is nothing above these walls.
        let (words, lines) = if side {
            (name.to_owned(), vec![up])
        } else {
            (format!("{name}, {up}"), Vec::new())
        };
        let narrow = text_width(&words, 14.0) > area.size().x;
        let (x, anchor) = if narrow && face == Face::BehindSitter {
            (area.max.x, "end")
        } else {
            (area.centre().x, "middle")
        };
        let words = if narrow && matches!(face, Face::Ceiling | Face::Floor) {
            name
        } else {
            &*words
        };
        let mut y = area.min.y - 10.0 - 18.0 * lines.len() as f32;
        let style = [
            ("fill", ink::INK),
            ("font-size", "14"),
            ("font-weight", "600"),
            ("text-anchor", anchor),
        ];
        svg.text(Vec2::new(x, y), words, &style);
        for line in lines {
            y += 18.0;
            svg.text(
                Vec2::new(x, y),
                line,
                &[("fill", ink::SOFT), ("font-size", "13"), ("text-anchor", anchor)],
            );
        }
    }
}

/// The key beside the lower half of the map.
struct Key<'a> {
    svg: &'a mut Svg,
    left: f32,
    width: f32,
    y: f32,
}

impl Key<'_> {
    fn heading(&mut self, words: &str) {
        self.y += 8.0;
        self.svg.text(
            Vec2::new(self.left, self.y),
            words,
            &[("fill", ink::SOFT), ("font-size", "14"), ("font-weight", "600")],
        );
        self.y += 26.0;
    }

    /// A sample with its words; the sample is drawn around the given point.
    fn row(&mut self, words: &str, sample: impl FnOnce(&mut Svg, Vec2)) {
        let lines = wrap(words, 13.0, self.width - 44.0, 4);
        sample(self.svg, Vec2::new(self.left + 15.0, self.y - 4.0));
        for line in &lines {
            self.svg.text(
                Vec2::new(self.left + 44.0, self.y),
                line,
                &[("fill", ink::INK), ("font-size", "13")],
            );
            self.y += 18.0;
        }
        self.y += 12.0;
    }

    fn note(&mut self, words: &str) {
        for line in wrap(words, 13.0, self.width, 8) {
            self.svg.text(
                Vec2::new(self.left, self.y),
                &line,
                &[("fill", ink::SOFT), ("font-size", "13")],
            );
            self.y += 18.0;
        }
        self.y += 10.0;
    }
}

/// Draws the key; returns where it ends.
fn draw_key(
    svg: &mut Svg,
    net: &Net,
    job: &Job,
    answer: &Answer,
    best: f64,
    left_over: &[String],
) -> f32 {
    let (front, right) = (net.area(Face::BehindSitter), net.area(Face::Right));
    let left = front.max.x + KEY.1;
    let mut key = Key {
        svg,
        left,
        width: WIDTH - MARGIN - left,
        y: right.max.y + 44.0,
    };
    key.heading("Aiming there");
    key_of_uses(&mut key, answer, best);
    key_of_shades(&mut key);
    key.heading("In the room");
    key.y += 8.0;
    key_of_marks(&mut key, job, answer);
    if plan::numbered(job) {
        let names: Vec<String> = job
            .sitters
            .iter()
            .enumerate()
            .map(|(index, sitter)| format!("{} {}", index + 1, shorten(&sitter.name, 24)))
            .collect();
        key.note(&names.join(" · "));
    }
    if !left_over.is_empty() {
        key.note(&format!("Not named for want of space: {}.", left_over.join("; ")));
    }
    key.y
}

fn key_of_uses(key: &mut Key, answer: &Answer, best: f64) {
    for used in Use::ALL {
        let count = answer
            .map
            .cells
            .iter()
            .filter(|cell| Use::of(cell, best) == used)
            .count();
        let words = match count {
            0 => format!("{}: nowhere", used.words()),
            _ => used.words().to_owned(),
        };
        key.row(&words, |svg, at| {
            let style = [("fill", "none"), ("stroke", ink::SHEET), ("stroke-width", "1.2")];
            svg.start("g", &style);
            let area = Area::around(at, Vec2::new(30.0, 24.0));
            draw_piece(svg, area, used.sample_points(), used);
            svg.end();
        });
    }
    key.row("the line around all that would do", |svg, at| {
        svg.line(at - Vec2::X * 14.0, at + Vec2::X * 14.0, &EDGE);
    });
    key.row("not from here: hidden, or too slanting", |svg, at| {
        let area = Area::around(at, Vec2::new(30.0, 24.0));
        svg.rectangle(area.min, area.size(), &AWAY);
    });
}

/// The shades with their points.
fn key_of_shades(key: &mut Key) {
    let step = (key.width / SHADES.len() as f32).min(46.0);
    let top = key.y - 10.0;
    for (index, (points, colour)) in SHADES.into_iter().enumerate() {
        let corner = Vec2::new(key.left + step * index as f32, top);
        key.svg.rectangle(
            corner,
            Vec2::new(step, 16.0),
            &[("fill", &hex(colour)), ("stroke", ink::SHEET)],
        );
        key.svg.text(
            corner + Vec2::new(0.5 * step, 32.0),
            &plain(points, if points.fract() > 0.0 { 1 } else { 0 }),
            &[("fill", ink::SOFT), ("font-size", "12"), ("text-anchor", "middle")],
        );
    }
    key.y = top + 52.0;
    key.note("points off the ask: 0 is what was asked for, 1 is about one clear fault");
    key.y += 6.0;
}

fn key_of_marks(key: &mut Key, job: &Job, answer: &Answer) {
    match face_of(&answer.aim) {
        Some(_) => {
            key.row("the answer aims here", draw_aim);
            key.y += 8.0;
        }
        None => key.note(&format!(
            "The answer aims at no face of the room: {}.",
            way_words(&answer.aim.route)
        )),
    }
    for (index, other) in answer.alternatives.iter().enumerate() {
        let name = shorten(&other.name, 60);
        if face_of(&other.aim).is_some() {
            key.row(&format!("another answer: {name}"), |svg, at| {
                draw_other_aim(svg, at, index);
            });
        } else {
            key.note(&format!("Another answer, at no face of the room: {name}."));
        }
    }
    key.row("the flash, seen from above", plan::draw_flash);
    let has = |kind| job.place.openings.iter().any(|opening| opening.kind == kind);
    for (kind, words) in [(OpeningKind::Window, "window"), (OpeningKind::Doorway, "doorway")] {
        if has(kind) {
            key.row(words, |svg, at| {
                outline_opening(svg, Area::around(at, Vec2::new(28.0, 20.0)), kind);
            });
        }
    }
}

/// What is aimed at that is no face of the room.
fn way_words(route: &Route) -> String {
    match route {
        Route::Bounce { face, .. } => face.words().to_owned(),
        Route::Standing { name } => shorten(name, 40),
        Route::HeldBoard { name, .. } => format!("{}, held", shorten(name, 40)),
        Route::Direct => "straight at the face".to_owned(),
    }
}

/// What someone who does not see the map is told: for each face how many pieces are good for what, and the best.
fn description(job: &Job, answer: &Answer, best: f64) -> String {
    let mut words = String::from("The six faces of the room folded flat, each piece with how good it is to aim there.");
    for face in Face::ALL {
        let cells: Vec<&MapCell> = answer.map.cells.iter().filter(|cell| cell.face == face).collect();
        let counts: Vec<String> = Use::ALL
            .into_iter()
            .filter_map(|used| {
                let count = cells.iter().filter(|cell| Use::of(cell, best) == used).count();
                (count > 0).then(|| format!("{count} {}", used.words()))
            })
            .collect();
        let counts = if counts.is_empty() {
            "not from here".to_owned()
        } else {
            counts.join(", ")
        };
        words.push_str(&format!(" {}: {counts}.", sentence(face.words())));
    }
    words.push_str(&format!(
        " The answer aims at: {}. {} on the floor.",
        way_words(&answer.aim.route),
        match job.sitters.len() {
            1 => "Camera and sitter are marked".to_owned(),
            more => format!("Camera and {more} sitters are marked"),
        }
    ));
    words
}

#[cfg(test)]
mod tests {
    use super::*;
    use colour::Spectrum;
    use scene::Material;

    fn room() -> BoxRoom {
        BoxRoom::uniform([4.0, 5.0, 2.5], Material::matt("white", Spectrum::splat(0.8)))
    }

    #[test]
    fn faces_meet_along_the_edges_at_which_they_are_folded() {
        let room = room();
        let net = Net::new(&room, 100.0);
        let gap = |a: Face, b: Face, point: Vec3| (net.at(a, point) - net.at(b, point)).abs();
        let check = |a, b, point: Vec3, expected: Vec2| {
            let found = gap(a, b, point);
            assert!(found.abs_diff_eq(expected, 0.01), "{a:?} {b:?}: {found}");
        };
        let (side, above) = (Vec2::new(SIDE_GAP, 0.0), Vec2::new(0.0, NAME_GAP));
        check(Face::Left, Face::Ceiling, Vec3::new(0.0, 1.7, 2.5), side);
        check(Face::Right, Face::Ceiling, Vec3::new(4.0, 1.7, 2.5), side);
        check(Face::BehindCamera, Face::Ceiling, Vec3::new(1.3, 0.0, 2.5), above);
        check(Face::BehindSitter, Face::Ceiling, Vec3::new(1.3, 5.0, 2.5), above);
        check(Face::BehindSitter, Face::Floor, Vec3::new(1.3, 5.0, 0.0), above);
    }

    #[test]
    fn no_two_faces_overlap_and_all_have_their_true_size() {
        let room = room();
        let net = Net::new(&room, 100.0);
        for (index, face) in Face::ALL.into_iter().enumerate() {
            let area = net.area(face);
            let (_, a, b) = room.face_frame(face);
            let true_area = a.length() * b.length() * net.scale * net.scale;
            assert!((area.size().element_product() / true_area - 1.0).abs() < 1e-3, "{face:?}");
            for other in &Face::ALL[index + 1..] {
                let other_area = net.area(*other);
                let apart = area.max.cmple(other_area.min).any() || other_area.max.cmple(area.min).any();
                assert!(apart, "{face:?} lies over {other:?}");
            }
        }
    }

    #[test]
    fn shades_darken_with_every_point_and_marks_stand_out() {
        // Relative luminance and the least contrast of 3:1 for graphics, after WCAG 2.2 (W3C 2023).
        let luminance = |[r, g, b]: [f64; 3]| {
            let part = |value: f64| colour::decode_srgb(value / 255.0);
            0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b)
        };
        let ink_luminance = |name: &str| {
            let part = |at: usize| f64::from(u8::from_str_radix(&name[at..at + 2], 16).expect("hexadecimal"));
            luminance([part(1), part(3), part(5)])
        };
        let mut last = f64::INFINITY;
        for step in 0..=40 {
            let colour = shade(0.5 * f64::from(step));
            let light = luminance(colour);
            assert!(light < last, "{step}: {light} after {last}");
            last = light;
            let mark = ink_luminance(ink_on(colour));
            let contrast = (light.max(mark) + 0.05) / (light.min(mark) + 0.05);
            assert!(contrast >= 3.0, "{step}: {contrast}");
        }
        assert_eq!(shade(f64::NAN), SHADES[5].1);
    }
}
