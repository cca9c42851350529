//! The report as one page: no scripts, nothing fetched, dark where the reader's screen is, and fit to be printed.

use std::borrow::Cow;

use maud::{DOCTYPE, Markup, PreEscaped, html as page};
use model::month_report::{ReportSheet, SheetPlot, SheetSection, SheetTable};
use words::Language;
use words::direction::in_paragraph;

const STYLE: &str = include_str!("report.css");

/// A page that runs one way or the other: texts whose signs and figures keep their order in it.
#[derive(Clone, Copy)]
struct Page {
    right_to_left: bool,
}

impl Page {
    fn text(self, text: &str) -> Cow<'_, str> {
        in_paragraph(text, self.right_to_left)
    }
}

/// The page.
pub fn html(sheet: &ReportSheet) -> String {
    let right_to_left = Language::of_code(&sheet.language).is_some_and(Language::is_right_to_left);
    let of = Page { right_to_left };
    let title = format!("{}, {}", sheet.district, sheet.title);
    page! {
        (DOCTYPE)
        html lang=(sheet.language) dir=(if right_to_left { "rtl" } else { "ltr" }) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    p.district { (of.text(&sheet.district)) }
                    h1 { (of.text(&sheet.title)) }
                    p.about { (of.text(&sheet.about)) }
                }
                main { @for section in &sheet.sections { (of.section(section)) } }
                footer { (of.text(&sheet.footer)) }
            }
        }
    }
    .into_string()
}

impl Page {
    fn section(self, section: &SheetSection) -> Markup {
        page! {
            section {
                h2 { (self.text(&section.heading)) }
                @if !section.facts.is_empty() {
                    dl { @for [what, value] in &section.facts { div { dt { (self.text(what)) } dd { (self.text(value)) } } } }
                }
                @for line in &section.lines { p { (self.emphasised(line)) } }
                @for table in &section.tables { (self.table(table)) }
                @if !section.plots.is_empty() { div.plots { @for plot in &section.plots { (self.plot(plot)) } } }
                @for note in &section.notes { p.note { (self.text(note)) } }
            }
        }
    }

    /// Words between double stars stand out.
    fn emphasised(self, line: &str) -> Markup {
        page! {
            @for (at, part) in line.split("**").enumerate() {
                @if at % 2 == 1 { strong { (self.text(part)) } } @else { (self.text(part)) }
            }
        }
    }

    fn table(self, table: &SheetTable) -> Markup {
        let class = |at: usize| table.head.get(at).is_some_and(|(_, number)| *number).then_some("number");
        page! {
            div.scrolls tabindex="0" {
                table {
                    @if !table.caption.is_empty() { caption { span { (self.text(&table.caption)) } } }
                    thead {
                        tr { @for (at, (head, _)) in table.head.iter().enumerate() { th scope="col" class=[class(at)] { (self.text(head)) } } }
                    }
                    tbody {
                        @for row in &table.rows {
                            tr { @for (at, cell) in row.iter().enumerate() { td class=[class(at)] { (self.text(cell)) } } }
                        }
                    }
                }
            }
        }
    }

    fn plot(self, plot: &SheetPlot) -> Markup {
        // our own drawings: the words in them are escaped where they are drawn
        page! { figure { figcaption { (self.text(&plot.caption)) } (PreEscaped(&plot.svg)) } }
    }
}
