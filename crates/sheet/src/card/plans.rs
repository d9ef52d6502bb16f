//! The two drawings of a card: from above and from the side, small, with large words, on any ground.

use crate::drawing::{definitions, description};
use crate::label::Area;
use crate::path::LightPath;
use crate::svg::{Ground, Svg};
use crate::symbols::lit_pattern;
use crate::voice::Voice;
use crate::wording::on_drawings;
use crate::{plan, section};
use answer::{Answer, Job};
use glam::Vec2;

/// Room for the plan in pixels, so that it is read on a phone without being enlarged.
const PLAN: Vec2 = Vec2::new(350.0, 400.0);
/// Room for the side view.
const SIDE: Vec2 = Vec2::new(350.0, 260.0);

/// Drawings that are drawn when it is known on what ground.
#[derive(Clone, Debug)]
pub(super) struct Plans {
    job: Box<Job>,
    answer: Box<Answer>,
    voice: Voice,
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
    pub(super) fn new(job: &Job, answer: &Answer, voice: Voice) -> Self {
        Self {
            job: Box::new(job.clone()),
            answer: Box::new(answer.clone()),
            voice,
        }
    }

    /// The place from above.
    pub(super) fn above(&self, ground: &Ground) -> Drawn {
        let (job, answer) = (&*self.job, &*self.answer);
        let path = LightPath::new(job, answer);
        let view = plan::View::new(job, path.as_ref(), Area::new(Vec2::ZERO, PLAN));
        let mut part = Svg::part_on(ground.clone());
        definitions(&mut part, &view);
        plan::draw(&mut part, &view, job, Some(answer), path.as_ref(), self.voice);
        Drawn {
            part,
            size: view.outer.max,
            title: on_drawings::from_above(self.voice),
            description: description(job, Some(answer), self.voice),
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
        section::draw(&mut part, &view, job, Some(answer), path.as_ref(), self.voice);
        Drawn {
            part,
            size: view.outer.max,
            title: on_drawings::from_the_side(self.voice, true),
            description: on_drawings::side_described(self.voice).to_owned(),
        }
    }
}
