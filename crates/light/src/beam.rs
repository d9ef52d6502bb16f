//! The beam of a flash head: a soft-edged rectangle with a faint skirt, whose total does not depend on the zoom.

use crate::{LightError, Misfit};
use glam::Vec3;
use std::f64::consts::PI;
use std::sync::Arc;
use units::IntensityTime;

/// What sits on the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum HeadDress {
    /// Nothing.
    #[default]
    Bare,
    /// A white plastic dome: most of the light scattered all round.
    Dome,
    /// A small white card behind the head that throws part of the beam forward.
    ///
    /// The head points along the beam's axis; the card throws towards the head's own "down" side, which
    /// is where the sitter is when the head is turned up.
    BounceCard,
    /// A white umbrella that the head shines through, towards the sitter.
    Umbrella(SoftFront),
    /// A small softbox in front of the head, towards the sitter.
    Softbox(SoftFront),
}

impl HeadDress {
    /// The large front that takes the place of the head's window, if it has one.
    pub fn soft_front(self) -> Option<SoftFront> {
        match self {
            HeadDress::Umbrella(front) | HeadDress::Softbox(front) => Some(front),
            _ => None,
        }
    }
}

/// A large white front that the flash shines through, by what it costs and how wide it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SoftFront {
    loss_hundredths: u16,
    side_mm: u16,
}

impl SoftFront {
    /// A front that leaves so many stops less on the axis than the bare head at zoom 35, and is so wide in metres.
    /// Both are kept to a hundredth of a stop and a millimetre, from 0 to 10 stops and up to 10 m.
    pub fn new(loss_stops: f64, width_m: f64) -> Self {
        SoftFront {
            loss_hundredths: (loss_stops * 100.0).round().clamp(0.0, 1000.0) as u16,
            side_mm: (width_m * 1000.0).round().clamp(1.0, 10_000.0) as u16,
        }
    }

    /// What it costs on the axis against the bare head at zoom 35, in stops.
    pub fn loss_stops(self) -> f64 {
        f64::from(self.loss_hundredths) / 100.0
    }

    /// Its width in metres.
    pub fn width_m(self) -> f64 {
        f64::from(self.side_mm) / 1000.0
    }
}

/// Luminous intensity integrated over the burst, at full power, for every direction of the head.
///
/// Directions are in the head's frame: `z` along the axis, `x` along the long side of the window, `y`
/// along the short one. The bare beam is
///
/// I(ω) = (I₀ − S) · 2^(−r²) · c(θ) + S · cos θ,  r⁴ = (tan-x / w h_x)⁴ + (tan-y / w h_y)⁴
///
/// with h the half-angles' tangents of the frame that the zoom is named for (18/zoom and 12/zoom), and
/// one width w for both, chosen so that the integral over the sphere is the flash's total light. The
/// edge of the nominal frame is then somewhere near one stop down (nearer to a half at long zooms, whose
/// beams are wide for their name). c fades the last degrees before 90°. The skirt S is what the window's plastic
/// scatters: [`SKIRT`] of the total, whatever the zoom. The form is ours; what it must
/// satisfy (guide number on the axis, same total at every zoom, soft edge about where the zoom says, spill far beyond it) is
/// common practice.
#[derive(Clone, Debug)]
pub struct Beam {
    axis_cd_s: f64,
    /// Intensity on the axis of what the shape describes, if all the light left that way.
    shape_cd_s: f64,
    shape: Shape,
    dress: HeadDress,
    total_cd_s_sr: f64,
    dressed: Dressed,
    /// The table for drawing directions, about 37 kB: shared, so that a clone for every aim costs nothing.
    sampler: Arc<BeamSampler>,
}

/// The form of a bare beam about its axis, for unit intensity there.
#[derive(Clone, Copy, Debug)]
enum Shape {
    /// A flash head: tangents of the half-angles at which the intensity has halved.
    Head { half: [f32; 2] },
    /// A lamp of intensity I₀ cosⁿ θ in front, nothing behind.
    CosinePower(f32),
    /// Alike in all directions.
    Even,
}

