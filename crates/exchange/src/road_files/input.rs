//! Files as streams that know how far they have been read, and what kind of file it is by its first bytes.

use std::cell::Cell;
use std::fs::File;
use std::io::{self, BufRead, BufReader, Read};
use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use flate2::bufread::MultiGzDecoder;

use super::Progress;

/// Progress is reported each time this many bytes more have been read.
const REPORT_EVERY_BYTES: u64 = 1 << 20;

/// What a file holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Format {
    Pbf,
    Xml,
    GeoJson,
    Shapefile,
}

/// Tells the format by content, and by the extension where the content says nothing. `Err` says what it looks like.
pub(super) fn format_of(path: &Path) -> io::Result<Result<Format, String>> {
    let mut head = Vec::new();
    Opened::new(path)?.reader.take(512).read_to_end(&mut head).or_else(|error| {
        // A damaged gzip stream: what came out of it so far may still say what it is.
        if error.kind() == io::ErrorKind::NotFound { Err(error) } else { Ok(0) }
    })?;
    let text = head.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(&head);
    let first = text.iter().copied().find(|byte| !byte.is_ascii_whitespace());
    let by_content = match first {
        _ if head.get(6..15) == Some(b"OSMHeader") => Some(Ok(Format::Pbf)),
        _ if head.starts_with(&[0, 0, 0x27, 0x0A]) => Some(Ok(Format::Shapefile)),
        _ if head.starts_with(b"PK\x03\x04") => Some(Err("a zip archive: unpack it and name the file inside")),
        _ if head.starts_with(b"BZh") => Some(Err("a bzip2 archive: unpack it and name the file inside")),
        Some(b'<') => Some(Ok(Format::Xml)),
        Some(b'{') => Some(Ok(Format::GeoJson)),
        _ => None,
    };
    if let Some(found) = by_content {
        return Ok(found.map_err(str::to_owned));
    }
    let name = path.file_name().unwrap_or_default().to_string_lossy().to_lowercase();
    let name = name.strip_suffix(".gz").unwrap_or(&name);
    Ok(match name.rsplit('.').next().unwrap_or_default() {
        "pbf" => Ok(Format::Pbf),
        "osm" | "xml" => Ok(Format::Xml),
        "geojson" | "json" => Ok(Format::GeoJson),
        "shp" => Ok(Format::Shapefile),
        "dbf" | "shx" | "prj" | "cpg" => Err("a part of a shapefile: name its .shp".to_owned()),
        _ => Err("no kind of road file".to_owned()),
    })
}

/// An open file, unpacked if it is gzip, that counts the bytes read from the disk.
pub(super) struct Opened {
    pub(super) reader: Box<dyn BufRead + Send>,
    pub(super) read: BytesRead,
}

/// How many bytes have been read from the disk.
#[derive(Clone)]
pub(super) struct BytesRead(Arc<AtomicU64>);

impl BytesRead {
    pub(super) fn get(&self) -> u64 {
        self.0.load(Ordering::Relaxed)
    }
}

impl Opened {
    pub(super) fn new(path: &Path) -> io::Result<Self> {
        let read = BytesRead(Arc::new(AtomicU64::new(0)));
        let mut plain = BufReader::new(CountingReader { inner: File::open(path)?, read: read.clone() });
        let packed = plain.fill_buf()?.starts_with(&[0x1F, 0x8B]);
        let reader: Box<dyn BufRead + Send> =
            if packed { Box::new(BufReader::new(MultiGzDecoder::new(plain))) } else { Box::new(plain) };
        Ok(Opened { reader, read })
    }
}

/// Counts the bytes that pass.
pub(super) struct CountingReader<R> {
    inner: R,
    read: BytesRead,
}

impl<R: Read> CountingReader<R> {
    /// Counts from zero.
    pub(super) fn new(inner: R) -> (Self, BytesRead) {
        let read = BytesRead(Arc::new(AtomicU64::new(0)));
        (CountingReader { inner, read: read.clone() }, read)
    }
}

impl<R: Read> Read for CountingReader<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let count = self.inner.read(buffer)?;
        self.read.0.fetch_add(count as u64, Ordering::Relaxed);
        Ok(count)
    }
}

/// Line and column, both from 1, of the byte that is read next.
#[derive(Clone)]
pub(super) struct TextPlace(Rc<Cell<(usize, usize)>>);

impl TextPlace {
    pub(super) fn get(&self) -> (usize, usize) {
        self.0.get()
    }

    fn pass(&self, bytes: &[u8]) {
        let (line, column) = self.0.get();
        let breaks = bytes.split(|&byte| byte == b'\n').count() - 1;
        let tail = bytes.iter().rev().take_while(|&&byte| byte != b'\n').count();
        self.0.set((line + breaks, if breaks > 0 { tail + 1 } else { column + tail }));
    }
}

/// Keeps count of lines and columns (in bytes) while text is read.
pub(super) struct LineCounter<R> {
    inner: R,
    place: TextPlace,
}

impl<R: BufRead> LineCounter<R> {
    pub(super) fn new(inner: R) -> (Self, TextPlace) {
        let place = TextPlace(Rc::new(Cell::new((1, 1))));
        (LineCounter { inner, place: place.clone() }, place)
    }
}

impl<R: BufRead> Read for LineCounter<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let available = self.inner.fill_buf()?;
        let count = available.len().min(buffer.len());
        buffer[..count].copy_from_slice(&available[..count]);
        self.consume(count);
        Ok(count)
    }
}

impl<R: BufRead> BufRead for LineCounter<R> {
    fn fill_buf(&mut self) -> io::Result<&[u8]> {
        self.inner.fill_buf()
    }

    fn consume(&mut self, count: usize) {
        if let Ok(available) = self.inner.fill_buf() {
            self.place.pass(&available[..count.min(available.len())]);
        }
        self.inner.consume(count);
    }
}

/// Tells the caller how far the work is, by bytes, now and then.
pub(super) struct Ticker<'a> {
    tell: &'a mut dyn FnMut(Progress),
    total: u64,
    before: u64,
    told: u64,
}

impl<'a> Ticker<'a> {
    /// `total` bytes are to be read in all, over all passes.
    pub(super) fn new(tell: &'a mut dyn FnMut(Progress), total: u64) -> Self {
        tell(Progress { done_bytes: 0, total_bytes: total });
        Ticker { tell, total, before: 0, told: 0 }
    }

    /// In this pass so many bytes have been read.
    pub(super) fn at(&mut self, read: u64) {
        let done = (self.before + read).min(self.total);
        if done >= self.told + REPORT_EVERY_BYTES {
            self.told = done;
            (self.tell)(Progress { done_bytes: done, total_bytes: self.total });
        }
    }

    /// A pass over that many bytes is over.
    pub(super) fn pass_over(&mut self, bytes: u64) {
        self.before += bytes;
    }

    /// Everything is read.
    pub(super) fn finish(&mut self) {
        (self.tell)(Progress { done_bytes: self.total, total_bytes: self.total });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_are_counted_through_any_kind_of_reading() {
        let (mut reader, place) = LineCounter::new(&b"ab\ncde\n\nf"[..]);
        assert_eq!(place.get(), (1, 1));
        reader.consume(2);
        assert_eq!(place.get(), (1, 3));
        let mut two = [0; 3];
        reader.read_exact(&mut two).unwrap();
        assert_eq!(place.get(), (2, 3));
        let mut rest = String::new();
        reader.read_to_string(&mut rest).unwrap();
        assert_eq!((rest.as_str(), place.get()), ("e\n\nf", (4, 2)));
    }
}
