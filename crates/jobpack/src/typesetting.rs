//! The typesetter and its small closed world: our templates, our fonts, the data and the drawings; no disk, no clock.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use jiff::civil::Date;
use model::plan::Plan;
use serde::Serialize;
use serde_json::Value;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, Timestamp};
use words::{Language, Words};

use crate::JobPackError;
use crate::fonts;
use crate::printable::make_breakable;
use crate::sheet::Pack;

const MAIN: &str = "pack.typ";

const TEMPLATES: [(&str, &str); 6] = [
    (MAIN, include_str!("../templates/pack.typ")),
    ("common.typ", include_str!("../templates/common.typ")),
    ("cover.typ", include_str!("../templates/cover.typ")),
    ("zone.typ", include_str!("../templates/zone.typ")),
    ("hole.typ", include_str!("../templates/hole.typ")),
    ("report.typ", include_str!("../templates/report.typ")),
];

static BOOK: LazyLock<LazyHash<FontBook>> = LazyLock::new(|| LazyHash::new(FontBook::from_fonts(fonts::all())));

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// What is printed.
pub struct Print {
    /// The template that it begins with.
    pub main: &'static str,
    /// The data as the template reads it, and the name it reads it by.
    pub data_name: &'static str,
    /// Likewise.
    pub data: Value,
    /// Drawings by file name.
    pub drawings: Vec<(String, String)>,
    /// The language of what the templates say themselves.
    pub language: Language,
    /// Tells one print from another.
    pub identity: String,
    /// The day that the file says it is of.
    pub date: Date,
}

/// Sets the pages of a plan and writes the PDF.
pub fn typeset_pack(plan: &Plan, pack: &Pack) -> Result<Vec<u8>, JobPackError> {
    typeset(Print {
        main: MAIN,
        data_name: "pack.json",
        data: serde_json::to_value(pack)?,
        drawings: pack.drawings().map(|(name, svg)| (name.to_owned(), svg.to_owned())).collect(),
        language: pack.language,
        identity: format!("{} {} {}", plan.district.name, plan.date, plan.seed),
        date: plan.date,
    })
}

/// Sets the pages and writes the PDF.
pub fn typeset(print: Print) -> Result<Vec<u8>, JobPackError> {
    let options = PdfOptions {
        // The same data must give the same bytes: identity and date come from it, never from the clock.
        ident: Smart::Custom(print.identity.clone()),
        creator: Smart::Custom(Some("lengthsman".into())),
        timestamp: datetime(print.date).map(Timestamp::new_utc),
        ..PdfOptions::default()
    };
    let world = PrintWorld::new(print)?;
    let document = typst::compile::<PagedDocument>(&world).output.map_err(|errors| refused(&errors))?;
    let bytes = typst_pdf::pdf(&document, &options).map_err(|errors| refused(&errors));
    // A long-running server prints many packs; what this one left in the typesetter's memory is of no use to the next.
    typst::comemo::evict(1);
    bytes
}

fn refused(errors: &[SourceDiagnostic]) -> JobPackError {
    JobPackError::Typesetting(errors.iter().map(|e| e.message.to_string()).collect::<Vec<_>>().join("\n"))
}

fn datetime(date: Date) -> Option<Datetime> {
    let month = u8::try_from(date.month()).ok()?;
    let day = u8::try_from(date.day()).ok()?;
    Datetime::from_ymd_hms(i32::from(date.year()), month, day, 0, 0, 0)
}

struct PrintWorld {
    sources: BTreeMap<String, Source>,
    files: BTreeMap<String, Bytes>,
    main: FileId,
}

impl PrintWorld {
    fn new(print: Print) -> Result<Self, JobPackError> {
        let mut sources = BTreeMap::new();
        for (name, text) in TEMPLATES {
            sources.insert(name.to_owned(), Source::new(file_id(name)?, text.to_owned()));
        }
        let mut data = print.data;
        make_breakable(&mut data, print.language.is_right_to_left());
        let words = serde_json::to_vec(&TemplateWords::of(print.language))?;
        let mut files = BTreeMap::from([
            (print.data_name.to_owned(), Bytes::new(serde_json::to_vec(&data)?)),
            ("words.json".to_owned(), Bytes::new(words)),
        ]);
        for (name, svg) in print.drawings {
            files.insert(name, Bytes::from_string(svg));
        }
        Ok(PrintWorld { sources, files, main: file_id(print.main)? })
    }
}

/// What the templates say themselves.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct TemplateWords {
    right_to_left: bool,
    /// By key.
    messages: BTreeMap<&'static str, String>,
}

impl TemplateWords {
    fn of(language: Language) -> Self {
        let words = Words(language);
        let mut messages: BTreeMap<&str, String> = TEMPLATE_KEYS.iter().map(|&key| (key, words.say(key))).collect();
        // Only the typesetter knows the numbers.
        let page = words.say_with("sheet-page", [("page", "{page}".into()), ("pages", "{pages}".into())]);
        messages.insert("sheet-page", page);
        TemplateWords { right_to_left: language.is_right_to_left(), messages }
    }
}

/// The keys that stand in the templates.
static TEMPLATE_KEYS: LazyLock<Vec<&str>> = LazyLock::new(|| {
    let strings = TEMPLATES.iter().flat_map(|(_, text)| text.split('"').skip(1).step_by(2));
    strings.filter(|text| text.starts_with("sheet-") && *text != "sheet-page").collect()
});

fn file_id(name: &str) -> Result<FileId, JobPackError> {
    let path = VirtualPath::new(name).map_err(|_| JobPackError::Typesetting(format!("bad file name {name}")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for PrintWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let path = id.get().vpath();
        self.sources
            .get(path.get_without_slash())
            .cloned()
            .ok_or_else(|| FileError::NotFound(path.get_without_slash().into()))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let path = id.get().vpath();
        self.files
            .get(path.get_without_slash())
            .cloned()
            .ok_or_else(|| FileError::NotFound(path.get_without_slash().into()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts::all().get(index).cloned()
    }

    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
