//! The two drawings of a card: from above and from the side, small, with large words, on any ground.

use crate::drawing::{definitions, description};
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

/// A drawing and its size in pixels.
pub(super) struct Drawn {
    pub(super) svg: String,
    pub(super) size: Vec2,
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
    pub(super) fn above(&self, ground: Ground) -> Drawn {
        let path = LightPath::new(&self.job, &self.answer);
        let view = plan::View::new(&self.job, path.as_ref(), Area::new(Vec2::ZERO, PLAN));
        let mut body = Svg::part_on(ground.clone());
        plan::draw(&mut body, &view, &self.job, Some(&self.answer), path.as_ref(), self.lengths);
        let words = description(&self.job, Some(&self.answer), self.lengths);
        let mut svg = Svg::on(ground, view.outer.max, "From above", &words);
        definitions(&mut svg, &view);
        svg.append(body);
        Drawn {
            svg: svg.finish(),
            size: view.outer.max,
        }
    }

    /// The light's way from the side.
    pub(super) fn side(&self, ground: Ground) -> Drawn {
        let path = LightPath::new(&self.job, &self.answer);
        let view = section::View::new(&self.job, path.as_ref(), Area::new(Vec2::ZERO, SIDE));
        let mut body = Svg::part_on(ground.clone());
        section::draw(&mut body, &view, &self.job, Some(&self.answer), path.as_ref(), self.lengths);
        let words = "The light’s way from flash to face, with its heights and angles in true size.";
        let mut svg = Svg::on(ground, view.outer.max, "From the side, along the light", words);
        svg.append(body);
        Drawn {
            svg: svg.finish(),
            size: view.outer.max,
        }
    }
}
