//! Sheets of soil tests: read with their units, every fault said with its place.

use exchange::soil_files::{read_sieve_bytes, read_specimen_bytes};
use model::problem::ProblemSeverity;
use model::quantity::{InLength, InMass, InMassDensity, InRatio, InVolume};
use model::soil::{DensityReading, SieveMark, SieveReading};
use proptest::prelude::*;

fn specimen_faults(text: &str) -> Vec<String> {
    read_specimen_bytes("s.csv", text.as_bytes()).problems.iter().map(ToString::to_string).collect()
}

fn sieve_faults(text: &str) -> Vec<String> {
    read_sieve_bytes("s.csv", text.as_bytes()).problems.iter().map(ToString::to_string).collect()
}

fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6 * expected.abs().max(1e-6), "{found} {expected}");
}

#[test]
fn specimens_in_each_way_to_write_them() {
    let file = read_specimen_bytes("s.csv", b"moisture (%),dry density (kg/m3)\n4.0,2050\n\n6.0,2101.5\n");
    assert!(file.problems.is_empty());
    assert_eq!((file.rows, file.refused_rows, file.readings.len()), (2, 0, 2));
    near(file.readings[1].moisture.in_percent(), 6.0);
    let DensityReading::Dry(dry) = file.readings[1].density else { panic!() };
    near(dry.in_kilograms_per_cubic_metre(), 2101.5);
    assert_eq!((file.readings[1].from.line, file.readings[1].from.column), (4, 1));
    let file = read_specimen_bytes("s.csv", b"\xEF\xBB\xBFWater_content_percent;wet density (g/cm3)\n4,5;2,2\n");
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    near(file.readings[0].moisture.in_percent(), 4.5);
    let DensityReading::Wet(wet) = file.readings[0].density else { panic!() };
    near(wet.in_kilograms_per_cubic_metre(), 2200.0);
    let file = read_specimen_bytes(
        "s.csv",
        b"w (fraction),mould full (g),mould empty (kg),mould volume (cm3)\n0.08,6160,4.0,1000\n",
    );
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    let DensityReading::Mould { full, empty, volume } = file.readings[0].density else { panic!() };
    near(full.in_kilograms(), 6.16);
    near(empty.in_kilograms(), 4.0);
    near(volume.in_litres(), 1.0);
    // Pounds and cubic feet by their definitions; without a column for the empty mould the soil was weighed alone.
    let file = read_specimen_bytes("s.csv", b"moisture (%),wet mass (lb),volume (ft3)\n8.4,3.26,0.033333\n");
    let DensityReading::Mould { full, empty, volume } = file.readings[0].density else { panic!("{:?}", file.problems) };
    near(full.in_kilograms(), 1.478711);
    assert_eq!(empty.in_kilograms(), 0.0);
    near(volume.in_cubic_metres(), 0.033333 * 0.028316846592);
}

#[test]
fn faults_of_specimens_say_where_and_what() {
    assert_eq!(
        specimen_faults("moisture,dry density (kg/m3)\n4,2000\n"),
        [
            "s.csv:1:1: moisture: `moisture` names no unit, and none is guessed; name it in the header, e.g. `moisture (%)` \
          [table.unit.missing]"
        ]
    );
    assert_eq!(
        specimen_faults("moisture (%),dry density (stone)\n"),
        ["s.csv:1:14: dry density (stone): `stone` is not a known unit here; known: kg/m3, g/cm3, lb/ft3 \
          [table.unit.unknown]"]
    );
    let several = specimen_faults(
        "moisture (%),dry density (kg/m3),note\n4,x,a\n5,NaN,b\n6,9000,c\n,2000,d\n7,,e\n8,2000 kg,f\n9\n\"4,2000,g\n",
    );
    let expected = [
        "s.csv:1:1: nothing is read from: note; known: moisture, dry density, wet density, mould full, mould empty, \
         mould volume [table.column.unused]",
        "s.csv:2:3: dry density: `x`: `x` is not a number; write a plain number; the unit is the header's \
         [table.number.unreadable]",
        "s.csv:3:3: dry density: `NaN`: the number is not finite; write a plain number; the unit is the header's \
         [table.number.unreadable]",
        "s.csv:4:3: dry density: dry density 9000 is out of range; between 800 and 3000 kg_per_m3 (common practice, no \
         source: pumice to dense crushed rock) [table.number.out_of_range]",
        "s.csv:5:1: there is no moisture; write it, or delete the row [proctor.point.incomplete]",
        "s.csv:6:1: there is no density; write it, or delete the row [proctor.point.incomplete]",
        "s.csv:7:3: dry density: `2000 kg`: `kg` stands behind the number; write a plain number; the unit is the \
         header's [table.number.unreadable]",
        "s.csv:8:1: 1 fields where the header has 3; write every field; leave one empty where nothing is known \
         [table.row.field_count]",
        "s.csv:9:1: a quote is opened here that is not closed where the cell ends; close it [table.quote]",
    ];
    assert_eq!(several, expected);
    let file = read_specimen_bytes("s.csv", b"moisture (%),dry density (kg/m3)\n4,x\n5,2000\n");
    assert_eq!((file.rows, file.refused_rows, file.readings.len()), (2, 1, 1));
}

