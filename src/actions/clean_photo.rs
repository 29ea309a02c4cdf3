//! Makes a photo that somebody sent safe to keep and to show: decoded within limits, turned upright, made smaller, encoded anew. Where
//! it was taken, by which device, and whatever else the file carried is gone with the file.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};

/// The most that a file may weigh, in bytes: what phones take, with room.
pub const MOST_BYTES: usize = 12 * 1024 * 1024;
/// The longest side that is decoded, and the most pixels.
const LONGEST: u32 = 12_000;
const MOST_PIXELS: u64 = 60_000_000;
/// The most memory that decoding may take, in bytes.
const MOST_MEMORY: u64 = 300 * 1024 * 1024;
/// The longest side that is kept.
const KEPT: u32 = 1600;
const QUALITY: u8 = 80;

/// A photo as it is kept: JPEG.
#[derive(Debug)]
pub struct CleanPhoto {
    /// The file.
    pub bytes: Vec<u8>,
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
}

/// Why a file is not kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoPhoto {
    /// It is no JPEG, PNG or WebP, whatever it calls itself.
    #[error("Send a photo as JPEG, PNG or WebP.")]
    OtherKind,
    /// It has too many pixels.
    #[error("This photo is too large. Send a smaller one.")]
    TooLarge,
    /// It does not read to its end.
    #[error("This photo could not be read. Take it again, or send another one.")]
    Broken,
}

/// Reads a file by what it holds, not by its name, and encodes what one sees of it anew. Takes its time: to be called where it holds
/// nobody up.
pub fn clean_photo(file: &[u8]) -> Result<CleanPhoto, NoPhoto> {
    let format = image::guess_format(file).map_err(|_| NoPhoto::OtherKind)?;
    if !matches!(format, ImageFormat::Jpeg | ImageFormat::Png | ImageFormat::WebP) {
        return Err(NoPhoto::OtherKind);
    }
    let mut reader = ImageReader::with_format(Cursor::new(file), format);
    let mut limits = Limits::default();
    (limits.max_image_width, limits.max_image_height) = (Some(LONGEST), Some(LONGEST));
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(refused)?;
    let (width, height) = decoder.dimensions();
    if width > LONGEST || height > LONGEST || u64::from(width) * u64::from(height) > MOST_PIXELS {
        return Err(NoPhoto::TooLarge);
    }
    let upright = decoder.orientation().map_err(refused)?;
    let mut photo = DynamicImage::from_decoder(decoder).map_err(refused)?;
    photo.apply_orientation(upright);
    if photo.width().max(photo.height()) > KEPT {
        photo = photo.resize(KEPT, KEPT, FilterType::Triangle);
    }
    let seen = photo.into_rgb8();
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, QUALITY).encode_image(&seen).map_err(refused)?;
    Ok(CleanPhoto { bytes, width: seen.width(), height: seen.height() })
}

fn refused(error: image::ImageError) -> NoPhoto {
    match error {
        image::ImageError::Limits(_) => NoPhoto::TooLarge,
        _ => NoPhoto::Broken,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{ImageBuffer, Rgb};

    fn encoded(width: u32, height: u32, format: ImageFormat) -> Vec<u8> {
        let drawn = ImageBuffer::from_fn(width, height, |x, y| Rgb([(x % 251) as u8, (y % 241) as u8, 90]));
        let mut bytes = Cursor::new(Vec::new());
        DynamicImage::ImageRgb8(drawn).write_to(&mut bytes, format).expect("encodes");
        bytes.into_inner()
    }

    #[test]
    fn what_is_kept_is_a_jpeg_of_at_most_1600_pixels() {
        for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
            let kept = clean_photo(&encoded(2000, 1000, format)).expect("is a photo");
            assert_eq!((kept.width, kept.height), (1600, 800));
            assert_eq!(image::guess_format(&kept.bytes).ok(), Some(ImageFormat::Jpeg));
        }
    }

    #[test]
    fn where_it_was_taken_goes_and_it_stands_upright() {
        let plain = encoded(40, 20, ImageFormat::Jpeg);
        // an Exif segment (CIPA DC-008): orientation 6, turned by a quarter, and a GPS pointer with a place in words
        let mut tiff = b"II*\0\x08\0\0\0\x02\0".to_vec();
        tiff.extend(b"\x12\x01\x03\0\x01\0\0\0\x06\0\0\0");
        tiff.extend(b"\x25\x88\x04\0\x01\0\0\0\x26\0\0\0");
        tiff.extend(b"\0\0\0\0");
        tiff.extend(b"\x01\0\x1b\0\x02\0\x0e\0\0\0\x38\0\0\0\0\0\0\0N51.5 W0.1275\0");
        let mut segment = b"Exif\0\0".to_vec();
        segment.extend(&tiff);
        let length = u16::try_from(segment.len() + 2).expect("is short").to_be_bytes();
        let mut file = plain[..2].to_vec();
        file.extend([0xff, 0xe1]);
        file.extend(length);
        file.extend(&segment);
        file.extend(&plain[2..]);
        let kept = clean_photo(&file).expect("is a photo");
        assert_eq!((kept.width, kept.height), (20, 40), "turned upright");
        let holds = |needle: &[u8]| kept.bytes.windows(needle.len()).any(|part| part == needle);
        assert!(!holds(b"Exif") && !holds(b"N51.5"), "nothing of where it was taken is left");
    }

    #[test]
    fn what_hides_behind_a_photo_is_gone() {
        let mut file = encoded(40, 20, ImageFormat::Jpeg);
        file.extend(b"<script>alert(1)</script>PK\x03\x04");
        let kept = clean_photo(&file).expect("is a photo");
        assert!(!kept.bytes.windows(7).any(|part| part == b"<script"));
    }

    #[test]
    fn what_is_no_photo_is_refused() {
        assert_eq!(
            clean_photo(b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>").err(),
            Some(NoPhoto::OtherKind)
        );
        assert_eq!(clean_photo(b"").err(), Some(NoPhoto::OtherKind));
        assert_eq!(clean_photo(b"GIF89a\x01\0\x01\0").err(), Some(NoPhoto::OtherKind));
        let whole = encoded(400, 200, ImageFormat::Png);
        assert_eq!(clean_photo(&whole[..whole.len() / 2]).err(), Some(NoPhoto::Broken));
        // a PNG header (W3C PNG, third edition, 11.2.1) that promises 30,000 by 30,000 pixels, with its checksum mended
        let mut huge = whole;
        huge[16..24].copy_from_slice(&[0, 0, 0x75, 0x30, 0, 0, 0x75, 0x30]);
        let sum = crc(&huge[12..29]).to_be_bytes();
        huge[29..33].copy_from_slice(&sum);
        assert_eq!(clean_photo(&huge).err(), Some(NoPhoto::TooLarge));
    }

    /// The checksum of a PNG chunk (ISO 3309).
    fn crc(bytes: &[u8]) -> u32 {
        !bytes.iter().fold(!0_u32, |sum, byte| {
            (0..8)
                .fold(sum ^ u32::from(*byte), |sum, _| (sum >> 1) ^ (0xedb8_8320 & (sum & 1).wrapping_neg()))
        })
    }
}
