//! Which of the light things in the picture burns out first.
//!
//! White paint of 0.85 lies 2.2 stops above mid-grey where it gets as much light as an exactly exposed face. Light things that
//! get more than the face, a dress that the flash is nearer to, come close to where the sensor saturates.

use crate::explain::in_picture::InPicture;
use crate::place::meters::off_surface;
use crate::practice::{BURNS_OUT_TOLD, LIGHT_THING};
use answer::{Carrier, LightThing, Note};
use camera::{MID_GREY, RAW_CLIP};
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use scene::ObjectKind;
use units::Stops;

/// Columns and rows of looks through the frame that find light things.
const LOOKS: [usize; 2] = [18, 24];
/// Looks that a thing must fill before it counts: two in a hundred of the frame.
const LEAST_SEEN: usize = 9;
/// Points of each thing that are read, at least: no more than the looks that it must fill.
const READ: usize = 6;

/// A point of a light thing.
struct Point {
    at: Vec3,
    normal: Vec3,
    reflectance: f64,
}

/// A note on the light thing whose brightest part comes nearest to where detail ends.
pub(crate) fn burns_first(picture: &InPicture<'_>) -> Option<Note> {
    let things = light_things(picture);
    let over = |point: &Point| picture.tone(point.at, point.normal, point.reflectance);
    let brightest = |points: &[Point]| points.par_iter().map(over).reduce(|| f64::MIN, f64::max);
    let each = things
        .into_iter()
        .map(|(thing, points)| (thing, brightest(&points)));
    let burns_out = (RAW_CLIP / MID_GREY).log2();
    let told = each.filter(|(thing, over)| {
        let [worn, other] = BURNS_OUT_TOLD;
        let near = match thing {
            LightThing::Surface { .. } => other,
            LightThing::Top { .. } | LightThing::Trousers { .. } | LightThing::Cap { .. } => worn,
        };
        burns_out - over < near
    });
    let (thing, over) = told.max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(Note::BurnsFirst {
        thing,
        over_grey: Stops(over),
        left: Stops(burns_out - over),
    })
}

/// The light things that the camera sees, each with points spread over it.
fn light_things(picture: &InPicture<'_>) -> Vec<(LightThing, Vec<Point>)> {
    let view = &picture.job.viewpoint;
    let [columns, rows] = LOOKS;
    let mut things: Vec<(LightThing, Vec<Point>)> = Vec::new();
    for look in 0..columns * rows {
        let at = Vec2::new((look / rows) as f32 + 0.5, (look % rows) as f32 + 0.5)
            / Vec2::new(columns as f32, rows as f32);
        let direction = view.direction(at, view.aspect());
        let Some((thing, point)) = light_thing(picture, view.position, direction) else {
            continue;
        };
        match things.iter_mut().find(|(known, _)| *known == thing) {
            Some((_, points)) => points.push(point),
            None => things.push((thing, vec![point])),
        }
    }
    // A background that was asked to be brighter than the face may burn out.
    let meant = picture
        .job
        .ask
        .background
        .is_some_and(|asked| asked.value() > 0.0);
    things.retain(|(thing, points)| {
        let behind = matches!(thing, LightThing::Surface { .. });
        points.len() >= LEAST_SEEN && !(meant && behind)
    });
    let spread = |points: Vec<Point>| {
        let every = points.len() / READ;
        points.into_iter().skip(every / 2).step_by(every).collect()
    };
    things
        .into_iter()
        .map(|(thing, points)| (thing, spread(points)))
        .collect()
}

/// What a look meets first, if that is a light thing: walls, furniture, boards and clothes, but nobody's skin, eyes or hair,
/// and no lamps.
fn light_thing(picture: &InPicture<'_>, from: Vec3, direction: Vec3) -> Option<(LightThing, Point)> {
    let (job, room) = (picture.job, &picture.fine.place.room);
    let hit = room.tracer.closest(from, direction)?;
    let object = &room.geometry.objects[room.geometry.object[hit.triangle as usize] as usize];
    let material = room.geometry.material_of(hit.triangle);
    let thing = match object.kind {
        ObjectKind::RoomFace(face) => LightThing::Surface {
            of: Carrier::Face { face },
        },
        ObjectKind::Panel(index) if index >= job.place.panels.len() => return None,
        ObjectKind::Opening(_) => return None,
        ObjectKind::Block(_) | ObjectKind::Panel(_) => LightThing::Surface {
            of: Carrier::Named {
                name: object.name.clone(),
            },
        },
        ObjectKind::Sitter(index) => {
            let person = &job.sitters[index];
            let sitter = (job.sitters.len() > 1).then(|| person.name.clone());
            match material.reflectance {
                colour if colour == person.colours.top => LightThing::Top { sitter },
                colour if colour == person.colours.trousers => LightThing::Trousers { sitter },
                colour if colour == person.colours.cap => LightThing::Cap { sitter },
                _ => return None,
            }
        }
    };
    let reflectance = picture.lightness(&material.reflectance);
    let (at, normal) = off_surface(room, &hit, from + direction * hit.distance, direction);
    let point = Point {
        at,
        normal,
        reflectance,
    };
    (reflectance > LIGHT_THING).then_some((thing, point))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::decided;
    use crate::judge::settings::{levels_at, picture_at};
    use crate::trials::{made_up, surface};
    use crate::ways::beams::Beams;
    use colour::Spectrum;
    use scene::BoxRoom;

    /// What burns out first in a dark room with a face two stops too bright, and how far it lies above mid-grey: the top of a
    /// sitter, of this reflectance.
    fn first(reflectance: f32) -> Option<(LightThing, f64)> {
        let mut job = made_up::job();
        job.place.room = BoxRoom::uniform(job.place.room.size.into(), surface("dark wood"));
        job.sitters[0].colours.top = Spectrum::splat(reflectance);
        job.sitters[0].colours.trousers = Spectrum::splat(0.04);
        let beams = Beams::of(&job).unwrap();
        decided(&job, &beams, 1, &|_| true, |decision| {
            let (chosen, fine) = (&decision.finished, &decision.fine);
            let levels = levels_at(&decision.scout, chosen.way.light.dose(), &chosen.settings);
            Ok(burns_first(&InPicture {
                job: &job,
                fine,
                finished: picture_at(&decision.scout, &chosen.way, &levels),
                total: Stops(2.0),
            }))
        })
        .unwrap()
        .map(|note| match note {
            Note::BurnsFirst { thing, over_grey, .. } => (thing, over_grey.value()),
            other => panic!("{other:?}"),
        })
    }

    #[test]
    fn a_white_top_lies_above_a_grey_one_by_its_reflectance() {
        assert_eq!(first(0.4), None);
        let [(thing, white), (_, grey)] = [0.9, 0.6].map(|reflectance| first(reflectance).unwrap());
        assert_eq!(thing, LightThing::Top { sitter: None });
        // Exposure was the same; what the top throws on itself by way of the room is all that may add to it.
        assert!((white - grey - 1.5f64.log2()).abs() < 0.1, "{white} and {grey}");
        // The chest gets about what the face gets.
        let as_lit_as_the_face = 2.0 + 5.0f64.log2();
        assert!((white - as_lit_as_the_face).abs() < 1.5, "{white}");
    }
}