#[test]
fn files_of_no_use_are_fatal() {
    for (text, code) in [
        ("", "table.empty"),
        ("moisture (%),dry density (kg/m3)\n", "table.empty"),
        ("dry density (kg/m3)\n2000\n", "table.column.missing"),
        ("moisture (%)\n5\n", "table.column.missing"),
        ("moisture (%),w (%),dry density (kg/m3)\n5,5,2000\n", "table.column.twice"),
        ("moisture (%),\"dry\n5,2000\n", "table.quote"),
    ] {
        let file = read_specimen_bytes("s.csv", text.as_bytes());
        let fatal: Vec<&str> =
            file.problems.iter().filter(|p| p.severity == ProblemSeverity::Fatal).map(|p| p.code).collect();
        assert_eq!(fatal, [code], "{text:?}");
        assert!(file.readings.is_empty());
    }
    let utf16 = read_specimen_bytes("s.csv", b"\xFF\xFEm\0");
    assert_eq!(utf16.problems[0].code, "file.not_utf8");
    let latin = read_specimen_bytes("s.csv", b"moisture (%),dry density (kg/m3)\n4,20\xB00\n5,2000\n");
    assert_eq!((latin.problems[0].code, latin.readings.len()), ("table.row.not_utf8", 1));
    let nowhere = exchange::soil_files::read_specimens(std::path::Path::new("nowhere.csv"));
    assert_eq!(nowhere.problems[0].code, "file.unreadable");
    let nowhere = exchange::soil_files::read_sieves(std::path::Path::new("nowhere.csv"));
    assert_eq!(nowhere.problems[0].code, "file.unreadable");
}

#[test]
fn several_ways_at_once_go_by_what_was_weighed() {
    let file =
        read_specimen_bytes("s.csv", b"moisture (%),dry density (kg/m3),wet density (kg/m3)\n5,2000,2110\n6,2000,\n");
    assert_eq!((file.problems.len(), file.problems[0].code), (1, "proctor.density.several"));
    assert_eq!(file.problems[0].severity, ProblemSeverity::Warning);
    assert!(matches!(file.readings[0].density, DensityReading::Wet(_)));
    assert!(matches!(file.readings[1].density, DensityReading::Dry(_)));
}