impl Shape {
    /// Intensity towards a unit direction, relative to the axis.
    #[inline]
    fn relative(&self, direction: Vec3) -> f32 {
        match *self {
            Shape::Even => 1.0,
            Shape::CosinePower(n) => {
                if direction.z <= 0.0 {
                    0.0
                } else if n == 0.0 {
                    1.0
                } else {
                    direction.z.powf(n)
                }
            }
            Shape::Head { half } => head(direction.to_array(), half.map(|h| 1.0 / h)),
        }
    }
}

/// How a head dress re-distributes the bare beam, as shares of the total light.
#[derive(Clone, Copy, Debug)]
struct Dressed {
    /// Share that still leaves as the bare beam.
    beam: f64,
    /// Share scattered evenly into the whole sphere.
    all_round: f64,
    /// Share scattered as a cosine lobe around the axis.
    forward: f64,
    /// Share scattered as a cosine lobe around the head's own down side.
    card: f64,
}

/// Share of a head's light that leaves its window scattered, as a cosine lobe about the axis.
///
/// Ours, so that a bare head at zoom 35 to 105 is six to eight stops down at 60° from its axis, far outside its frame, and
/// seven to nine at 75°; without a skirt it was black there (common practice: that spill is what photographers flag
/// when the head is turned to a wall or ceiling beside the sitter).
const SKIRT: f64 = 0.08;

impl Dressed {
    /// Shares are ours, chosen so that a dome costs about 1.5 to 2 stops where nothing throws light
    /// back and a card sends about a sixth of the light forward; each leaves a tenth in the plastic.
    fn of(dress: HeadDress, shape: &Shape) -> Self {
        let skirt = match shape {
            Shape::Head { .. } => SKIRT,
            Shape::CosinePower(_) | Shape::Even => 0.0,
        };
        match dress {
            // A large front is a lamp of its own: see [`Beam::soft_front`].
            HeadDress::Bare | HeadDress::Umbrella(_) | HeadDress::Softbox(_) => Dressed {
                beam: 1.0 - skirt,
                all_round: 0.0,
                forward: skirt,
                card: 0.0,
            },
            HeadDress::Dome => Dressed {
                beam: 0.0,
                all_round: 0.45,
                forward: 0.45,
                card: 0.0,
            },
            HeadDress::BounceCard => Dressed {
                beam: 0.72 * (1.0 - skirt),
                all_round: 0.0,
                forward: 0.72 * skirt,
                card: 0.18,
            },
        }
    }
}

/// Intensity of a head towards a unit direction, relative to its axis; without a branch, so that many
/// directions are worked out at once.
#[inline]
fn head([x, y, z]: [f32; 3], inverse_half: [f32; 2]) -> f32 {
    // Behind the fade the value is multiplied by nothing, whatever the tangents are there.
    let inverse = 1.0 / z.max(FADE_TO as f32);
    let (x, y) = (x * inverse * inverse_half[0], y * inverse * inverse_half[1]);
    let r2 = ((x * x) * (x * x) + (y * y) * (y * y)).sqrt();
    let fade = ((z - FADE_TO as f32) * (1.0 / (FADE_FROM - FADE_TO)) as f32).clamp(0.0, 1.0);
    halved(r2) * fade * fade * (3.0 - 2.0 * fade)
}

/// 2^(−x) for x ≥ 0, to two parts in ten million: a polynomial for what is left of x after whole halvings
/// (least squares at Chebyshev points), in straight-line code, so that many directions are worked out at once.
#[inline]
fn halved(x: f32) -> f32 {
    // Beyond this nothing is left that single precision holds at full speed.
    let x = x.min(60.0);
    let whole = x.floor();
    let left = x - whole;
    let mut value = 0.000_109_387_525;
    for coefficient in [
        -0.001_275_716_2,
        0.009_580_058,
        -0.055_491_034,
        0.240_224_36,
        -0.693_147_06,
        1.0,
    ] {
        value = value * left + coefficient;
    }
    value * f32::from_bits(((127.0 - whole) as u32) << 23)
}

/// Cosines between which the beam fades to nothing, so that the head never lights behind itself.
const FADE_FROM: f64 = 0.30;
const FADE_TO: f64 = 0.04;

