//! Which of the light things in the picture burns out first.
//!
//! A surface that gets as much light as the face and is exposed as exactly as it lies above mid-grey by its reflectance alone:
//! white paint of 0.85 by 2.2 stops. Light things that get more than the face, a dress that the flash is nearer to, come close
//! to where the sensor saturates.

use crate::place::ambient::ZONE_RAYS;
use crate::place::amounts::Finished;
use crate::place::meters::off_surface;
use crate::practice::{BURNS_OUT_TOLD, LIGHT_THING};
use crate::ways::fine::Fine;
use answer::{Carrier, Job, LightThing, Note};
use camera::{MID_GREY, RAW_CLIP};
use colour::LightColour;
use glam::{Vec2, Vec3};
use rayon::prelude::*;
use scene::ObjectKind;
use transport::{Meter, Receptor, SolvedLight, Source, read_light};
use units::Stops;

/// Columns and rows of looks through the frame that find light things.
const LOOKS: [usize; 2] = [18, 24];
/// Looks that a thing must fill before it counts: two in a hundred of the frame.
const LEAST_SEEN: usize = 9;
/// Points of each thing that are read, at least: no more than the looks that it must fill.
const READ: usize = 6;

/// A point of a light thing, with how far its reflectance alone lies above mid-grey, in stops.
struct Point {
    over: f64,
    meter: Meter,
}

/// A note on the light thing whose brightest part comes nearest to where detail ends; `total` is how far the face lies over an
/// exact exposure, in stops.
pub(crate) fn burns_first(job: &Job, fine: &Fine, picture: &Finished<'_>, total: Stops) -> Option<Note> {
    let things = light_things(job, fine);
    if things.is_empty() {
        return None;
    }
    let there: Vec<SolvedLight> = fine
        .place
        .ambients
        .iter()
        .map(|there| fine.place.room.solve(&there.source))
        .collect();
    let over = |point: &Point| {
        let light = light_at(job, fine, picture, &there, point);
        point.over + total.value() + (light.max(1e-9) / picture.dome()).log2()
    };
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

/// Light at a point in the finished picture, in lx s.
fn light_at(job: &Job, fine: &Fine, picture: &Finished<'_>, there: &[SolvedLight], point: &Point) -> f64 {
    let room = &fine.place.room;
    let read = |source: &Source, light: &SolvedLight, colour: &LightColour| {
        read_light(room, source, light, &point.meter, ZONE_RAYS).dot(&colour.luminous_weights())
    };
    let flash = read(&fine.source, &fine.light, job.bag.flash.colour());
    let lights = fine.place.ambients.iter().zip(there);
    let ambient = lights.map(|(there, light)| there.scale * read(&there.source, light, &there.colour));
    f64::from(picture.sum(flash, ambient.sum()))
}

/// The light things that the camera sees, each with points spread over it.
fn light_things(job: &Job, fine: &Fine) -> Vec<(LightThing, Vec<Point>)> {
    let view = &job.viewpoint;
    let [columns, rows] = LOOKS;
    let mut things: Vec<(LightThing, Vec<Point>)> = Vec::new();
    for look in 0..columns * rows {
        let at = Vec2::new((look / rows) as f32 + 0.5, (look % rows) as f32 + 0.5)
            / Vec2::new(columns as f32, rows as f32);
        let direction = view.direction(at, view.aspect());
        let Some((thing, point)) = light_thing(job, fine, view.position, direction) else {
            continue;
        };
        match things.iter_mut().find(|(known, _)| *known == thing) {
            Some((_, points)) => points.push(point),
            None => things.push((thing, vec![point])),
        }
    }
    // A background that was asked to be brighter than the face may burn out.
    let meant = job.ask.background.is_some_and(|asked| asked.value() > 0.0);
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
fn light_thing(job: &Job, fine: &Fine, from: Vec3, direction: Vec3) -> Option<(LightThing, Point)> {
    let room = &fine.place.room;
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
    // The flash shows how light a thing is as well as any other white light.
    let weights = job.bag.flash.colour().luminous_weights();
    let white: f32 = weights.0.iter().sum();
    let reflectance = f64::from(material.reflectance.dot(&weights) / white);
    let (position, normal) = off_surface(room, &hit, from + direction * hit.distance, direction);
    let receptor = Receptor::Flat(normal);
    let point = Point {
        over: (reflectance / MID_GREY).log2(),
        meter: Meter { position, receptor },
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
            let picture = picture_at(&decision.scout, &chosen.way, &levels);
            Ok(burns_first(&job, fine, &picture, Stops(2.0)))
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
