//! A shoot as a file, in the grammar of SHOOT_FILE.md.

use crate::shoot::{
    APERTURES, AmbientWish, Bag, FACES, FlashKind, FlashPlace, Key, Level, Light, Point, Room, Shoot, Sitter,
    Skin, Sky,
};
use std::fmt::{Display, Write};

impl Shoot {
    /// The file.
    pub fn text(&self) -> String {
        let mut file = File::default();
        file.line("shoot", quoted(&self.title));
        self.room.write(&mut file);
        if let Some(sky) = &self.sky {
            sky.write(&mut file);
        }
        self.write_camera(&mut file);
        for sitter in &self.sitters {
            sitter.write(&mut file);
        }
        self.bag.write(&mut file);
        for light in &self.lights {
            light.write(&mut file);
        }
        for zone in &self.zones {
            file.part("[[zone]]");
            file.line("name", quoted(zone.name));
            file.line("reading", format!("\"EV {}\"", zone.ev));
        }
        self.write_ask(&mut file);
        file.0
    }

    fn write_camera(&self, file: &mut File) {
        let camera = &self.camera;
        file.part("[camera]");
        file.at(camera.at);
        file.line("lens", format!("\"{} mm\"", camera.lens_mm));
        file.line("sync", quoted(camera.sync));
        file.line("iso", format!("\"{} to {}\"", camera.iso[0], camera.iso[1]));
        file.line("widest", quoted(APERTURES[camera.widest]));
        if camera.on_first_face {
            file.line("aim", inline(self.face(0)));
        }
    }

    fn write_ask(&self, file: &mut File) {
        let ask = &self.ask;
        file.part("[ask]");
        file.perhaps("aperture", ask.aperture.map(|third| quoted(APERTURES[third])));
        file.perhaps("shutter", ask.shutter.map(quoted));
        file.perhaps("iso", ask.iso.map(|iso| format!("\"ISO {iso}\"")));
        file.perhaps(
            "ambient",
            ask.ambient.map(|wish| match wish {
                AmbientWish::Out => quoted("out"),
                AmbientWish::At(level) => signed_stops(level),
            }),
        );
        file.perhaps("fill", ask.fill.map(|under| signed_stops(-under)));
        if let (Some(zone), Some(level)) = (self.zones.first(), ask.zone) {
            let (name, at) = (quoted(zone.name), signed_stops(level));
            file.line("zone", format!("{{ name = {name}, at = {at} }}"));
        }
        let from = quoted(ask.side.unwrap_or("either"));
        match ask.key {
            Key::Pattern(name) => {
                file.line("key", quoted(name));
                file.line("from", from);
            }
            Key::Angles {
                azimuth,
                elevation,
                tolerance,
            } => file.line(
                "key",
                format!(
                    "{{ from = {from}, azimuth = \"{azimuth} deg\", elevation = \"{elevation} deg\", \
                     tolerance = \"{tolerance} deg\" }}"
                ),
            ),
        }
        file.line("softness", quoted(ask.softness));
        file.perhaps("ratio", ask.ratio.map(|ratio| format!("\"{ratio}:1\"")));
        file.line(
            "skin",
            match ask.skin {
                Skin::Neutral => quoted("neutral"),
                Skin::Within(mired) => format!("\"within {mired} mired\""),
                Skin::Any => quoted("any"),
            },
        );
        file.perhaps("evenness", ask.evenness.map(|stops| format!("\"{stops} stops\"")));
        file.perhaps("background", ask.background.map(signed_stops));
        file.line("in_hand", format!("\"{} stops\"", ask.in_hand));
        file.perhaps("recycle", ask.recycle_s.map(|seconds| format!("\"{seconds} s\"")));
        file.perhaps(
            "white_balance",
            ask.white_balance.map(|kelvin| format!("\"{kelvin} K\"")),
        );
        file.perhaps("colour", ask.colour.map(quoted));
        file.perhaps("gel", ask.gel.map(quoted));
        match ask.flash {
            FlashPlace::OnCamera => {}
            FlashPlace::At(point) => file.line("flash", inline(point)),
            FlashPlace::Anywhere => file.line("flash", quoted("anywhere")),
        }
        file.perhaps(
            "sitter_may_move",
            ask.may_move_m.map(|far| format!("\"{far} m\"")),
        );
    }
}