impl Beam {
    /// Solid angle of the frame that a zoom is named for, in steradians (36 × 24 mm).
    ///
    /// ```
    /// // A 36 × 24 mm frame at 50 mm sees 0.317 sr.
    /// assert!((light::Beam::nominal_solid_angle(50.0) - 0.3166).abs() < 1e-3);
    /// ```
    pub fn nominal_solid_angle(zoom_mm: f64) -> f64 {
        let (a, b) = (18.0 / zoom_mm, 12.0 / zoom_mm);
        4.0 * (a * b / (1.0 + a * a + b * b).sqrt()).atan()
    }

    /// A beam from its intensity on the axis and its total light.
    pub(crate) fn from_guide(
        axis: IntensityTime,
        guide_m: f64,
        zoom_mm: f64,
        total_cd_s_sr: f64,
        dress: HeadDress,
    ) -> Result<Self, LightError> {
        let half = [18.0 / zoom_mm, 12.0 / zoom_mm];
        let misfit = |reason| LightError::TotalDoesNotFit {
            total: total_cd_s_sr,
            guide: guide_m,
            zoom: zoom_mm,
            reason,
        };
        // What the skirt sends along the axis is part of what the guide number says.
        let shape_cd_s = (axis.value() - SKIRT * total_cd_s_sr / PI) / (1.0 - SKIRT);
        if shape_cd_s <= 0.0 {
            return Err(misfit(Misfit::TooMuch));
        }
        let width = solve_width(half, total_cd_s_sr / shape_cd_s).map_err(misfit)?;
        let shape = Shape::Head {
            half: half.map(|h| (h * width) as f32),
        };
        Ok(Beam::build(axis.value(), shape_cd_s, shape, total_cd_s_sr, dress))
    }

    /// A bare point that shines alike in all directions with this intensity in cd s.
    ///
    /// ```
    /// use units::IntensityTime;
    /// let bulb = light::Beam::even(IntensityTime::new(100.0).unwrap());
    /// // 4π × 100 cd s = 1256.6 lm s.
    /// assert!((bulb.total() - 1256.637).abs() < 1e-3);
    /// ```
    pub fn even(intensity: IntensityTime) -> Self {
        Beam::build(
            intensity.value(),
            intensity.value(),
            Shape::Even,
            4.0 * PI * intensity.value(),
            HeadDress::Bare,
        )
    }

    /// A lamp of intensity I₀ cosⁿ θ in front of it and nothing behind; its total is 2π I₀ / (n + 1).
    ///
    /// ```
    /// use units::IntensityTime;
    /// let lamp = light::Beam::cosine_power(IntensityTime::new(1000.0).unwrap(), 1.0);
    /// assert!((lamp.total() - 3141.593).abs() < 1e-2);
    /// ```
    pub fn cosine_power(axis: IntensityTime, exponent: f64) -> Self {
        let total = 2.0 * PI * axis.value() / (exponent + 1.0);
        Beam::build(
            axis.value(),
            axis.value(),
            Shape::CosinePower(exponent as f32),
            total,
            HeadDress::Bare,
        )
    }

    /// A large white front: I₀ cosⁿ θ in front of it, with n ≥ 1 chosen so that no more comes out than `most_lm_s`.
    pub(crate) fn soft_front(axis: IntensityTime, most_lm_s: f64, dress: HeadDress) -> Self {
        let exponent = (2.0 * PI * axis.value() / most_lm_s - 1.0).max(1.0);
        let total = 2.0 * PI * axis.value() / (exponent + 1.0);
        let shape = Shape::CosinePower(exponent as f32);
        Beam::build(axis.value(), axis.value(), shape, total, dress)
    }

    fn build(axis_cd_s: f64, shape_cd_s: f64, shape: Shape, total_cd_s_sr: f64, dress: HeadDress) -> Self {
        let mut beam = Beam {
            axis_cd_s,
            shape_cd_s,
            shape,
            dress,
            total_cd_s_sr,
            dressed: Dressed::of(dress, &shape),
            sampler: Arc::default(),
        };
        beam.sampler = Arc::new(BeamSampler::new(&beam));
        beam
    }

    /// Intensity on the axis of the bare head, in cd s.
    pub fn axis_intensity_time(&self) -> IntensityTime {
        IntensityTime::new(self.axis_cd_s).expect("checked when built")
    }

