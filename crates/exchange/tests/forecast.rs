//! Forecast files: what is read, what is refused and where, clock changes, and that nothing is lost.

use exchange::forecast::{ForecastFile, read_forecast, read_forecast_bytes};
use jiff::tz::TimeZone;
use model::problem::ProblemSeverity;
use model::quantity::InRatio;
use proptest::prelude::*;

fn zone(name: &str) -> TimeZone {
    TimeZone::get(name).expect("a zone of the database")
}

fn read_in(name: &str, text: &str) -> ForecastFile {
    let file = read_forecast_bytes("f.csv", text.as_bytes(), &zone(name));
    assert_eq!(file.rows, file.forecast.hours.len() + file.refused_rows);
    file
}

fn read(text: &str) -> ForecastFile {
    read_in("Etc/GMT+2", text)
}

/// Every problem, one a line.
fn said(file: &ForecastFile) -> String {
    let line = |problem: &model::problem::Problem| {
        let mark = if problem.severity == ProblemSeverity::Warning { "used: " } else { "" };
        format!("{mark}{problem}\n")
    };
    file.problems.iter().map(line).collect::<Vec<_>>().concat()
}

/// Begin and end of every hour, as UTC.
fn spans(file: &ForecastFile) -> Vec<String> {
    file.forecast.hours.iter().map(|hour| format!("{} {}", hour.from, hour.to)).collect()
}

#[test]
fn hours_with_offsets_and_by_the_clock() {
    let file = read(
        "from,to,air_temperature_c,rain_mm,rain_chance_percent\n\
         2026-06-09T07:00:00-02:00,2026-06-09T08:00:00-02:00,-1.5,0,10\n\
         2026-06-09T10:00:00Z,,12,0.4,\n\
         2026-06-09 09:00,2026-06-09 12:00,14,6,85\n",
    );
    assert_eq!(said(&file), "");
    assert_eq!(
        spans(&file),
        [
            "2026-06-09T09:00:00Z 2026-06-09T10:00:00Z",
            "2026-06-09T10:00:00Z 2026-06-09T11:00:00Z",
            "2026-06-09T11:00:00Z 2026-06-09T14:00:00Z"
        ]
    );
    let [first, second, third] = file.forecast.hours[..] else { panic!("three hours") };
    assert_eq!((first.air_temperature_c, first.rain_mm), (-1.5, 0.0));
    assert!((first.rain_chance.expect("a chance").in_percent() - 10.0).abs() < 1e-9);
    assert_eq!((second.rain_mm, second.rain_chance), (0.4, None));
    assert!((third.rain_mm_per_h() - 2.0).abs() < 1e-12, "6 mm in 3 h");
}

/// Other units and separators; a unit is never guessed.
#[test]
fn units_stand_in_the_header() {
    let file = read("Time;Air temperature (°F);Rain [in];Rain chance (fraction)\n2026-06-09 07:00;50,0;0,1;0,25\n");
    assert_eq!(said(&file), "");
    let hour = file.forecast.hours[0];
    assert!((hour.air_temperature_c - 10.0).abs() < 1e-9);
    assert!((hour.rain_mm - 2.54).abs() < 1e-12, "1 in = 25.4 mm by definition");
    assert!((hour.rain_chance.expect("a chance").in_percent() - 25.0).abs() < 1e-9);
}

#[test]
fn every_bad_row_is_refused_with_its_place_and_the_rest_goes_on() {
    let file = read(
        "from,to,air_temperature_c,rain_mm,rain_chance_percent\n\
         2026-06-09 06:00,,12,0,0\n\
         2026-06-09 06:00,,13,0,0\n\
         2026-06-09 06:30,,13,0,0\n\
         2026-06-09 07:00,2026-06-09 07:00,12,0,0\n\
         2026-06-09 07:00,2026-06-11 07:00,12,0,0\n\
         7 am,,12,0,0\n\
         2026-06-09,,12,0,0\n\
         2026-13-09 07:00,,12,0,0\n\
         2026-06-09 07:00,noon,12,0,0\n\
         ,,12,0,0\n\
         2026-06-09 07:00,,,0,0\n\
         2026-06-09 07:00,,12,,0\n\
         2026-06-09 07:00,,warm,0,0\n\
         2026-06-09 07:00,,98,0,0\n\
         2026-06-09 07:00,,12,-1,0\n\
         2026-06-09 07:00,,12,NaN,0\n\
         2026-06-09 07:00,,12,0,130\n\
         2026-06-09 07:00,,12,0 mm,0\n\
         2026-06-09 07:00,,12\n\
         2026-06-09 07:00,,\"12,0,0\n\
         2026-06-09 07:00,,1\u{1b}2,0,0\n\
         9999-12-30T22:00:00Z,,12,0,0\n\
         \n\
         2026-06-09 05:00,,11,0,0\n\
         2026-06-09 10:00,,14,0,0\n\
         2026-06-09 09:00,,13,0,0\n",
    );
    assert_eq!((file.rows, file.refused_rows), (25, 21));
    insta::assert_snapshot!(said(&file));
}