impl Room {
    fn write(&self, file: &mut File) {
        let [width, length, height] = self.size;
        file.part("[place]");
        file.line("room", format!("\"{length} x {width} x {height} m\""));
        for (face, surface) in FACES.iter().zip(self.surfaces) {
            file.line(face, quoted(surface));
        }
        if let Some(window) = &self.window {
            let [wide, high] = window.size;
            file.part("[[place.opening]]");
            file.line("name", quoted("window"));
            file.line("wall", quoted(&window.wall.replace('_', " ")));
            file.line("from_left_end", metres(window.from_left_end));
            file.line("from_floor", metres(window.from_floor));
            file.line("size", format!("\"{wide} x {high} m\""));
            file.line("kind", quoted(window.kind));
        }
        if let Some(block) = &self.furniture {
            let [wide, deep, high] = block.size;
            file.part("[[place.furniture]]");
            file.line("name", quoted(block.name));
            file.line("size", format!("\"{wide} x {deep} x {high} m\""));
            file.line("from_left", metres(block.corner[0]));
            file.line("from_behind", metres(block.corner[1]));
            file.line("surface", quoted(block.surface));
        }
    }
}

impl Sky {
    fn write(&self, file: &mut File) {
        file.part("[sky]");
        file.line("latitude", quoted("52.1 N"));
        file.line("longitude", quoted("5.1 E"));
        file.line("date", quoted("2026-09-12"));
        file.line("time", quoted(&self.time));
        file.line("camera_looks", quoted(self.looks));
        file.line("weather", quoted(self.weather));
        file.line("ground", quoted(self.ground));
    }
}

impl Sitter {
    fn write(&self, file: &mut File) {
        file.part("[[sitter]]");
        file.line("name", quoted(self.name));
        file.line("from_left", metres(self.stand[0]));
        file.line("from_behind", metres(self.stand[1]));
        file.line("face_height", metres(self.face_height));
        file.perhaps("faces", self.faces.map(quoted));
        file.line("figure", quoted(self.figure));
        file.line("age", self.age);
        file.line("skin", quoted(self.skin));
        file.perhaps("cap", self.cap.map(quoted));
    }
}

impl Bag {
    fn write(&self, file: &mut File) {
        file.part("[bag]");
        file.line("helpers", self.helpers);
        file.line("stand", self.stand);
        if !self.gels.is_empty() {
            file.line("gels", list(self.gels.iter().map(|gel| quoted(gel))));
            file.line("gel_family", quoted(self.gel_family));
        }
        if !self.nd.is_empty() {
            file.line(
                "nd",
                list(self.nd.iter().map(|stops| format!("\"{stops} stops\""))),
            );
        }
        file.part("[bag.flash]");
        match self.flash {
            FlashKind::Named(kind) => file.line("kind", quoted(kind)),
            FlashKind::GuideNumbers(numbers) => {
                file.line("guide_numbers", list(numbers.iter().map(|number| quoted(number))));
            }
        }
        file.line("least_power", format!("\"1/{}\"", 1u32 << self.least_power));
        file.line("recycle", format!("\"{} s\"", self.recycle_s));
        file.line("dome", self.dome);
        file.line("bounce_card", self.bounce_card);
        file.perhaps("umbrella", self.umbrella.map(quoted));
        file.perhaps("softbox", self.softbox.map(quoted));
        if let Some(board) = &self.board {
            file.part("[[bag.board]]");
            file.line("name", quoted(board.name));
            file.line("size", quoted(&board.size));
            file.line("surface", quoted(board.surface));
        }
    }
}

impl Light {
    fn write(&self, file: &mut File) {
        file.part("[[ambient]]");
        file.line("name", quoted(self.name));
        match self.level {
            Level::Ev(ev) => file.line("reading", format!("\"EV {ev}\"")),
            Level::Lumen(lumen) => file.line("lumen", lumen),
        }
        file.line("colour", format!("\"{} K\"", self.kelvin));
        match &self.from {
            Some(from) if from.starts_with('{') => file.line("from", from),
            from => file.perhaps("from", from.as_deref().map(quoted)),
        }
    }
}

/// A file while it is written.
#[derive(Default)]
struct File(String);

impl File {
    fn part(&mut self, heading: &str) {
        self.0 += &format!("\n{heading}\n");
    }

    fn line(&mut self, key: &str, value: impl Display) {
        writeln!(self.0, "{key} = {value}").expect("a text takes every line");
    }

    fn perhaps(&mut self, key: &str, value: Option<String>) {
        if let Some(value) = value {
            self.line(key, value);
        }
    }

    fn at(&mut self, [left, behind, height]: Point) {
        self.line("from_left", metres(left));
        self.line("from_behind", metres(behind));
        self.line("height", metres(height));
    }
}

fn quoted(text: &str) -> String {
    format!("\"{text}\"")
}

fn metres(value: f64) -> String {
    format!("\"{value:.4} m\"")
}

fn signed_stops(value: f64) -> String {
    format!("\"{value:+.3} stops\"")
}

fn list(items: impl Iterator<Item = String>) -> String {
    format!("[{}]", items.collect::<Vec<_>>().join(", "))
}

/// A point in one line.
pub fn inline([left, behind, height]: Point) -> String {
    let (left, behind, height) = (metres(left), metres(behind), metres(height));
    format!("{{ from_left = {left}, from_behind = {behind}, height = {height} }}")
}