    /// What sits on the head.
    pub fn dress(&self) -> HeadDress {
        self.dress
    }

    /// Total light that leaves the tube, in lumen seconds.
    pub fn total(&self) -> f64 {
        self.total_cd_s_sr
    }

    /// Intensity in cd s at full power towards a unit direction in the head's frame.
    #[inline]
    pub fn intensity(&self, direction: Vec3) -> f32 {
        let value = self.dressed.beam as f32 * self.bare(direction);
        if self.scatters() {
            value + self.scattered(direction)
        } else {
            value
        }
    }

    /// The part of [`Beam::intensity`] that a dome, a card or the window's own plastic scatters, in cd s.
    #[inline]
    pub fn scattered(&self, direction: Vec3) -> f32 {
        let shares = &self.dressed;
        let per_sr = self.total_cd_s_sr / PI;
        (shares.all_round * per_sr / 4.0
            + shares.forward * per_sr * f64::from(direction.z.max(0.0))
            + shares.card * per_sr * f64::from((-direction.y).max(0.0))) as f32
    }

    /// Whether part of the light is scattered.
    pub fn scatters(&self) -> bool {
        self.dressed.beam < 1.0
    }

    /// Whether part of the light leaves as a beam.
    pub fn gathers(&self) -> bool {
        self.dressed.beam > 0.0
    }

    /// The rest of [`Beam::intensity`], what leaves as a beam, for many directions at once, given by their
    /// three coordinates in the head's frame.
    pub fn gathered(&self, [x, y, z]: [&[f32]; 3], into: &mut [f32]) {
        let Shape::Head { half } = self.shape else {
            for (i, value) in into.iter_mut().enumerate() {
                *value = self.dressed.beam as f32 * self.bare(Vec3::new(x[i], y[i], z[i]));
            }
            return;
        };
        let axis = (self.dressed.beam * self.shape_cd_s) as f32;
        let inverse_half = half.map(|h| 1.0 / h);
        for (((value, &x), &y), &z) in into.iter_mut().zip(x).zip(y).zip(z) {
            *value = axis * head([x, y, z], inverse_half);
        }
    }

    /// What leaves as a beam, if all of the light did, in cd s.
    #[inline]
    fn bare(&self, direction: Vec3) -> f32 {
        self.shape_cd_s as f32 * self.shape.relative(direction)
    }

    /// Cosine of the angle from the axis beyond which a head's beam sends less than 1/256 of what it sends along
    /// its axis: about as small a share of its light. What is scattered is not counted; −1 for a lamp that has no
    /// beam.
    ///
    /// ```
    /// use units::IntensityTime;
    /// let bulb = light::Beam::even(IntensityTime::new(100.0).unwrap());
    /// assert_eq!(bulb.reach_cos(), -1.0);
    /// ```
    pub fn reach_cos(&self) -> f32 {
        match self.shape {
            Shape::Head { half } => {
                // 2^(−r²) is 1/256 at r² = 8; on that rim x² h_x² + y² h_y² is at most this.
                let [a, b] = half.map(|h| h * h);
                let tangent2 = 8.0 * (a * a + b * b).sqrt();
                1.0 / (1.0 + tangent2).sqrt()
            }
            _ => -1.0,
        }
    }

    /// Angle in radians over which the beam changes along its narrow side: where a head's has halved. A quarter
    /// turn for a lamp that has no beam.
    pub fn detail_rad(&self) -> f32 {
        match self.shape {
            Shape::Head { half } => half[1].atan(),
            _ => std::f32::consts::FRAC_PI_2,
        }
    }

    /// Draws a direction with density close to the intensity: the direction and its density per
    /// steradian. `u` are two numbers in 0..1.
    #[inline]
    pub fn sample(&self, u: [f32; 2]) -> (Vec3, f32) {
        self.sampler.sample(u)
    }

    /// Density per steradian with which [`Beam::sample`] draws a direction.
    #[inline]
    pub fn density(&self, direction: Vec3) -> f32 {
        self.sampler.density(direction)
    }
}

