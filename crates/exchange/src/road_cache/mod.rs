//! Roads made ready once and kept in a folder that the caller names, so that a large file is read once.
//!
//! A kept network is found by the content of everything that it was made of: the road file and the files beside it, the
//! rules, the table that they join. It is used only if it is whole, by its own checksum, and of this program's format;
//! otherwise the caller is told and makes it anew. Nothing else in the folder is touched, and all of it may be deleted at any
//! time.

mod stored;

use std::collections::BTreeMap;
use std::fs::File;
use std::hash::Hasher;
use std::io::{self, BufReader, BufWriter, Read, Write};
use std::path::{Path, PathBuf};

use model::problem::{Locator, Problem, ProblemSeverity};
use model::road::RoadNetwork;
use model::rules::roads::RoadDefaults;
use siphasher::sip128::{Hasher128, SipHasher13};

use stored::{About, Frame};

/// What every kept file begins with.
const MAGIC: &[u8; 8] = b"LMROADS\n";
/// Raised with every change of what is kept, or of how roads are read and cut into sections.
const FORMAT: u32 = 1;
/// No frame is longer, so that a damaged length asks for no more memory.
const LONGEST_FRAME: u32 = 1 << 26;
/// So many sections or numbers to a frame.
const TO_A_FRAME: usize = 4096;

/// Roads as they are kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct KeptRoads {
    /// The network, best with its order of contraction.
    pub network: RoadNetwork,
    /// What could not be used when it was made, and why.
    pub problems: Vec<Problem>,
    /// What must be printed wherever the data are shown.
    pub attribution: Option<String>,
    /// Lines left out on purpose: how many by which word.
    pub left_out: BTreeMap<String, usize>,
}

/// A folder of kept roads.
#[derive(Debug, Clone)]
pub struct RoadCache {
    folder: PathBuf,
}

/// By which content kept roads are found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RoadCacheKey {
    name: String,
}

impl RoadCacheKey {
    /// Of a road file, the files beside it that belong to it, and the rules that it is read by. Reads all of them.
    ///
    /// # Errors
    /// The road file can't be read.
    pub fn new(path: &Path, defaults: &RoadDefaults) -> io::Result<Self> {
        let mut hasher = SipHasher13::new();
        hasher.write(env!("CARGO_PKG_VERSION").as_bytes());
        hasher.write_u32(FORMAT);
        // What was wrong is said with the file's name.
        hasher.write(path.display().to_string().as_bytes());
        hasher.write(format!("{defaults:?}").as_bytes());
        hash_file(path, &mut hasher)?;
        let mut beside: Vec<PathBuf> = ["dbf", "prj", "cpg"].iter().map(|kind| path.with_extension(kind)).collect();
        beside.extend(defaults.join.iter().map(|join| path.with_file_name(&join.file.value)));
        for file in beside {
            // One that is not there leaves the place empty.
            let is_there = hash_file(&file, &mut hasher).is_ok();
            hasher.write_u8(u8::from(is_there));
        }
        let stem = path.file_name().unwrap_or_default().to_string_lossy();
        let stem: String = stem.chars().filter(|letter| letter.is_alphanumeric() || *letter == '-').take(40).collect();
        Ok(RoadCacheKey { name: format!("{stem}-{:032x}.roads", hasher.finish128().as_u128()) })
    }
}

impl RoadCache {
    /// The cache in that folder, which need not be there yet.
    pub fn new(folder: impl Into<PathBuf>) -> Self {
        RoadCache { folder: folder.into() }
    }

    /// The kept roads; `None` where none are kept for that content.
    ///
    /// # Errors
    /// They are damaged, or of another version of this program: a warning. Make them anew and keep those.
    pub fn load(&self, key: &RoadCacheKey) -> Result<Option<KeptRoads>, Box<Problem>> {
        let path = self.folder.join(&key.name);
        let file = match File::open(&path) {
            Ok(file) => file,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(damaged(&path, &format!("can't be read: {error}"))),
        };
        let mut reader = Checked { inner: BufReader::new(file), hasher: SipHasher13::new() };
        match reader.version() {
            Ok(FORMAT) => {}
            Ok(other) => {
                let wrong = format!("the kept roads are of format {other}, this program's is {FORMAT}");
                return Err(warning("road.cache.old", &path, wrong, "nothing: they are made anew"));
            }
            Err(why) => return Err(damaged(&path, &why)),
        }
        reader.roads().map(Some).map_err(|why| damaged(&path, &why))
    }

    /// Keeps roads. They appear in the folder whole or not at all.
    ///
    /// # Errors
    /// The folder can't be written: a warning, nothing is kept.
    pub fn save(&self, key: &RoadCacheKey, roads: &KeptRoads) -> Result<(), Box<Problem>> {
        let path = self.folder.join(&key.name);
        let part = path.with_extension(format!("part{}", std::process::id()));
        let written = std::fs::create_dir_all(&self.folder)
            .and_then(|()| write(&part, roads))
            .and_then(|()| std::fs::rename(&part, &path));
        written.map_err(|error| {
            // What is left of the attempt is of no use; that it may not be there is no fault.
            let _ = std::fs::remove_file(&part);
            let right = "a folder that can be written, with room; the roads are read anew each time";
            warning("road.cache.unwritable", &path, format!("can't be kept: {error}"), right)
        })
    }
}

