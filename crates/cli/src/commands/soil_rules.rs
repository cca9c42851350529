//! The rules that tests of the base go by, for the commands that work one out.

use std::path::Path;

use exchange::rules::{RuleKind, load_rules, shipped_rule_sets};
use model::problem::{Locator, Problem, ProblemSeverity};
use model::rules::gradation::GradationRules;
use model::rules::soil::SoilRules;

/// The soil rule set; an agency overrides it with `soil/common-practice.toml` beside its district file.
const SOIL_RULES: &str = "common-practice";

/// The soil rules, the agency's own where the district file has some beside it.
pub(crate) fn soil_rules(district: Option<&Path>) -> Result<SoilRules, Vec<Problem>> {
    // Only its folder counts, but a slip in its name must not bring the shipped rules instead.
    if let Some(path) = district
        && let Err(error) = std::fs::File::open(path)
    {
        return Err(vec![Problem {
            code: "file.unreadable",
            severity: ProblemSeverity::Fatal,
            at: Locator { file: path.display().to_string(), line: 0, column: 0 },
            subject: String::new(),
            wrong: format!("the file can't be read: {error}"),
            right: "give the path of a file that exists and may be read".into(),
        }]);
    }
    let rules: SoilRules = load_rules(RuleKind::Soil, SOIL_RULES, district.and_then(Path::parent))?;
    let faults = soil::check_soil_rules(&rules);
    if faults.is_empty() { Ok(rules) } else { Err(unsound(SOIL_RULES, faults)) }
}

/// Families of gradings: those that come with the program, and the agency's own file where one is given.
pub(crate) fn families(own: Option<&Path>, rules: &SoilRules) -> Result<Vec<GradationRules>, Vec<Problem>> {
    let stem = |path: &Path| path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let shipped = shipped_rule_sets(RuleKind::Gradation).into_iter().map(|name| (name, None));
    let own = own.map(|path| (stem(path), path.parent().map(Path::to_path_buf)));
    let mut families = Vec::new();
    // The agency's own first: of two that fit alike its own is named.
    for (name, beside) in own.into_iter().chain(shipped) {
        let family: GradationRules = load_rules(RuleKind::Gradation, &name, beside.as_deref())?;
        let faults = soil::check_gradation_rules(&family, &rules.sieving);
        if !faults.is_empty() {
            return Err(unsound(&name, faults));
        }
        families.push(family);
    }
    Ok(families)
}

fn unsound(name: &str, faults: Vec<String>) -> Vec<Problem> {
    let problem = |wrong: String| Problem {
        code: "rules.value",
        severity: ProblemSeverity::Fatal,
        at: Locator { file: format!("rule set `{name}`"), line: 0, column: 0 },
        subject: String::new(),
        wrong,
        right: "correct the value in the rule file".into(),
    };
    faults.into_iter().map(problem).collect()
}

/// Writes a plot; says so on standard error.
pub(crate) fn write_plot(path: &Path, svg: &str) -> Result<(), Box<Problem>> {
    std::fs::write(path, svg).map_err(|error| {
        Box::new(Problem {
            code: "out.write",
            severity: ProblemSeverity::Fatal,
            at: Locator { file: path.display().to_string(), line: 0, column: 0 },
            subject: String::new(),
            wrong: format!("the plot can't be written: {error}"),
            right: "name a file in a folder that can be written to".into(),
        })
    })?;
    eprintln!("written: {}", path.display());
    Ok(())
}
