//! Photos on disk: pieces put together, named by their content, shown without what the camera wrote into them.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use img_parts::{DynImage, ImageEXIF as _};
use journal::backup::photo_path;
use journal::chain::hexadecimal;
use sha2::{Digest as _, Sha256};

/// Bytes of a photo at most.
const MOST_BYTES: u64 = 40_000_000;

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
    TooLarge,
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
pub fn put(folder: &Path, digest: &str, piece: Piece, bytes: &[u8]) -> Result<(u64, bool), PhotoFault> {
    let path = photo_path(folder, digest).ok_or(PhotoFault::NoName)?;
    if piece.whole > MOST_BYTES {
        return Err(PhotoFault::TooLarge);
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