/// Width, as a multiple of the nominal half-angles' tangents, for which the bare beam of unit axis
/// intensity integrates to `wanted` steradians.
fn solve_width(half: [f64; 2], wanted: f64) -> Result<f64, Misfit> {
    let (mut low, mut high) = (0.2, 12.0);
    if integral(half, high) < wanted {
        return Err(Misfit::TooMuch);
    }
    if integral(half, low) > wanted {
        return Err(Misfit::TooLittle);
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if integral(half, middle) < wanted {
            low = middle
        } else {
            high = middle
        }
    }
    Ok(0.5 * (low + high))
}

/// Integral of the unit bare beam over the front hemisphere, in steradians: midpoint rule in azimuth
/// and in a polar angle warped so that the rings are fine near the axis.
fn integral(half: [f64; 2], width: f64) -> f64 {
    let (rings, sectors) = (160, 48);
    let shape = Shape::Head {
        half: half.map(|h| (h * width) as f32),
    };
    let theta_of = |t: f64| 0.5 * PI * t * t;
    let mut sum = 0.0;
    for ring in 0..rings {
        let (t0, t1) = (ring as f64 / rings as f64, (ring + 1) as f64 / rings as f64);
        let solid = (theta_of(t0).cos() - theta_of(t1).cos()) * 0.5 * PI / sectors as f64;
        let (sin, cos) = theta_of(0.5 * (t0 + t1)).sin_cos();
        for sector in 0..sectors {
            let phi = 0.5 * PI * (sector as f64 + 0.5) / sectors as f64;
            let direction = Vec3::new((sin * phi.cos()) as f32, (sin * phi.sin()) as f32, cos as f32);
            sum += 4.0 * solid * f64::from(shape.relative(direction));
        }
    }
    sum
}

const RINGS: usize = 96;
const SECTORS: usize = 48;

/// Piecewise constant density over rings and sectors of the head's sphere.
#[derive(Debug, Default)]
struct BeamSampler {
    /// Cumulative share of each cell.
    cumulative: Vec<f32>,
    /// Density per steradian in each cell.
    density: Vec<f32>,
    /// Cosine of the polar angle at each ring boundary.
    ring_cosine: Vec<f32>,
}

impl BeamSampler {
    fn new(beam: &Beam) -> Self {
        let ring_cosine: Vec<f32> = (0..=RINGS)
            .map(|i| (PI * (i as f64 / RINGS as f64).powi(2)).cos() as f32)
            .collect();
        let mut weight = vec![0.0f64; RINGS * SECTORS];
        let mut solid = vec![0.0f64; RINGS];
        for ring in 0..RINGS {
            solid[ring] = f64::from(ring_cosine[ring] - ring_cosine[ring + 1]) * 2.0 * PI / SECTORS as f64;
            for sector in 0..SECTORS {
                // The largest of a few probes keeps the density from falling far below the intensity.
                let mut probe = 0.0f32;
                for (a, b) in [(0.1, 0.1), (0.9, 0.1), (0.1, 0.9), (0.9, 0.9), (0.5, 0.5)] {
                    probe = probe.max(beam.intensity(cell_direction(&ring_cosine, ring, sector, [a, b])));
                }
                weight[ring * SECTORS + sector] = f64::from(probe) * solid[ring];
            }
        }
        let sum: f64 = weight.iter().sum();
        let mut running = 0.0;
        let mut cumulative = Vec::with_capacity(weight.len());
        let mut density = Vec::with_capacity(weight.len());
        for (index, value) in weight.iter().enumerate() {
            running += value / sum;
            cumulative.push(running as f32);
            density.push((value / sum / solid[index / SECTORS]) as f32);
        }
        BeamSampler {
            cumulative,
            density,
            ring_cosine,
        }
    }

    fn sample(&self, u: [f32; 2]) -> (Vec3, f32) {
        let cell = self
            .cumulative
            .partition_point(|&c| c <= u[0])
            .min(self.cumulative.len() - 1);
        let below = if cell == 0 { 0.0 } else { self.cumulative[cell - 1] };
        let share = self.cumulative[cell] - below;
        let within = if share > 0.0 {
            ((u[0] - below) / share).clamp(0.0, 0.999_999)
        } else {
            0.5
        };
        let direction = cell_direction(&self.ring_cosine, cell / SECTORS, cell % SECTORS, [u[1], within]);
        (direction, self.density[cell])
    }

