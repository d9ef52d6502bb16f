//! What makes one sitter look different from another.

use super::noise::hash;

/// Why a figure could not be made.
#[derive(Debug, Clone, thiserror::Error, PartialEq)]
pub enum FigureError {
    /// The stored people data is damaged.
    #[error("the people data is damaged: {0:?}")]
    Data(DataFault),
    /// A face slider that does not exist; [`face_sliders`](super::face_sliders) lists those that do.
    #[error("there is no face slider named \"{0}\"")]
    UnknownSlider(String),
    /// A number outside what bodies can be.
    #[error("{what:?} must lie between {low} and {high}, not {value}")]
    OutOfRange {
        /// What the number is for.
        what: BodyNumber,
        /// The number given.
        value: f32,
        /// Lowest allowed.
        low: f32,
        /// Highest allowed.
        high: f32,
    },
}

/// What is damaged in the stored people data.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DataFault {
    /// It ends too early.
    EndsEarly,
    /// It does not begin like people data.
    AnotherKind,
    /// It does not unpack.
    Packing,
    /// It has another number of joints than a body.
    Joints,
    /// A face of the surface names a vertex that is not there.
    NoSuchVertex,
    /// A face of the surface belongs to no known part of the body.
    NoSuchGroup,
}

/// A number of a recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BodyNumber {
    /// [`FigureRecipe::age_years`].
    Age,
    /// [`FigureRecipe::masculinity`].
    Masculinity,
    /// [`FigureRecipe::build`].
    Build,
    /// [`FigureRecipe::stature_m`].
    Stature,
    /// [`FigureRecipe::head_turn_deg`].
    HeadTurn,
    /// [`FigureRecipe::head_tilt_deg`].
    HeadTilt,
    /// [`FigureRecipe::head_nod_deg`].
    HeadNod,
    /// One of [`FigureRecipe::ancestry`].
    AncestryWeight,
    /// The sum of [`FigureRecipe::ancestry`].
    AncestrySum,
    /// An amount of [`FaceShape::sliders`].
    FaceSlider,
}

/// How a face differs from the mean of its age, sex and ancestry.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct FaceShape {
    /// Slider names (see [`face_sliders`](super::face_sliders)) with amounts from -1 to 1; beyond about 0.6 a face turns into a caricature.
    pub sliders: Vec<(String, f32)>,
}

impl FaceShape {
    /// One of many moderate faces, each with its number: for groups in which no face should look like another.
    #[must_use]
    pub fn numbered(number: u32) -> Self {
        const VARIED: [(&str, f32); 26] = [
            ("head round", 0.5),
            ("head oval", 0.5),
            ("head square", 0.4),
            ("head fullness", 0.35),
            ("forehead height", 0.5),
            ("forehead slope", 0.4),
            ("brow height", 0.5),
            ("brow slant", 0.4),
            ("eye size", 0.3),
            ("eye spacing", 0.4),
            ("eye outer corner", 0.5),
            ("eye fold", 0.4),
            ("nose width", 0.5),
            ("nose length", 0.5),
            ("nose depth", 0.4),
            ("nose hump", 0.5),
            ("nose point", 0.5),
            ("mouth width", 0.5),
            ("mouth height", 0.3),
            ("upper lip", 0.5),
            ("lower lip", 0.5),
            ("chin width", 0.5),
            ("chin height", 0.4),
            ("chin prominence", 0.4),
            ("cheek bones", 0.5),
            ("ear wing", 0.4),
        ];
        let amount = |k: usize| {
            let seed = number.wrapping_mul(101).wrapping_add(7 * k as u32 + 90_001);
            // The sum of two is small more often than large.
            hash(seed) + hash(seed ^ 0x5555) - 1.0
        };
        Self {
            sliders: VARIED
                .iter()
                .enumerate()
                .map(|(k, (name, most))| ((*name).to_owned(), most * amount(k)))
                .collect(),
        }
    }
}