/// Not one row can be used.
#[test]
fn files_of_no_use_say_why() {
    let files = [
        "",
        "from,air_temperature_c,rain_mm\n",
        "air_temperature_c\n12\n",
        "from,air_temperature,rain_mm\n",
        "from,air_temperature_k,rain_mm\n",
        "from,from,air_temperature_c,rain_mm\n",
        "\"from,air_temperature_c,rain_mm\n",
    ];
    let told: Vec<String> = files.iter().map(|text| format!("# {text:?}\n{}", said(&read(text)))).collect();
    insta::assert_snapshot!(told.join("\n"));
    let file = read_forecast(std::path::Path::new("nowhere/f.csv"), &TimeZone::UTC);
    assert_eq!(file.problems[0].code, "file.unreadable");
}

/// Berlin, by the zone database: on 29 March 2026 the clock goes from 02:00 to 03:00, on 25 October from 03:00 back to
/// 02:00. Lord Howe Island shifts by half an hour.
#[test]
fn clock_times_at_a_change_of_the_clock() {
    let head = "from,air_temperature_c,rain_mm\n";
    let forward =
        read_in("Europe/Berlin", &format!("{head}2026-03-29 01:00,5,0\n2026-03-29 02:00,5,0\n2026-03-29 03:00,5,0\n"));
    assert_eq!(
        spans(&forward),
        ["2026-03-29T00:00:00Z 2026-03-29T01:00:00Z", "2026-03-29T01:00:00Z 2026-03-29T02:00:00Z"],
        "the hours meet: there is no gap"
    );
    let back =
        format!("{head}2026-10-25 01:00,5,0\n2026-10-25 02:00,5,0\n2026-10-25 02:00,5,0\n2026-10-25 03:00,5,0\n");
    let back = read_in("Europe/Berlin", &back);
    let offsets = format!("{head}2026-10-25T02:00:00+02:00,5,0\n2026-10-25T02:00:00+01:00,6,0\n");
    let offsets = read_in("Europe/Berlin", &offsets);
    assert_eq!(
        spans(&offsets),
        ["2026-10-25T00:00:00Z 2026-10-25T01:00:00Z", "2026-10-25T01:00:00Z 2026-10-25T02:00:00Z"]
    );
    assert_eq!(said(&offsets), "");
    let half = read_in("Australia/Lord_Howe", &format!("{head}2026-10-04 02:15,15,0\n2026-10-04 02:30,15,0\n"));
    assert_eq!(spans(&half), ["2026-10-03T15:30:00Z 2026-10-03T16:30:00Z"]);
    insta::assert_snapshot!([said(&forward), said(&back), said(&half)].join("\n"));
}

proptest! {
    /// Any bytes give an answer, and no row is lost.
    #[test]
    fn any_bytes_give_an_answer(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        let file = read_forecast_bytes("f", &bytes, &TimeZone::UTC);
        prop_assert_eq!(file.rows, file.forecast.hours.len() + file.refused_rows);
    }

    /// Rows near enough to right ones to reach every corner: the hours are ascending and apart, in the order of time
    /// whatever that of the file.
    #[test]
    fn hours_are_apart_and_rows_read_or_refused(
        rows in prop::collection::vec(
            (1_u8..32, 0_u8..26, 0_u8..61, "(Z|\\+0[0-9]:00|-03:30|)", "(|2026-10-2[45] 0[0-9]:[0-5]0)", "[-0-9.eNa]{0,4}", "[0-9.]{0,3}"),
            1..20,
        ),
        name in prop::sample::select(vec!["UTC", "Europe/Berlin", "Australia/Lord_Howe", "America/Santiago"]),
    ) {
        let lines: Vec<String> = rows
            .iter()
            .map(|(day, hour, minute, offset, to, temperature, rain)| {
                format!("2026-10-{day:02}T{hour:02}:{minute:02}:00{offset},{to},{temperature},{rain}\n")
            })
            .collect();
        let file = read_in(name, &format!("from,to,air_temperature_c,rain_mm\n{}", lines.concat()));
        prop_assert_eq!(file.rows, rows.len());
        let hours = &file.forecast.hours;
        prop_assert!(hours.iter().all(|hour| hour.from < hour.to && hour.rain_mm >= 0.0));
        prop_assert!(hours.windows(2).all(|pair| pair[0].to <= pair[1].from));
        let gaps = hours.windows(2).filter(|pair| pair[0].to < pair[1].from).count();
        prop_assert_eq!(file.problems.iter().filter(|problem| problem.code == "forecast.gap").count(), gaps);
    }

    /// Any instant of the year written by the clock with its offset reads as that instant; without the offset it reads as
    /// the same or is refused, never as another.
    #[test]
    fn a_clock_time_is_right_or_refused(second in 1_767_225_600_i64..1_798_761_600) {
        let zone = zone("Europe/Berlin");
        let time = jiff::Timestamp::from_second(second).unwrap();
        let clock = zone.to_datetime(time);
        let text = format!("from,air_temperature_c,rain_mm\n{clock}{},9,0\n", zone.to_offset(time));
        let file = read_forecast_bytes("f", text.as_bytes(), &zone);
        prop_assert!(file.problems.is_empty(), "{:?}", file.problems);
        prop_assert_eq!(file.forecast.hours[0].from, time);
        let text = format!("from,air_temperature_c,rain_mm\n{clock},9,0\n");
        let file = read_forecast_bytes("f", text.as_bytes(), &zone);
        prop_assert!(file.forecast.hours.iter().all(|hour| hour.from == time));
    }
}
