//! The two drawings of a card: from above and from the side, small, with large words, on any ground.

use crate::drawing::{definitions, description, lit_pattern};
use crate::label::Area;
use crate::path::LightPath;
use crate::svg::{Ground, Svg};
use crate::words::Lengths;
use crate::{plan, section};
use glam::Vec2;
use solver::{Answer, Job};

/// Room for the plan in pixels, so that it is read on a phone without being enlarged.
const PLAN: Vec2 = Vec2::new(350.0, 400.0);
/// Room for the side view.
const SIDE: Vec2 = Vec2::new(350.0, 260.0);

/// Drawings that are drawn when it is known on what ground.
#[derive(Clone, Debug)]
pub(super) struct Plans {
    job: Box<Job>,
    answer: Box<Answer>,
    lengths: Lengths,
}

/// A drawing, the room that it takes in pixels, and what someone who does not see it is told.
pub(super) struct Drawn {
    pub(super) part: Svg,
    pub(super) size: Vec2,
    title: &'static str,
    description: String,
}

impl Drawn {
    /// The drawing as a document by itself, its ids marked like the drawing's.
    pub(super) fn alone(self, ground: Ground) -> String {
        let mut svg = Svg::on(ground, self.size, self.title, &self.description);
        svg.append(self.part);
        svg.finish()
    }
}

impl Plans {
    /// The drawings of a job that has its people where the answer wants them.
    pub(super) fn new(job: &Job, answer: &Answer, lengths: Lengths) -> Self {
        Self {
            job: Box::new(job.clone()),
            answer: Box::new(answer.clone()),
            lengths,
        }
    }

    /// The place from above.
    pub(super) fn above(&self, ground: &Ground) -> Drawn {
        let (job, answer) = (&*self.job, &*self.answer);
        let path = LightPath::new(job, answer);
        let view = plan::View::new(job, path.as_ref(), Area::new(Vec2::ZERO, PLAN));
        let mut part = Svg::part_on(ground.clone());
        definitions(&mut part, &view);
        plan::draw(&mut part, &view, job, Some(answer), path.as_ref(), self.lengths);
        Drawn {
            part,
            size: view.outer.max,
            title: "From above",
            description: description(job, Some(answer), self.lengths),
        }
    }

    /// The light's way from the side.
    pub(super) fn side(&self, ground: &Ground) -> Drawn {
        let (job, answer) = (&*self.job, &*self.answer);
        let path = LightPath::new(job, answer);
        let view = section::View::new(job, path.as_ref(), Area::new(Vec2::ZERO, SIDE));
        let mut part = Svg::part_on(ground.clone());
        part.start("defs", &[]);
        lit_pattern(&mut part);
        part.end();
        section::draw(&mut part, &view, job, Some(answer), path.as_ref(), self.lengths);
        Drawn {
            part,
            size: view.outer.max,
            title: "From the side, along the light",
            description: "The light’s way from flash to face, with its heights and angles in true size."
                .to_owned(),
        }
    }
}
