//! The place from above.

mod light;
mod names;
mod people;
mod things;
mod view;

use crate::label::Labels;
use crate::path::LightPath;
use crate::svg::{Svg, ink};
use crate::symbols;
use crate::voice::Voice;
use answer::{Answer, Job};
use glam::Vec2;
pub(crate) use people::{draw_camera, draw_sitters, name_people, numbered};
pub(crate) use things::{draw_block, draw_board};
pub(crate) use view::View;

/// Draws the plan; returns the names that found no place.
pub(crate) fn draw(
    svg: &mut Svg,
    view: &View,
    job: &Job,
    answer: Option<&Answer>,
    path: Option<&LightPath>,
    voice: Voice,
) -> Vec<String> {
    let mut labels = Labels::new(view.inner);
    svg.rectangle(view.inner.min, view.inner.size(), &[("fill", ink::FLOOR)]);
    svg.start("g", &[("clip-path", "url(#room)")]);
    if let Some(path) = path {
        light::draw_falloff(svg, view, path);
        light::draw_beam(svg, view, job, path);
    }
    for block in &job.place.blocks {
        draw_block(svg, view, block);
    }
    svg.end();
    things::draw_walls(svg, view, job);
    for panel in &job.place.panels {
        draw_board(svg, view, panel);
    }
    if let Some(path) = path {
        light::draw_patch(svg, view, job, path);
        light::draw_path(svg, view, path, &mut labels);
    }
    people::draw_clock(svg, view, job);
    light::draw_sun(svg, view, job, voice, &mut labels);
    draw_camera(svg, view, job, &mut labels);
    draw_sitters(svg, view, job, &mut labels);
    if let Some(path) = path {
        light::draw_head(svg, view, path, voice, &mut labels);
    }
    people::name_clock(view, job, &mut labels);
    name_people(view, job, &mut labels);
    light::name_light(view, job, answer, path, voice, &mut labels);
    names::name_things(view, job, voice, &mut labels);
    if let Some(path) = path {
        light::name_falloff(view, job, path, voice, &mut labels);
    }
    let mut outside = Labels::new(view.outer);
    names::name_walls(view, job, voice, &mut outside);
    names::draw_dimensions(svg, view, voice, &mut outside);
    labels.draw(svg);
    outside.draw(svg);
    let bar = Vec2::new(view.inner.max.x, view.outer.max.y - 14.0);
    symbols::scale_bar(svg, bar, view.scale, voice);
    let mut left_over = labels.left_over().to_vec();
    left_over.extend_from_slice(outside.left_over());
    left_over
}