    fn density(&self, direction: Vec3) -> f32 {
        let theta = f64::from(direction.z.clamp(-1.0, 1.0)).acos();
        let mut ring = (((theta / PI).sqrt() * RINGS as f64) as usize).min(RINGS - 1);
        // The boundary cosines are rounded to single precision, so the ring is settled by them.
        while ring > 0 && direction.z > self.ring_cosine[ring] {
            ring -= 1;
        }
        while ring + 1 < RINGS && direction.z <= self.ring_cosine[ring + 1] {
            ring += 1;
        }
        let phi = f64::from(direction.y)
            .atan2(f64::from(direction.x))
            .rem_euclid(2.0 * PI);
        let sector = ((phi / (2.0 * PI) * SECTORS as f64) as usize).min(SECTORS - 1);
        self.density[ring * SECTORS + sector]
    }
}

/// A direction inside a cell, uniform over its solid angle when `u` is uniform.
fn cell_direction(ring_cosine: &[f32], ring: usize, sector: usize, u: [f32; 2]) -> Vec3 {
    let z = ring_cosine[ring] + (ring_cosine[ring + 1] - ring_cosine[ring]) * u[0];
    let phi = (sector as f32 + u[1]) * (2.0 * std::f32::consts::PI / SECTORS as f32);
    let radius = (1.0 - z * z).max(0.0).sqrt();
    Vec3::new(radius * phi.cos(), radius * phi.sin(), z)
}

#[cfg(test)]
mod tests {
    use crate::{FlashUnit, HeadDress};
    use glam::Vec3;
    use units::{GuideBasis, GuideNumber, Kelvin, ZoomMm};

    #[test]
    fn halving_is_a_power_of_two() {
        for step in 0..2000 {
            let x = step as f32 * 0.03;
            let exact = (-f64::from(x)).exp2();
            assert!((f64::from(super::halved(x)) / exact - 1.0).abs() < 4e-7, "{x}");
        }
    }

    #[test]
    fn many_directions_are_read_as_one_is() {
        for (zoom, dress) in [
            (24.0, HeadDress::Bare),
            (105.0, HeadDress::Bare),
            (50.0, HeadDress::Dome),
        ] {
            let beam = kit().beam(zoom, dress).unwrap();
            let directions: Vec<Vec3> = (0..200)
                .map(|i| {
                    let (sin, cos) = (0.031 * i as f32).sin_cos();
                    Vec3::new(sin * 0.8, sin * 0.6, cos)
                })
                .collect();
            let column = |axis: usize| directions.iter().map(|d| d[axis]).collect::<Vec<f32>>();
            let mut together = vec![0.0; directions.len()];
            beam.gathered([&column(0), &column(1), &column(2)], &mut together);
            for (direction, value) in directions.iter().zip(together) {
                let value = value + beam.scattered(*direction);
                let alone = beam.intensity(*direction);
                assert!(
                    (value - alone).abs() <= 1e-5 * alone,
                    "{direction} {value} {alone}"
                );
            }
        }
    }

    fn kit() -> FlashUnit {
        let guide: Vec<GuideNumber> = [
            (24., 24.),
            (35., 30.),
            (50., 36.),
            (70., 42.),
            (105., 50.),
            (200., 58.),
        ]
        .iter()
        .map(|&(z, m)| GuideNumber {
            metres: m,
            zoom: ZoomMm::new(z).unwrap(),
            basis: GuideBasis::Measured,
        })
        .collect();
        FlashUnit::new("kit", &guide, Kelvin::new(5600.0).unwrap(), Some(700.0 * 2.5)).unwrap()
    }

