//! Five lines for whoever helps: where to stand, how high, where to point, what to hold, what to watch.

use crate::path::on_camera;
use crate::words::{Lengths, clean, clock, shorten};
use glam::Vec3;
use light::HeadDress;
use solver::{Answer, Job, Route};

/// One pace of someone who does not count them, in metres (common practice).
const PACE_M: f64 = 0.75;
/// A hand held flat, in metres (common practice).
const HAND_M: f64 = 0.1;

/// One line: a word for the eye to find, and what it says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    pub(super) head: &'static str,
    pub(super) words: String,
}

/// What the assistant looks after.
enum Charge {
    /// A board in their hands.
    Board,
    /// The flash, in their hands.
    Flash,
    /// The flash on a stand.
    Stand,
    /// Nothing to hold: the flash is on the camera.
    Way,
}

pub(super) fn lines(job: &Job, answer: &Answer, lengths: Lengths) -> Vec<Line> {
    let scene = Scene { job, answer, lengths };
    let words = match scene.charge() {
        Charge::Board => scene.with_a_board(),
        Charge::Flash => scene.with_the_flash("You stand", "The flash in your hand"),
        Charge::Stand => scene.with_the_flash("The light stand is", "The flash on its stand"),
        Charge::Way => scene.beside_the_camera(),
    };
    ["Stand", "Height", "Point", "Hold", "Watch"]
        .into_iter()
        .zip(words)
        .map(|(head, words)| Line {
            head,
            words: sentence(&clean(&words)),
        })
        .collect()
}

struct Scene<'a> {
    job: &'a Job,
    answer: &'a Answer,
    lengths: Lengths,
}

