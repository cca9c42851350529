//! The service that is offered: a hole in the road, with what is asked of its reporter. Data: `hole-service.toml`.

use model::hole::{LanePosition, Wetness};
use model::record::happened::HoleSize;
use serde::Deserialize;

use super::answers::{AttributeType, AttributeValue, Service, ServiceAttribute, ServiceDefinition, ServiceKind};

/// A service for holes.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoleService {
    /// Its code in reports.
    pub code: String,
    /// Its name for people.
    pub name: String,
    /// What it is for.
    pub description: String,
    /// Words to find it by, parted by commas.
    pub keywords: String,
    /// What it is listed under.
    pub group: String,
    /// What a reporter is told will be done.
    pub notice: String,
    /// The questions. None need be answered: a hole without answers is better than no report.
    pub attributes: Vec<HoleQuestion>,
}

/// A question of which one answer is chosen.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoleQuestion {
    /// Its code in reports.
    pub code: String,
    /// The question.
    pub question: String,
    /// How to answer it.
    pub help: String,
    /// The answers.
    pub values: Vec<HoleChoice>,
}

/// One answer and what it says of the hole.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoleChoice {
    /// Its code in reports.
    pub key: String,
    /// Its words.
    pub name: String,
    /// The size it is taken for.
    pub size: Option<ChosenSize>,
    /// Where across the road.
    pub lane_position: Option<LanePosition>,
    /// How wet.
    pub wetness: Option<Wetness>,
}

/// A size that a word stands for.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChosenSize {
    /// Along the road, millimetres.
    pub length_mm: f64,
    /// Across the road, millimetres.
    pub width_mm: f64,
    /// Where the numbers are from.
    pub source: String,
}

impl HoleService {
    /// The service that comes with the program.
    pub fn shipped() -> HoleService {
        toml::from_str(include_str!("hole-service.toml")).expect("the shipped service can be read: a test does")
    }

    /// As it is listed.
    pub fn service(&self) -> Service {
        Service {
            service_code: self.code.clone(),
            service_name: self.name.clone(),
            description: Some(self.description.clone()),
            metadata: !self.attributes.is_empty(),
            kind: ServiceKind::Realtime,
            keywords: Some(self.keywords.clone()),
            group: Some(self.group.clone()),
        }
    }

    /// What is asked of a reporter.
    pub fn definition(&self) -> ServiceDefinition {
        let attribute = |(index, question): (usize, &HoleQuestion)| ServiceAttribute {
            variable: true,
            code: question.code.clone(),
            datatype: AttributeType::Singlevaluelist,
            required: false,
            datatype_description: Some(question.help.clone()),
            order: i64::try_from(index + 1).ok(),
            description: Some(question.question.clone()),
            values: question
                .values
                .iter()
                .map(|choice| AttributeValue { key: choice.key.clone(), name: choice.name.clone() })
                .collect(),
        };
        ServiceDefinition {
            service_code: self.code.clone(),
            attributes: self.attributes.iter().enumerate().map(attribute).collect(),
        }
    }

    /// What answers say of the hole.
    pub fn size_of<'c>(choices: impl IntoIterator<Item = &'c HoleChoice>) -> HoleSize {
        let mut size = HoleSize::default();
        for choice in choices {
            if let Some(chosen) = &choice.size {
                size.length_mm = Some(chosen.length_mm);
                size.width_mm = Some(chosen.width_mm);
            }
            size.lane_position = choice.lane_position.or(size.lane_position);
            size.wetness = choice.wetness.or(size.wetness);
        }
        size
    }
}