    /// The total is the same at every zoom, by drawing directions: an estimate that does not use the
    /// quadrature that fixed the exponent.
    #[test]
    fn the_total_does_not_depend_on_the_zoom() {
        for dress in [HeadDress::Bare, HeadDress::Dome, HeadDress::BounceCard] {
            for zoom in [24.0, 35.0, 50.0, 70.0, 105.0, 200.0] {
                let beam = kit().beam(zoom, dress).unwrap();
                let n = 256;
                let mut sum = 0.0;
                for i in 0..n {
                    for j in 0..n {
                        let u = [(i as f32 + 0.5) / n as f32, (j as f32 + 0.5) / n as f32];
                        let (direction, density) = beam.sample(u);
                        assert!(
                            (beam.density(direction) - density).abs() <= 1e-4 * density.max(1e-6),
                            "{direction}"
                        );
                        sum += f64::from(beam.intensity(direction) / density);
                    }
                }
                let share = sum / f64::from(n * n) / beam.total();
                let expected = if dress == HeadDress::Bare { 1.0 } else { 0.9 };
                assert!((share - expected).abs() < 0.01, "{dress:?} zoom {zoom}: {share}");
            }
        }
    }

    /// Common practice: the printed zoom angle is roughly where the beam is one stop down.
    #[test]
    fn the_nominal_edge_is_roughly_one_stop_down() {
        for (zoom, low, high) in [
            (24.0, 0.5, 1.5),
            (35.0, 0.5, 1.5),
            (50.0, 0.5, 1.5),
            (105.0, 0.2, 1.0),
        ] {
            let beam = kit().beam(zoom, HeadDress::Bare).unwrap();
            let edge = Vec3::new((18.0 / zoom) as f32, 0.0, 1.0).normalize();
            let stops = -f64::from(beam.intensity(edge) / beam.intensity(Vec3::Z)).log2();
            assert!((low..high).contains(&stops), "zoom {zoom}: {stops:.2} stops down");
        }
    }

    /// Outside its frame a head is not black: what spills there is what a flag is for.
    #[test]
    fn the_skirt_is_faint_and_wide() {
        for zoom in [35.0, 50.0, 70.0, 105.0] {
            let beam = kit().beam(zoom, HeadDress::Bare).unwrap();
            for (degrees, low, high) in [(60.0_f32, 6.0, 8.5), (75.0, 7.0, 9.5)] {
                let (sin, cos) = degrees.to_radians().sin_cos();
                let away = beam.intensity(Vec3::new(sin, 0.0, cos));
                let stops = f64::from(beam.intensity(Vec3::Z) / away).log2();
                assert!(
                    (low..high).contains(&stops),
                    "zoom {zoom}, {degrees} degrees: {stops:.2} stops down"
                );
            }
        }
    }

    /// Along every way out from the axis the beam falls, and to 85° without a step: by less than a fifth of a stop in an eighth
    /// of a degree.
    #[test]
    fn the_beam_falls_smoothly_all_the_way_out() {
        for zoom in [24.0, 35.0, 50.0, 105.0, 200.0] {
            let beam = kit().beam(zoom, HeadDress::Bare).unwrap();
            let axis = f64::from(beam.intensity(Vec3::Z));
            assert!((axis / beam.axis_intensity_time().value() - 1.0).abs() < 1e-6);
            for turn in 0..8 {
                let (across, up) = f32::sin_cos(turn as f32 * 0.2);
                let mut before = axis;
                for step in 1..=720 {
                    let (sin, cos) = f32::to_radians(step as f32 * 0.125).sin_cos();
                    let here = f64::from(beam.intensity(Vec3::new(sin * across, sin * up, cos)));
                    assert!(here <= before * (1.0 + 1e-6), "zoom {zoom}, step {step}: rises");
                    if step <= 680 {
                        assert!((before / here).log2() < 0.2, "zoom {zoom}, step {step}: a step");
                    }
                    before = here;
                }
            }
        }
    }

    #[test]
    fn the_window_sends_its_skirt_whatever_the_zoom() {
        let spill = |zoom: f64| {
            let beam = kit().beam(zoom, HeadDress::Bare).unwrap();
            beam.intensity(Vec3::new(0.9, 0.0, 0.19_f32.sqrt()).normalize())
        };
        assert!((spill(105.0) / spill(200.0) - 1.0).abs() < 1e-5);
    }

    #[test]
    fn a_bare_head_lights_nothing_behind_itself() {
        let beam = kit().beam(24.0, HeadDress::Bare).unwrap();
        assert_eq!(beam.intensity(Vec3::new(1.0, 0.0, 0.0)), 0.0);
        assert_eq!(beam.intensity(-Vec3::Z), 0.0);
    }
}
