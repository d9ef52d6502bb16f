//! Sun, moon, sky and air against published values, case by case from the check files; and daylight as a whole.

mod cases;
mod cie_sky;
mod daylight;
mod eye;
mod low_sun;
mod solar;
mod sunspec;
mod twilight;
