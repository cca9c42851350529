//! Photos on disk: pieces put together, named by their content, shown without what the camera wrote into them.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufRead, BufReader, Read as _, Seek, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use exif::{Exif, In, Rational, Tag, Value};
use img_parts::{DynImage, ImageEXIF as _};
use journal::backup::photo_path;
use journal::chain::{Digest, hexadecimal};
use model::record::happened::Position;
use sha2::{Digest as _, Sha256};

/// Where a piece belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// Its first byte.
    pub first: u64,
    /// Length of the whole file.
    pub whole: u64,
}

/// What is wrong with a photo.
#[derive(Debug, PartialEq, Eq)]
#[allow(missing_docs)] // the names are the definition
pub enum PhotoFault {
    NoName,
    NotThere,
    TooLarge(u64),
    GoOnFrom(u64),
    OtherContent,
    NotAPicture,
    Disk(String),
}

impl Piece {
    /// Of a `Content-Range` header with a body of that length.
    pub fn of_content_range(text: &str, length: usize) -> Option<Piece> {
        let (range, whole) = text.strip_prefix("bytes ")?.split_once('/')?;
        let (first, last) = range.split_once('-')?;
        let (first, last, whole): (u64, u64, u64) = (first.parse().ok()?, last.parse().ok()?, whole.parse().ok()?);
        let fits = last >= first && last < whole && last - first + 1 == length as u64;
        fits.then_some(Piece { first, whole })
    }
}

/// Puts a piece to what has come. Gives how much there is now and whether it is all; then the file has its name.
pub fn put(
    folder: &Path,
    digest: &str,
    piece: Piece,
    bytes: &[u8],
    most_bytes: u64,
) -> Result<(u64, bool), PhotoFault> {
    let path = photo_path(folder, digest).ok_or(PhotoFault::NoName)?;
    if piece.whole > most_bytes {
        return Err(PhotoFault::TooLarge(most_bytes));
    }
    if let Ok(there) = fs::metadata(&path) {
        return Ok((there.len(), true));
    }
    let partial = partial(&path);
    if let Some(parent) = path.parent() {
        fs::create_dir_all(parent)?;
    }
    let mut file = OpenOptions::new().create(true).truncate(false).read(true).write(true).open(&partial)?;
    let there = file.metadata()?.len();
    // what has come already may come again, as after a broken connection
    if piece.first > there {
        return Err(PhotoFault::GoOnFrom(there));
    }
    file.seek(SeekFrom::Start(piece.first))?;
    file.write_all(bytes)?;
    let now = there.max(piece.first + bytes.len() as u64);
    if now < piece.whole {
        file.sync_data()?;
        return Ok((now, false));
    }
    file.set_len(piece.whole)?;
    file.sync_all()?;
    if digest_of(&mut file)? != digest {
        drop(file);
        fs::remove_file(&partial)?;
        return Err(PhotoFault::OtherContent);
    }
    fs::rename(&partial, &path)?;
    Ok((piece.whole, true))
}

/// How much of a photo has come, and whether that is all.
pub fn received(folder: &Path, digest: &str) -> Result<(u64, bool), PhotoFault> {
    let path = photo_path(folder, digest).ok_or(PhotoFault::NoName)?;
    if let Ok(there) = fs::metadata(&path) {
        return Ok((there.len(), true));
    }
    Ok((fs::metadata(partial(&path)).map_or(0, |there| there.len()), false))
}

/// The digest that a photo is named by. `None`: not the name of a photo.
pub fn digest_of_name(name: &str) -> Option<Digest> {
    photo_path(Path::new(""), name)?;
    let mut digest = Digest::default();
    for (byte, two) in digest.iter_mut().zip(0..) {
        *byte = u8::from_str_radix(name.get(2 * two..2 * two + 2)?, 16).ok()?;
    }
    Some(digest)
}

/// Where a photo was taken, as its camera wrote into the file (Exif 2.3, tags 1 to 4 of the GPS directory).
pub fn place_of(folder: &Path, digest: &str) -> Option<Position> {
    let path = photo_path(folder, digest)?;
    place_in(&mut BufReader::new(File::open(path).ok()?))
}

/// The same of an open file. `None`: it says nothing that can be a place; cameras that don't know often write zeros.
pub fn place_in(file: &mut (impl BufRead + Seek)) -> Option<Position> {
    let exif = exif::Reader::new().continue_on_error(true).read_from_container(file);
    let exif = exif.or_else(|error| error.distill_partial_result(|_| ())).ok()?;
    let lat = degrees(&exif, Tag::GPSLatitude, Tag::GPSLatitudeRef, [b'N', b'S'])?;
    let lon = degrees(&exif, Tag::GPSLongitude, Tag::GPSLongitudeRef, [b'E', b'W'])?;
    let can_be = lat.abs() <= 90.0 && lon.abs() <= 180.0 && (lat != 0.0 || lon != 0.0);
    can_be.then_some(Position { lon, lat })
}

