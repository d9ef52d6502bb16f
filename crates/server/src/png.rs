//! Pictures as PNG files.

use camera::Picture;

/// A picture as the bytes of a PNG file.
///
/// # Errors
/// What the encoder refuses: a picture without pixels.
pub fn png(picture: &Picture) -> Result<Vec<u8>, ::png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = ::png::Encoder::new(&mut bytes, picture.width as u32, picture.height as u32);
    encoder.set_color(::png::ColorType::Rgb);
    encoder.set_depth(::png::BitDepth::Eight);
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&picture.srgb8())?;
    writer.finish()?;
    Ok(bytes)
}
