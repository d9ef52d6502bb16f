//! How much of which source arrives where: the solved room, virtual meters, and the referee.
//!
//! This crate turns a [`scene::Geometry`] and a [`Source`] at unit strength into spectral readings and
//! pictures. It knows no camera settings and no display colours, and no randomness is hidden in it: the
//! seed is an argument and results do not depend on the number of threads.
//!
//! Transport is linear, so everything is computed for a *flat* spectrum of unit strength per band; the
//! colour and power of the source are multiplied in afterwards, which never traces a ray.
//!
//! ```
//! use colour::Spectrum;
//! use glam::Vec3;
//! use scene::{BoxRoom, Material, Place, assemble};
//! use transport::{Fineness, Meter, Receptor, Room, Source, read_light};
//!
//! // Every wall shines with 1 cd m⁻² and reflects nothing: a flat meter reads π lx.
//! let black = Material::matt("black", Spectrum::ZERO);
//! let place = Place::new(BoxRoom::uniform([4.0, 5.0, 2.5], black));
//! let stage = assemble(&place, &[]).unwrap();
//! let room = Room::new(stage.geometry, Fineness { pitch_m: 0.5, rays: 16 }, 1);
//! let meter = Meter { position: Vec3::new(2.0, 2.0, 1.5), receptor: Receptor::Flat(Vec3::X) };
//! let light = room.solve(&Source::AllRound);
//! let reading = read_light(&room, &Source::AllRound, &light, &meter, 256);
//! assert!((reading.mean() - std::f32::consts::PI).abs() < 1e-3);
//! ```

mod aim_map;
mod denoise;
mod fresnel;
mod guide;
mod held_board;
mod kronecker;
mod lambert;
mod layer;
mod leg;
mod live;
mod meter;
mod operator;
mod outside;
mod patches;
mod proof;
mod referee;
mod rng;
mod room;
mod scatter;
mod source;
mod surface;
mod tracer;

pub use aim_map::{AimMap, Aimed};
pub use fresnel::{fresnel_conductor_sp, fresnel_dielectric, fresnel_dielectric_sp};
pub use guide::Guide;
pub use held_board::{HeldBoard, LitBoard};
pub use lambert::{disc_polygon, exchange_factor, polygon_factor, polygon_illuminance};
pub use layer::Layer;
pub use live::{LiveView, Observer};
pub use meter::{Arrival, Meter, Receptor, read_light};
pub use operator::Operator;
pub use outside::{Outside, SUN_HALF_ANGLE, SunBeam};
pub use patches::{Patch, PatchSample, Patches};
pub use proof::{Effort, Glance, Method, Progress, Rendered, render};
pub use referee::{Reading, read_meters};
pub use room::{Fineness, Room, SolvedLight};
pub use scatter::{coat_brdf, directional_albedo, ggx_distribution, ggx_lambda};
pub use source::{PlacedFlash, Source};
pub use surface::SurfacePoint;
pub use tracer::{Hit, Tracer};