#[test]
fn sieves_are_read_however_they_are_named() {
    let text = "sieve,retained (g)\n2 in,0\n3/8 in,100\n4.75 mm,200\nNo. 10,300\n#40,50\nno 100,1\n75 \u{b5}m,40\n53um,2\npan,30\nwashed,20\ntotal,743\n";
    let file = read_sieve_bytes("s.csv", text.as_bytes());
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    assert_eq!((file.rows, file.refused_rows), (11, 0));
    let marks: Vec<String> = file
        .sample
        .sieves
        .iter()
        .map(|(mark, ..)| match mark {
            SieveMark::Number(number) => format!("No. {number}"),
            SieveMark::Opening(opening) => format!("{:.3}", opening.in_millimetres()),
        })
        .collect();
    assert_eq!(marks, ["50.800", "9.525", "4.750", "No. 10", "No. 40", "No. 100", "0.075", "0.053"]);
    let kilograms = |mass: Option<model::quantity::Mass>| mass.map(|mass| (1e6 * mass.in_kilograms()).round() / 1e6);
    let rest = [file.sample.pan, file.sample.washed, file.sample.total].map(kilograms);
    assert_eq!(rest, [Some(0.03), Some(0.02), Some(0.743)]);
    let file = read_sieve_bytes("s.csv", b"sieve (mm),passing (%)\n25,100\n0.075,8.5\nNo. 4,40\n1 in,99\n");
    assert!(file.problems.is_empty(), "{:?}", file.problems);
    let SieveReading::Passing(share) = file.sample.sieves[1].1 else { panic!() };
    near(share.in_percent(), 8.5);
    assert!(matches!(file.sample.sieves[3].0, SieveMark::Opening(o) if (o.in_millimetres() - 25.4).abs() < 1e-9));
}

#[test]
fn faults_of_sieves_say_where_and_what() {
    let right = "write e.g. `No. 200`, `4.75 mm`, `75 µm`, `3/8 in`, or pan, washed, total [sieves.sieve.unreadable]";
    let found =
        sieve_faults("sieve,passing (%)\n4.75,50\nNo. x,40\n5 mm um,30\n,20\n500 mm,10\n2 mm,\n2 mm,101\npan,5\n");
    let expected = [
        format!("s.csv:2:1: `4.75`: a number alone may be millimetres or a sieve number; {right}"),
        format!("s.csv:3:1: `No. x` is no sieve number; {right}"),
        format!("s.csv:4:1: `5 mm um`: two units; {right}"),
        "s.csv:5:1: there is no sieve; write it, or delete the row [sieves.row.incomplete]".into(),
        "s.csv:6:1: no sieve has an opening of 500 mm; between 0.01 and 300 mm (common practice, no source: no sieve is \
         finer or coarser) [table.number.out_of_range]"
            .into(),
        "s.csv:7:1: there is no reading; write it, or delete the row [sieves.row.incomplete]".into(),
        "s.csv:8:6: passing: passing 101 is out of range; between 0 and 100 percent (definition: a share of the sample) \
         [table.number.out_of_range]"
            .into(),
        "s.csv:9:1: there is no mass; write it, or delete the row [sieves.row.incomplete]".into(),
    ];
    assert_eq!(found, expected);
    let twice = sieve_faults("sieve,retained (g)\npan,5\npan,6\n");
    assert_eq!(
        twice,
        [
            "s.csv:3:1: `pan` stands here a second time; keep one of them [sieves.row.twice]",
            "s.csv:1:1: a row of masses can't be used, so no share is known; mend the row that is refused here \
             [sieves.sample.unusable]"
        ]
    );
    for text in ["sieve,retained (g),passing (%)\n", "sieve\n", "retained (g)\n", "sieve,retained (g)\n", ""] {
        let file = read_sieve_bytes("s.csv", text.as_bytes());
        assert!(file.problems.iter().any(|p| p.severity == ProblemSeverity::Fatal), "{text:?}");
    }
}

proptest! {
    /// Any bytes give an answer, and no row is lost.
    #[test]
    fn any_bytes_give_an_answer(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let _ = read_specimen_bytes("s", &bytes);
        let _ = read_sieve_bytes("s", &bytes);
    }

    #[test]
    fn rows_are_read_or_refused(rows in prop::collection::vec("[-0-9.,;%a-z\" ]{0,12},[-0-9.eNan]{0,8}", 1..12)) {
        let text = format!("moisture (%),dry density (kg/m3)\n{}\n", rows.join("\n"));
        let file = read_specimen_bytes("s", text.as_bytes());
        prop_assert_eq!(file.rows, file.readings.len() + file.refused_rows);
        let text = format!("sieve,passing (%)\n{}\n", rows.join("\n"));
        let file = read_sieve_bytes("s", text.as_bytes());
        prop_assert_eq!(file.rows, file.sample.sieves.len() + file.refused_rows);
    }
}
