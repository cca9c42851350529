//! The report as one page: no scripts, nothing fetched, dark where the reader's screen is, and fit to be printed.

use maud::{DOCTYPE, Markup, PreEscaped, html as page};
use model::month_report::{ReportSheet, SheetPlot, SheetSection, SheetTable};

const STYLE: &str = include_str!("report.css");

/// The page.
pub fn html(sheet: &ReportSheet) -> String {
    let title = format!("{}, {}", sheet.district, sheet.title);
    page! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    p.district { (sheet.district) }
                    h1 { (sheet.title) }
                    p.about { (sheet.about) }
                }
                main { @for section in &sheet.sections { (section_of(section)) } }
                footer { (sheet.footer) }
            }
        }
    }
    .into_string()
}

fn section_of(section: &SheetSection) -> Markup {
    page! {
        section {
            h2 { (section.heading) }
            @if !section.facts.is_empty() {
                dl { @for [what, value] in &section.facts { div { dt { (what) } dd { (value) } } } }
            }
            @for line in &section.lines { p { (emphasised(line)) } }
            @for table in &section.tables { (table_of(table)) }
            @if !section.plots.is_empty() { div.plots { @for plot in &section.plots { (plot_of(plot)) } } }
            @for note in &section.notes { p.note { (note) } }
        }
    }
}

/// Words between double stars stand out.
fn emphasised(line: &str) -> Markup {
    page! {
        @for (at, part) in line.split("**").enumerate() {
            @if at % 2 == 1 { strong { (part) } } @else { (part) }
        }
    }
}

fn table_of(table: &SheetTable) -> Markup {
    let class = |at: usize| table.head.get(at).is_some_and(|(_, number)| *number).then_some("number");
    page! {
        div.scrolls {
            table {
                @if !table.caption.is_empty() { caption { (table.caption) } }
                thead { tr { @for (at, (head, _)) in table.head.iter().enumerate() { th scope="col" class=[class(at)] { (head) } } } }
                tbody {
                    @for row in &table.rows {
                        tr { @for (at, cell) in row.iter().enumerate() { td class=[class(at)] { (cell) } } }
                    }
                }
            }
        }
    }
}

fn plot_of(plot: &SheetPlot) -> Markup {
    // our own drawings: the words in them are escaped where they are drawn
    page! { figure { figcaption { (plot.caption) } (PreEscaped(&plot.svg)) } }
}