fn hash_file(path: &Path, hasher: &mut SipHasher13) -> io::Result<()> {
    let mut file = File::open(path)?;
    let mut buffer = vec![0; 1 << 16];
    loop {
        match file.read(&mut buffer)? {
            0 => return Ok(()),
            count => hasher.write(&buffer[..count]),
        }
    }
}

fn write(path: &Path, roads: &KeptRoads) -> io::Result<()> {
    let mut writer = Checked { inner: BufWriter::new(File::create(path)?), hasher: SipHasher13::new() };
    writer.put(MAGIC)?;
    writer.put(&FORMAT.to_le_bytes())?;
    writer.put_frame(&Frame::About(About::of(roads)))?;
    for nodes in roads.network.nodes.chunks(TO_A_FRAME) {
        writer.put_frame(&Frame::Nodes(nodes.iter().map(|place| (place.lon, place.lat)).collect()))?;
    }
    for sections in roads.network.sections.chunks(TO_A_FRAME) {
        writer.put_frame(&Frame::Sections(sections.iter().map(stored::section).collect()))?;
    }
    for turns in roads.network.restrictions.chunks(TO_A_FRAME) {
        writer.put_frame(&Frame::Restrictions(turns.iter().map(stored::restriction).collect()))?;
    }
    for order in roads.network.contraction_order.chunks(TO_A_FRAME) {
        writer.put_frame(&Frame::Order(order.to_vec()))?;
    }
    writer.put_frame(&Frame::End)?;
    let sum = writer.hasher.finish128().as_u128();
    writer.inner.write_all(&sum.to_le_bytes())?;
    writer.inner.flush()
}

/// A stream with the checksum of what has passed.
struct Checked<S> {
    inner: S,
    hasher: SipHasher13,
}

impl<W: Write> Checked<W> {
    fn put(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.hasher.write(bytes);
        self.inner.write_all(bytes)
    }

    fn put_frame(&mut self, frame: &Frame) -> io::Result<()> {
        let bytes: Vec<u8> = postcard::to_extend(frame, Vec::new()).map_err(io::Error::other)?;
        let length = u32::try_from(bytes.len()).ok().filter(|length| *length <= LONGEST_FRAME);
        let length = length.ok_or_else(|| io::Error::other("a part is too long to be kept"))?;
        self.put(&length.to_le_bytes())?;
        self.put(&bytes)
    }
}

impl<R: Read> Checked<R> {
    fn version(&mut self) -> Result<u32, String> {
        if self.take::<8>()? != *MAGIC {
            return Err("it does not begin as kept roads do".to_owned());
        }
        self.take().map(u32::from_le_bytes)
    }

    fn roads(&mut self) -> Result<KeptRoads, String> {
        let mut roads = KeptRoads::default();
        let mut abouts = Vec::new();
        loop {
            match self.frame()? {
                Frame::About(about) => abouts.push(about),
                Frame::Nodes(nodes) => roads.network.nodes.extend(nodes.into_iter().map(stored::place)),
                Frame::Sections(sections) => {
                    for section in sections {
                        let index = roads.network.sections.len() as u32;
                        let section = section.restored(index).ok_or("a section can't be read")?;
                        roads.network.sections.push(section);
                    }
                }
                Frame::Restrictions(turns) => {
                    let restored = turns.into_iter().map(stored::StoredRestriction::restored);
                    roads.network.restrictions.extend(restored);
                }
                Frame::Order(order) => roads.network.contraction_order.extend(order),
                Frame::End => break,
            }
        }
        let own = self.hasher.finish128().as_u128();
        let mut sum = [0; 16];
        self.inner.read_exact(&mut sum).map_err(|error| error.to_string())?;
        if u128::from_le_bytes(sum) != own {
            return Err("its checksum is not that of its content".to_owned());
        }
        for about in abouts {
            about.put_into(&mut roads).ok_or("its problems can't be read")?;
        }
        Ok(roads)
    }

    fn frame(&mut self) -> Result<Frame, String> {
        let length = u32::from_le_bytes(self.take()?);
        if length > LONGEST_FRAME {
            return Err(format!("a part of {length} bytes"));
        }
        let mut bytes = vec![0; length as usize];
        self.inner.read_exact(&mut bytes).map_err(|error| error.to_string())?;
        self.hasher.write(&bytes);
        postcard::from_bytes(&bytes).map_err(|error| error.to_string())
    }

    fn take<const N: usize>(&mut self) -> Result<[u8; N], String> {
        let mut bytes = [0; N];
        self.inner.read_exact(&mut bytes).map_err(|error| error.to_string())?;
        self.hasher.write(&bytes);
        Ok(bytes)
    }
}

fn damaged(path: &Path, why: &str) -> Box<Problem> {
    let wrong = format!("the kept roads are damaged: {why}");
    warning("road.cache.damaged", path, wrong, "nothing: they are made anew")
}

fn warning(code: &'static str, path: &Path, wrong: String, right: &str) -> Box<Problem> {
    let at = Locator { file: path.display().to_string(), ..Locator::default() };
    let subject = "kept roads".to_owned();
    Box::new(Problem { code, severity: ProblemSeverity::Warning, at, subject, wrong, right: right.to_owned() })
}
