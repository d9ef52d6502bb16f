//! Where the six faces of the room lie on the sheet, and their names.

use crate::label::Area;
use crate::svg::{Svg, ink, text_width};
use crate::voice::Voice;
use crate::wording::on_map;
use glam::{Vec2, Vec3};
use scene::{BoxRoom, Face};

/// Width of the sheet in pixels: narrow, so that words stay readable where the sheet is looked at on a phone.
pub(super) const WIDTH: f32 = 800.0;
pub(super) const MARGIN: f32 = 32.0;
/// Height that the unrolled room takes if it can.
const HEIGHT: f32 = 1040.0;
/// Space above each face of the middle column, for its name.
pub(super) const NAME_GAP: f32 = 34.0;
/// Space between the ceiling and the side walls.
const SIDE_GAP: f32 = 10.0;
/// Least width of the column of the key, and its distance from the room.
pub(super) const KEY: (f32, f32) = (292.0, 36.0);
/// A side wall is drawn at least this high, however long the room is.
const LEAST_WALL: f32 = 110.0;

/// Where each face lies on the sheet.
pub(super) struct Net<'a> {
    pub(super) room: &'a BoxRoom,
    /// Pixels per metre.
    pub(super) scale: f32,
    /// Upper left corner of the box that holds the ceiling.
    ceiling: Vec2,
}

impl<'a> Net<'a> {
    pub(super) fn new(room: &'a BoxRoom, top: f32) -> Self {
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
    pub(super) fn at(&self, face: Face, point: Vec3) -> Vec2 {
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
    pub(super) fn rectangle(&self, face: Face, from: Vec2, size: Vec2) -> Area {
        let (corner, along, up) = self.room.face_frame(face);
        let (along, up) = (along.normalize_or_zero(), up.normalize_or_zero());
        let low = corner + along * from.x + up * from.y;
        let high = low + along * size.x + up * size.y;
        let (a, b) = (self.at(face, low), self.at(face, high));
        Area::new(a.min(b), a.max(b))
    }

    pub(super) fn area(&self, face: Face) -> Area {
        let (_, along, up) = self.room.face_frame(face);
        self.rectangle(face, Vec2::ZERO, Vec2::new(along.length(), up.length()))
    }

    pub(super) fn bottom(&self) -> f32 {
        self.area(Face::Floor).max.y
    }
}

pub(super) const AWAY: [(&str, &str); 3] = [
    ("fill", "url(#away)"),
    ("stroke", ink::LINE),
    ("stroke-width", "1"),
];

pub(super) fn draw_faces(svg: &mut Svg, net: &Net) {
    for face in Face::ALL {
        let area = net.area(face);
        svg.rectangle(area.min, area.size(), &AWAY);
    }
}

/// Every face has its name above it.
pub(super) fn name_faces(svg: &mut Svg, net: &Net, voice: Voice) {
    for face in Face::ALL {
        let area = net.area(face);
        let (name, up) = on_map::face(voice, face);
        let side = matches!(face, Face::Left | Face::Right);
        // The names of the side walls stand in two lines, because there is nothing above these walls.
        let (words, lines) = if side {
            (name.clone(), vec![up])
        } else {
            (format!("{name}, {up}"), Vec::new())
        };
        let narrow = text_width(&words, 15.0) > area.size().x;
        let (x, anchor) = if narrow && face == Face::BehindSitter {
            (area.max.x, "end")
        } else {
            (area.centre().x, "middle")
        };
        let words = if narrow && matches!(face, Face::Ceiling | Face::Floor) {
            &*name
        } else {
            &*words
        };
        let mut y = area.min.y - 10.0 - 18.0 * lines.len() as f32;
        let style = [
            ("fill", ink::INK),
            ("font-size", "15"),
            ("font-weight", "600"),
            ("text-anchor", anchor),
        ];
        svg.text(Vec2::new(x, y), words, &style);
        for line in lines {
            y += 18.0;
            svg.text(
                Vec2::new(x, y),
                &line,
                &[("fill", ink::SOFT), ("font-size", "14"), ("text-anchor", anchor)],
            );
        }
    }
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
            assert!(
                (area.size().element_product() / true_area - 1.0).abs() < 1e-3,
                "{face:?}"
            );
            for other in &Face::ALL[index + 1..] {
                let other_area = net.area(*other);
                let apart = area.max.cmple(other_area.min).any() || other_area.max.cmple(area.min).any();
                assert!(apart, "{face:?} lies over {other:?}");
            }
        }
    }

    #[test]
    fn rooms_of_any_shape_stay_on_the_sheet_and_leave_space_for_the_key() {
        let white = Material::matt("white", Spectrum::splat(0.8));
        for size in [
            [4.4, 5.5, 2.6],
            [1.2, 1.2, 2.1],
            [1.2, 12.0, 2.5],
            [20.0, 20.0, 3.0],
            [8.0, 31.0, 4.2],
            [3.0, 3.0, 9.0],
            [60.0, 2.0, 2.0],
        ] {
            let room = BoxRoom::uniform(size, white.clone());
            let net = Net::new(&room, 100.0);
            for face in Face::ALL {
                let area = net.area(face);
                assert!(
                    area.min.x > MARGIN - 0.1 && area.max.x < WIDTH - MARGIN + 0.1,
                    "{size:?} {face:?}"
                );
                assert!(area.min.y > 99.9, "{size:?} {face:?}");
            }
            let key_left = net.area(Face::Floor).max.x + KEY.1;
            assert!(WIDTH - MARGIN - key_left > KEY.0 - 0.1, "{size:?}");
        }
    }
}