/// Degrees of degrees, minutes and seconds, each a fraction; negative by the second letter.
fn degrees(exif: &Exif, tag: Tag, reference: Tag, letters: [u8; 2]) -> Option<f64> {
    let Value::Rational(parts) = &exif.get_field(tag, In::PRIMARY)?.value else { return None };
    let [whole, minutes, seconds] = parts[..] else { return None };
    let number = |part: Rational| (part.denom != 0).then(|| part.to_f64());
    // a camera that tells minutes with decimals may leave the seconds 0/0
    let seconds = if seconds.num == 0 { 0.0 } else { number(seconds)? };
    let value = number(whole)? + number(minutes)? / 60.0 + seconds / 3600.0;
    let Value::Ascii(texts) = &exif.get_field(reference, In::PRIMARY)?.value else { return None };
    let letter = texts.first()?.first()?.to_ascii_uppercase();
    match letters.iter().position(|known| *known == letter)? {
        0 => Some(value),
        _ => Some(-value),
    }
}

/// Media type and bytes of a photo without what its camera wrote into it: place, time, device, the owner's name.
pub fn read_for_publication(folder: &Path, digest: &str) -> Result<(&'static str, Vec<u8>), PhotoFault> {
    let path = photo_path(folder, digest).ok_or(PhotoFault::NoName)?;
    let bytes = fs::read(&path).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => PhotoFault::NotThere,
        _ => error.into(),
    })?;
    bare(bytes)
}

/// A picture without what its camera wrote into it.
fn bare(bytes: Vec<u8>) -> Result<(&'static str, Vec<u8>), PhotoFault> {
    let mut image = DynImage::from_bytes(bytes.into()).ok().flatten().ok_or(PhotoFault::NotAPicture)?;
    image.set_exif(None);
    let media_type = match &mut image {
        DynImage::Jpeg(jpeg) => {
            // all that programs and cameras write beside the picture: APP1 to APP15 but colours (APP2), and remarks
            jpeg.segments_mut().retain(|segment| match segment.marker() {
                0xe1 | 0xe3..=0xed | 0xef | 0xfe => false,
                0xe2 => segment.contents().starts_with(b"ICC_PROFILE"),
                _ => true,
            });
            "image/jpeg"
        }
        DynImage::Png(png) => {
            png.chunks_mut().retain(|chunk| !matches!(&chunk.kind(), b"tEXt" | b"zTXt" | b"iTXt" | b"eXIf" | b"tIME"));
            "image/png"
        }
        DynImage::WebP(webp) => {
            webp.chunks_mut().retain(|chunk| !matches!(&chunk.id(), b"EXIF" | b"XMP "));
            "image/webp"
        }
    };
    Ok((media_type, image.encoder().bytes().to_vec()))
}

fn partial(path: &Path) -> PathBuf {
    path.with_extension("coming")
}

fn digest_of(file: &mut File) -> io::Result<String> {
    file.seek(SeekFrom::Start(0))?;
    let mut hasher = Sha256::new();
    let mut buffer = vec![0; 1 << 16];
    loop {
        let read = file.read(&mut buffer)?;
        if read == 0 {
            return Ok(hexadecimal(&hasher.finalize()));
        }
        hasher.update(&buffer[..read]);
    }
}

impl From<io::Error> for PhotoFault {
    fn from(error: io::Error) -> Self {
        PhotoFault::Disk(error.to_string())
    }
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use super::*;

    /// An Exif block in a TIFF file as cameras write it; least significant byte first.
    fn tiff() -> Vec<u8> {
        let mut bytes = b"II*\0\x08\0\0\0\x01\0\x25\x88\x04\0\x01\0\0\0\x1a\0\0\0\0\0\0\0\x04\0".to_vec();
        for (tag, kind, count, value) in
            [(1, 2, 2, *b"N\0\0\0"), (2, 5, 3, [80, 0, 0, 0]), (3, 2, 2, *b"E\0\0\0"), (4, 5, 3, [104, 0, 0, 0])]
        {
            bytes.extend([tag, 0, kind, 0, count, 0, 0, 0]);
            bytes.extend(value);
        }
        bytes.extend([0; 4]);
        for number in [47_u32, 1, 30, 1, 0, 1, 8, 1, 15, 1, 0, 1] {
            bytes.extend(number.to_le_bytes());
        }
        bytes
    }

    #[test]
    fn a_damaged_file_has_another_place_or_none() {
        let whole = tiff();
        assert_eq!(place_in(&mut Cursor::new(&whole)), Some(Position { lon: 8.25, lat: 47.5 }));
        let mut lost = 0;
        for at in 0..whole.len() {
            for value in [0, 1, 0x7f, 0x80, 0xff] {
                let mut damaged = whole.clone();
                damaged[at] = value;
                let place = place_in(&mut Cursor::new(&damaged));
                assert!(place.is_none_or(|place| place.lat.abs() <= 90.0 && place.lon.abs() <= 180.0), "{at} {value}");
                lost += usize::from(place.is_none());
            }
            assert_eq!(place_in(&mut Cursor::new(&whole[..at])), None, "cut off at {at}");
        }
        assert!(lost > 50, "{lost}");
    }

    #[test]
    fn names_are_digests() {
        assert_eq!(digest_of_name(&"0f".repeat(32)), Some([15; 32]));
        for name in ["", "0f", &"0F".repeat(32), &"é".repeat(32), &"0".repeat(65)] {
            assert_eq!(digest_of_name(name), None, "{name}");
        }
    }
}
