//! What a surface does to light.

use colour::Spectrum;

/// A glossy coat over a matt base: the oil on skin, varnish on wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coat {
    /// Refractive index relative to air; skin about 1.4.
    pub index: f32,
    /// Microfacet roughness α of the GGX distribution (Walter et al. 2007), 0.02 to 1.
    pub roughness: f32,
}

/// A surface: diffuse reflectance per band, colours laid over it, and perhaps a coat.
#[derive(Clone, Debug)]
pub struct Material {
    /// What a person would call it.
    pub name: String,
    /// Diffuse reflectance per band, 0..1.
    pub reflectance: Spectrum,
    /// Colours laid over the base by the vertex weights of [`crate::Geometry::overlay`]: lip, brow, flush.
    pub overlays: Option<Box<[Spectrum; 3]>>,
    /// Glossy coat, if any.
    pub coat: Option<Coat>,
    /// Whether the back reflects too. A one-sided surface seen from behind is black.
    pub two_sided: bool,
    /// Whether light is shaded with the smooth vertex normals instead of the flat triangle.
    pub smooth: bool,
}

impl Material {
    /// A matt, two-sided, flat surface.
    pub fn matt(name: &str, reflectance: Spectrum) -> Self {
        Material {
            name: name.to_owned(),
            reflectance,
            overlays: None,
            coat: None,
            two_sided: true,
            smooth: false,
        }
    }

    /// The same surface under a glossy coat.
    pub fn coated(mut self, index: f32, roughness: f32) -> Self {
        self.coat = Some(Coat { index, roughness });
        self
    }

    /// The same surface shaded with smooth normals.
    pub fn smooth(mut self) -> Self {
        self.smooth = true;
        self
    }

    /// Diffuse reflectance where the overlays have these weights.
    #[inline]
    pub fn reflectance_at(&self, weights: [f32; 3]) -> Spectrum {
        let Some(overlays) = &self.overlays else {
            return self.reflectance;
        };
        let mut value = self.reflectance;
        for (overlay, weight) in overlays.iter().zip(weights) {
            if weight > 0.0 {
                value = value * (1.0 - weight) + *overlay * weight;
            }
        }
        value
    }
}