/// Standing with hanging arms, or sitting upright with the hands on the thighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Posture {
    /// Feet under the hips, arms at the sides.
    Standing,
    /// Thighs level, shins upright: on a chair that fits, which is not part of the figure.
    Sitting,
}

/// Ways to wear the hair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HairStyle {
    /// None, or shaved.
    Bald,
    /// Short all round; a little fuller on women. The hairline of men goes back with age.
    Short,
    /// Parted and hanging to the chin.
    Bob,
    /// Short, under a bandsman's peaked cap.
    Cap,
}

/// What is worn above the trousers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Garment {
    /// A jersey with a round neck.
    Crew,
    /// A jersey with a V-shaped neck.
    VNeck,
    /// A buttoned tunic with a standing collar.
    Tunic,
}

/// Everything that makes one sitter look different from another, but for colours.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureRecipe {
    /// Age in years, 3 to 90.
    pub age_years: f32,
    /// 0 is the average woman or girl, 1 the average man or boy.
    pub masculinity: f32,
    /// Weights of African, Asian and European ancestry, each at least 0 and not all 0.
    pub ancestry: [f32; 3],
    /// -1 is very thin, 0 average, 1 very heavy.
    pub build: f32,
    /// Stature in metres (0.7 to 2.3), without shoes and hair; `None` takes what is usual for age and sex.
    pub stature_m: Option<f32>,
    /// Departures from the mean face.
    pub face: FaceShape,
    /// Standing or sitting.
    pub posture: Posture,
    /// Hair or cap.
    pub hair: HairStyle,
    /// Clothing of the upper body.
    pub garment: Garment,
    /// Turn of the head in degrees about the upright, -60 to 60; positive towards the sitter's own left.
    pub head_turn_deg: f32,
    /// Tilt of the head in degrees, -30 to 30; positive towards the sitter's own left shoulder.
    pub head_tilt_deg: f32,
    /// Nod of the head in degrees, -30 to 30; positive down.
    pub head_nod_deg: f32,
}

impl Default for FigureRecipe {
    /// A thirty-year-old between all means, standing, with short hair and a round-necked jersey.
    fn default() -> Self {
        Self {
            age_years: 30.0,
            masculinity: 0.5,
            ancestry: [1.0 / 3.0; 3],
            build: 0.0,
            stature_m: None,
            face: FaceShape::default(),
            posture: Posture::Standing,
            hair: HairStyle::Short,
            garment: Garment::Crew,
            head_turn_deg: 0.0,
            head_tilt_deg: 0.0,
            head_nod_deg: 0.0,
        }
    }
}

impl FigureRecipe {
    pub(super) fn check(&self) -> Result<(), FigureError> {
        let within = |what, value: f32, low, high| {
            if (low..=high).contains(&value) {
                Ok(())
            } else {
                Err(FigureError::OutOfRange {
                    what,
                    value,
                    low,
                    high,
                })
            }
        };
        within(BodyNumber::Age, self.age_years, 3.0, 90.0)?;
        within(BodyNumber::Masculinity, self.masculinity, 0.0, 1.0)?;
        within(BodyNumber::Build, self.build, -1.0, 1.0)?;
        within(BodyNumber::Stature, self.stature_m.unwrap_or(1.0), 0.7, 2.3)?;
        within(BodyNumber::HeadTurn, self.head_turn_deg, -60.0, 60.0)?;
        within(BodyNumber::HeadTilt, self.head_tilt_deg, -30.0, 30.0)?;
        within(BodyNumber::HeadNod, self.head_nod_deg, -30.0, 30.0)?;
        for weight in self.ancestry {
            within(BodyNumber::AncestryWeight, weight, 0.0, f32::MAX)?;
        }
        within(
            BodyNumber::AncestrySum,
            self.ancestry.iter().sum(),
            1e-6,
            f32::MAX,
        )
    }
}
