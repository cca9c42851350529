//! Cautions: what always holds is always said; cutback always warns of fire.

use crate::support::{Example, rules};
use model::district::{Applicator, BinderKind, Residue};
use model::quantity::{fraction, kilograms_per_cubic_metre, millimetres};
use repair::cautions;

fn said(example: &Example) -> String {
    cautions(&example.input(), &rules()).join("\n")
}

fn with_binder(grade: &str, kind: BinderKind, celsius: f64) -> Example {
    let mut example = Example::worked();
    example.binder.grade = grade.into();
    example.binder.kind = kind;
    example.binder.spray_temperature_c = celsius;
    example.binder.residue = Some(Residue::ByVolume(fraction(0.7)));
    example.binder.density = kilograms_per_cubic_metre(960.0);
    example
}

#[test]
fn what_always_holds_is_always_said() {
    for example in [Example::worked(), with_binder("MC-250", BinderKind::Cutback, 80.0)] {
        let said = said(&example);
        for hazard in [
            "Live traffic",
            "Buried services",
            "Silica dust",
            "Vibration",
            "Manual handling",
            "Hot binder",
            "Drains",
            "Heat",
            "Weather",
        ] {
            assert!(said.contains(hazard), "{hazard} is not said");
        }
        assert!(!said.contains("safe "), "nothing is called safe");
    }
}

/// Published: City of Austin Standard Specification 301S.6 table 18, whose ranges reach every grade's flash point: fire
/// is warned of at any temperature, in the window or not.
#[test]
fn cutback_always_warns_of_fire() {
    for (grade, celsius) in [("MC-30", 20.0), ("MC-30", 60.0), ("RC-800", 90.0), ("house mix", 10.0)] {
        let said = said(&with_binder(grade, BinderKind::Cutback, celsius));
        assert!(said.contains("flash point") && said.contains("Solvent vapour"), "{grade} at {celsius}");
        assert!(!said.contains("Emulsion:"));
    }
    assert!(said(&with_binder("MC-70", BinderKind::Cutback, 60.0)).contains("as low as 38 °C"));
}

/// Published: the same table's spraying windows; the stricter of its two overlapping rows for rapid-setting emulsions.
#[test]
fn a_spraying_temperature_outside_the_window_is_said() {
    for (grade, kind, celsius, outside) in [
        ("CRS-2", BinderKind::Emulsion, 60.0, false),
        ("crs-2H", BinderKind::Emulsion, 60.0, false),
        ("CRS-2", BinderKind::Emulsion, 45.0, true),
        ("CRS-2", BinderKind::Emulsion, 73.0, true),
        ("CRS-2", BinderKind::Emulsion, 80.0, true),
        ("CSS-1", BinderKind::Emulsion, 60.0, true),
        ("CSS-1", BinderKind::Emulsion, 30.0, false),
        ("MC-250", BinderKind::Cutback, 99.0, false),
        ("MC-250", BinderKind::Cutback, 110.0, true),
        ("MC-250", BinderKind::Cutback, 120.0, true),
    ] {
        let said = said(&with_binder(grade, kind, celsius));
        assert_eq!(
            said.contains("spraying temperature") && said.contains("outside")
                || said.contains("over the greatest allowed"),
            outside,
            "{grade} at {celsius} °C"
        );
    }
    assert!(said(&with_binder("CRS-2", BinderKind::Emulsion, 80.0)).contains("Do not heat"));
}

#[test]
fn what_does_not_fit_together_is_said() {
    assert!(said(&with_binder("MC-70", BinderKind::Emulsion, 60.0)).contains("the grade is cutback"));
    assert!(said(&with_binder("house mix", BinderKind::Emulsion, 60.0)).contains("no spraying window is known"));
    assert!(said(&Example::worked()).contains("has frozen"));
    let mut example = Example::worked();
    assert!(!said(&example).contains("coarser") && !said(&example).contains("Pouring pot"));
    example.cover_stone.nominal_size = millimetres(22.0);
    example.plant.applicator = Applicator::PouringPot;
    assert!(said(&example).contains("coarser than 20 mm") && said(&example).contains("Pouring pot"));
}

/// Capitals and words after the designation do not matter; a longer designation is another grade.
#[test]
fn a_grade_with_words_after_it_is_taken_as_the_grade_and_that_is_said() {
    for name in ["CRS-2 polymer", "crs-2  Polymer", " CRS-2, latex", "CRS-2 (polymer)"] {
        let said = said(&with_binder(name, BinderKind::Emulsion, 80.0));
        assert!(said.contains("taken as CRS-2;") && said.contains("over the greatest allowed"), "{name}: {said}");
        assert!(!said.contains("no spraying window"));
    }
    for name in ["CRS-2", "crs-2", " CRS-2 "] {
        let said = said(&with_binder(name, BinderKind::Emulsion, 60.0));
        assert!(!said.contains("taken as") && !said.contains("no spraying window"), "{name}: {said}");
    }
    // The flash point of the grade is warned of with words after it too.
    assert!(said(&with_binder("mc-70 special", BinderKind::Cutback, 60.0)).contains("as low as 38 °C"));
    for name in ["CRS-2X", "CRS", "polymer CRS-2", "", "  "] {
        let said = said(&with_binder(name, BinderKind::Emulsion, 60.0));
        assert!(said.contains("no spraying window is known"), "{name}");
    }
}