impl Scene<'_> {
    fn charge(&self) -> Charge {
        let on_camera = self.on_camera();
        match self.answer.aim.route {
            Route::HeldBoard { .. } => Charge::Board,
            _ if on_camera => Charge::Way,
            _ if self.job.bag.stand => Charge::Stand,
            _ => Charge::Flash,
        }
    }

    fn on_camera(&self) -> bool {
        on_camera(self.answer.aim.flash, self.job.viewpoint.position)
    }

    fn face(&self) -> Vec3 {
        self.job
            .sitters
            .first()
            .map_or(self.answer.aim.target, scene::Sitter::face)
    }

    fn who(&self) -> String {
        match &self.job.sitters[..] {
            [one] => shorten(&one.name, 30),
            [first, ..] => shorten(&first.name, 30),
            [] => "the sitter".to_owned(),
        }
    }

    /// "at 9 o'clock, 1.4 m (2 paces) from the sitter".
    fn spot(&self, point: Vec3) -> String {
        let from_face = (point - self.face()).with_z(0.0);
        let far = f64::from(from_face.length());
        format!(
            "at {}, {}{} from {}",
            self.hour(from_face),
            self.lengths.about(far),
            paces(far),
            self.who()
        )
    }

    /// Clock hour of a direction from the sitter, with the camera at 6.
    fn hour(&self, from_face: Vec3) -> String {
        let bearing = |v: Vec3| f64::from(v.x).atan2(f64::from(v.y)).to_degrees();
        let to_camera = self.job.viewpoint.position - self.face();
        clock((6.0 + (bearing(from_face) - bearing(to_camera)) / 30.0).rem_euclid(12.0))
    }

    /// "1.9 m up, 4 hands above the eyes".
    fn height(&self, z: f32) -> String {
        let above = f64::from(z - self.face().z);
        let hands = (above.abs() / HAND_M).round();
        let up = self.lengths.about(f64::from(z));
        let side = if above < 0.0 { "below" } else { "above" };
        match hands {
            0.0 => format!("{up} up, level with the eyes of {}", self.who()),
            1.0 => format!("{up} up, a hand {side} the eyes of {}", self.who()),
            hands => format!("{up} up, {hands:.0} hands {side} the eyes of {}", self.who()),
        }
    }

    /// The lit surface: "the left wall, 1.9 m up".
    fn lit(&self) -> String {
        let up = self.lengths.about(f64::from(self.answer.aim.target.z));
        match &self.answer.aim.route {
            Route::Bounce { face, corner_with } => {
                let corner = corner_with.map_or(String::new(), |other| {
                    format!(" where it meets the {}", other.words())
                });
                match face {
                    scene::Face::Ceiling | scene::Face::Floor => format!("the {}{corner}", face.words()),
                    _ => format!("the {}{corner}, {up} up", face.words()),
                }
            }
            Route::Standing { name } | Route::HeldBoard { name, .. } => shorten(name, 40),
            Route::Direct => match self.job.sitters.len() {
                0 | 1 => format!("the face of {}", self.who()),
                _ => "the middle of the faces".to_owned(),
            },
        }
    }

    /// "with a full CTO on it and the umbrella open".
    fn dress(&self) -> String {
        let gel = self
            .answer
            .colouring
            .gel
            .as_ref()
            .map(|worn| format!("the gel {} on it", shorten(worn.gel.name(), 30)));
        let dress = match self.answer.flash.dress {
            HeadDress::Bare => None,
            HeadDress::Dome => Some("the dome on it".to_owned()),
            HeadDress::BounceCard => Some("its card up".to_owned()),
            HeadDress::Umbrella(_) => Some("the umbrella before it".to_owned()),
            HeadDress::Softbox(_) => Some("the softbox before it".to_owned()),
        };
        let parts: Vec<String> = gel.into_iter().chain(dress).collect();
        match parts.is_empty() {
            true => String::new(),
            false => format!(", {}", parts.join(" and ")),
        }
    }

    fn with_a_board(&self) -> [String; 5] {
        let Route::HeldBoard {
            board,
            name,
            centre,
            to_face_m,
            ..
        } = &self.answer.aim.route
        else {
            return self.beside_the_camera();
        };
        let name = shorten(name, 40);
        let size = self.job.bag.boards.get(*board).map_or(String::new(), |board| {
            let [w, h] = [board.size.x, board.size.y].map(|side| self.lengths.about(f64::from(side)));
            format!(", {w} wide and {h} high")
        });
        let to_face = self.lengths.about(*to_face_m);
        [
            format!("Behind the board, which is {}.", self.spot(*centre)),
            format!("Middle of the board {}.", self.height(centre.z)),
            format!("Turn the board half way between the flash and the face; {to_face} from board to face."),
            format!("{name}{size}: hands and sleeves behind its edge."),
            self.watch("Keep the board out of the picture and the distance to the face as it is."),
        ]
    }

    fn with_the_flash(&self, stand: &str, held: &str) -> [String; 5] {
        let aim = &self.answer.aim;
        let zoom = self.answer.flash.zoom_mm;
        [
            format!("{stand} {}.", self.spot(aim.flash)),
            format!("Flash {}.", self.height(aim.flash.z)),
            match aim.route {
                Route::Direct => format!("At {}, {} away.", self.lit(), self.lengths.about(aim.legs_m[0])),
                _ => format!("At {}; never at a face.", self.lit()),
            },
            format!("{held}{}, zoom {zoom:.0}.", self.dress()),
            match aim.route {
                Route::Direct => self.watch("When the sitter moves, move with them: the distance stays."),
                _ => self.watch("Nobody between flash, lit spot and sitter."),
            },
        ]
    }

    fn beside_the_camera(&self) -> [String; 5] {
        let aim = &self.answer.aim;
        let side = if aim.turn_deg < 0.0 { "right" } else { "left" };
        let direct = matches!(aim.route, Route::Direct);
        let stand = match direct {
            true => "Beside the photographer, behind the lens.".to_owned(),
            false => format!("Behind the photographer’s {side} shoulder: the flash goes the other way."),
        };
        let height = match direct {
            true => "Nothing of yours in front of the flash.".to_owned(),
            false => format!("The beam goes {}: keep head and arms out of it.", self.tilt()),
        };
        let hold = match aim.flagged {
            true => "A black card beside the head of the flash, on the sitter’s side.".to_owned(),
            false => "White paper before the face for the first frame, then away.".to_owned(),
        };
        [
            stand,
            height,
            format!("The flash on the camera{} goes to {}.", self.dress(), self.lit()),
            hold,
            match direct {
                true => self.watch("Wait for the ready light before you give the sign."),
                false => self.watch("Nobody between flash, lit spot and sitter."),
            },
        ]
    }

    fn tilt(&self) -> String {
        let about = (self.answer.aim.tilt_deg.abs() / 5.0).round() * 5.0;
        let side = if self.answer.aim.tilt_deg < 0.0 {
            "down"
        } else {
            "up"
        };
        match about {
            a if a < 5.0 => "level".to_owned(),
            a => format!("{a:.0}° {side}"),
        }
    }

    /// What goes wrong first: spill on the face, where there is a flag against it.
    fn watch(&self, otherwise: &str) -> String {
        match self.answer.aim.flagged {
            true => {
                "No light straight from the flash on the face: the black card stays between them.".to_owned()
            }
            false => otherwise.to_owned(),
        }
    }
}

/// With a capital at its head, where a name may have brought none.
fn sentence(words: &str) -> String {
    let mut rest = words.chars();
    rest.next()
        .map_or(String::new(), |first| first.to_uppercase().chain(rest).collect())
}

/// " (2 paces)", to half a pace; nothing for less than one.
fn paces(metres: f64) -> String {
    let halves = (2.0 * metres / PACE_M).round() as u64;
    match (halves / 2, halves % 2) {
        (0, _) => String::new(),
        (1, 0) => " (a pace)".to_owned(),
        (whole, 0) => format!(" ({whole} paces)"),
        (whole, _) => format!(" ({whole}½ paces)"),
    }
}

#[cfg(test)]
mod tests {
    use super::paces;

    #[test]
    fn distances_are_paced_to_the_half() {
        let check = |metres: f64, expected: &str| assert_eq!(paces(metres), expected);
        check(0.3, "");
        check(0.75, " (a pace)");
        check(1.2, " (1½ paces)");
        check(1.5, " (2 paces)");
        check(4.6, " (6 paces)");
    }
}
