//! A district's month on paper.

use jiff::civil::Date;
use model::district::Paper;
use model::month_report::{ReportSheet, SheetSection};
use serde_json::{Value, json};
use words::Language;

use crate::JobPackError;
use crate::typesetting::{Print, typeset};

/// Prints the report of a month as PDF. The same sheet gives the same bytes; `until` is the day that the file says it is of.
///
/// # Errors
/// [`JobPackError::Typesetting`] when the templates can't be set; no text in the sheet can cause it.
pub fn month_report_pdf(sheet: &ReportSheet, until: Date) -> Result<Vec<u8>, JobPackError> {
    let mut drawings: Vec<(String, String)> = Vec::new();
    let sections: Vec<Value> = sheet.sections.iter().map(|section| section_json(section, &mut drawings)).collect();
    let data = json!({
        "language": sheet.language,
        "title": sheet.title,
        "district": sheet.district,
        "about": sheet.about,
        "footer": sheet.footer,
        "paper": match sheet.paper { Paper::A4 => "a4", Paper::UsLetter => "us-letter" },
        "sections": sections,
    });
    typeset(Print {
        main: "report.typ",
        data_name: "report.json",
        data,
        drawings,
        language: Language::of_code(&sheet.language).unwrap_or_default(),
        identity: format!("{}, {}, {}", sheet.district, sheet.title, sheet.footer),
        date: until,
    })
}

fn section_json(section: &SheetSection, drawings: &mut Vec<(String, String)>) -> Value {
    let plots = section.plots.iter().map(|plot| {
        // a number: a name with digits in it would be set as words are
        let number = drawings.len();
        drawings.push((format!("plot-{number}.svg"), plot.svg.clone()));
        json!({ "caption": plot.caption, "number": number })
    });
    let plots: Vec<Value> = plots.collect();
    json!({
        "heading": section.heading,
        "facts": section.facts,
        "lines": section.lines,
        "tables": section.tables,
        "plots": plots,
        "notes": section.notes,
    })
}
