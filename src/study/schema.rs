//! JSON Schema of a study, from the records that it is written from.

use schemars::generate::SchemaSettings;
use serde_json::{Value, json};

use super::Study;
use super::file::FORMAT;
use crate::catalog::KINDS;
use crate::demand::Assist;
use crate::family::FAMILIES;
use crate::requirements::{self, CRITERIA, CriterionRow, RULES};

/// The schema of a study. Its objects stay open: a later version may write more fields.
pub fn schema() -> Value {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let root = settings.into_generator().into_root_schema_for::<Study>();
    let mut schema = Value::from(root);
    for (place, narrower) in narrowed() {
        if let (Some(Value::Object(here)), Value::Object(narrower)) =
            (schema.pointer_mut(place), narrower)
        {
            here.extend(narrower);
        }
    }
    schema["$id"] = "urn:counterpoise:study:1".into();
    schema["title"] = FORMAT.into();
    schema["properties"]["requirements"] = json!({
        "$ref": "urn:counterpoise:requirements:1",
        "description": "The requirements file with every default written out.",
    });
    schema["$defs"]["requirements"] = requirements::schema();
    schema
}

/// What the types do not say: the words that a text is one of.
fn narrowed() -> Vec<(&'static str, Value)> {
    let families: Vec<_> = FAMILIES.iter().map(|family| family.name()).collect();
    let kinds: Vec<_> = KINDS.iter().map(|kind| kind.name).collect();
    let criteria: Vec<_> = CRITERIA.iter().map(CriterionRow::name).collect();
    let rules: Vec<_> = RULES.iter().map(|rule| rule.key).collect();
    let word = |words: &[&str]| json!({ "enum": words });
    vec![
        ("/properties/format", json!({ "const": FORMAT })),
        ("/$defs/OptionLine/properties/family", word(&families)),
        ("/$defs/OptionLine/properties/assist", word(Assist::NAMES)),
        ("/$defs/OptionLine/properties/rank", json!({ "minimum": 1 })),
        (
            "/$defs/OptionLine/properties/criteria",
            json!({ "propertyNames": { "enum": criteria }, "required": criteria }),
        ),
        ("/$defs/RuledOut/properties/family", word(&families)),
        ("/$defs/RuledOut/properties/assist", word(Assist::NAMES)),
        ("/$defs/PartEntry/properties/kind", word(&kinds)),
        (
            "/$defs/PartEntry/properties/quantity",
            json!({ "minimum": 1 }),
        ),
        ("/$defs/OtherWorth/properties/criterion", word(&criteria)),
        (
            "/$defs/ByOrder/properties/way",
            word(&["rank_order_centroid", "rank_sum", "reciprocal_rank"]),
        ),
        (
            "/$defs/ByOrder/properties/worths",
            json!({ "propertyNames": { "enum": criteria } }),
        ),
        (
            "/$defs/OverAllWorths/properties/share",
            json!({ "minimum": 0, "maximum": 1 }),
        ),
        ("/$defs/CheckLine/properties/rule", word(&rules)),
        (
            "/$defs/CriterionLine/properties/value",
            json!({ "type": "number" }),
        ),
    ]
}

#[cfg(test)]
#[path = "../../tests/unit/study/schema.rs"]
mod tests;
