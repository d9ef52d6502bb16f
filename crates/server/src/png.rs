//! Pictures as PNG files.

use camera::Picture;
use std::io::Cursor;

/// A picture as the bytes of a PNG file.
///
/// # Errors
/// What the encoder refuses: a picture without pixels.
pub fn png(picture: &Picture) -> Result<Vec<u8>, image::ImageError> {
    let mut bytes = Cursor::new(Vec::new());
    image::write_buffer_with_format(
        &mut bytes,
        &picture.srgb8(),
        picture.width as u32,
        picture.height as u32,
        image::ExtendedColorType::Rgb8,
        image::ImageFormat::Png,
    )?;
    Ok(bytes.into_inner())
}
