//! JSON Schema (draft 2020-12) of what this module reads: values, closed objects, quantities.

use serde_json::{Map, Value, json};

use super::Shape;
use crate::problem::acts;
use crate::quantity::{Kind, LARGEST, Sign, Unit, kinds, pattern, units_of};

/// The draft that every schema names.
pub const DRAFT: &str = "https://json-schema.org/draft/2020-12/schema";

impl Shape {
    /// The schema of a value of this shape; quantities point to `#/$defs`, which [`quantities`] fills.
    pub fn schema(self, sign: Sign) -> Value {
        match self {
            Shape::Text => json!({ "type": "string" }),
            Shape::Flag => json!({ "type": "boolean" }),
            Shape::Number => number(),
            Shape::Quantity(kind) => quantity(kind, sign),
            Shape::List(of) => json!({ "type": "array", "items": of.schema(sign) }),
        }
    }
}

/// A plain number as it is read.
pub fn number() -> Value {
    json!({ "type": "number", "minimum": -LARGEST, "maximum": LARGEST })
}

/// A quantity, by its definition.
pub fn quantity(kind: Kind, sign: Sign) -> Value {
    json!({ "$ref": format!("#/$defs/{}", name(kind, sign)) })
}

fn name(kind: Kind, sign: Sign) -> String {
    let ending = match sign {
        Sign::Any => "",
        Sign::NotNegative => "_not_negative",
        Sign::Positive => "_positive",
    };
    kind.name() + ending
}

/// The definitions of every kind of quantity, with every sign.
pub fn quantities() -> Map<String, Value> {
    let signs = [
        (Sign::Any, ""),
        (Sign::NotNegative, ", not below zero"),
        (Sign::Positive, ", above zero"),
    ];
    let mut all = Map::new();
    for kind in kinds() {
        for (sign, says) in signs {
            all.insert(name(kind, sign), definition(kind, sign, says));
        }
    }
    all
}

fn definition(kind: Kind, sign: Sign, says: &str) -> Value {
    let units: Vec<_> = units_of(kind).map(Unit::symbol).collect();
    json!({
        "type": "string",
        "pattern": pattern(kind, sign),
        "description": format!(
            "{}{says}: a number and a unit, {}; at most {LARGEST:e}",
            kind.name().replace('_', " "),
            units.join(", ")
        ),
    })
}

/// Keeps the definitions that a schema points to, those they point to themselves included.
pub fn drop_unused(schema: &mut Value) {
    loop {
        let mut used = Vec::new();
        references(schema, &mut used);
        let Some(Value::Object(defs)) = schema.get_mut("$defs") else {
            return;
        };
        let before = defs.len();
        defs.retain(|name, _| used.contains(&format!("#/$defs/{name}")));
        if defs.len() == before {
            return;
        }
    }
}

fn references(schema: &Value, found: &mut Vec<String>) {
    match schema {
        Value::Object(fields) => {
            if let Some(Value::String(to)) = fields.get("$ref") {
                found.push(to.clone());
            }
            fields.values().for_each(|inner| references(inner, found));
        }
        Value::Array(items) => items.iter().for_each(|inner| references(inner, found)),
        _ => {}
    }
}

/// The schema with what it means.
pub fn described(mut schema: Value, meaning: &str) -> Value {
    if let Value::Object(fields) = &mut schema {
        fields.insert("description".into(), meaning.trim().into());
    }
    schema
}

/// The fields of an object, to which no others may be added.
#[derive(Debug, Clone, Default)]
pub struct Fields {
    properties: Map<String, Value>,
    required: Vec<String>,
}

impl Fields {
    /// Adds a field.
    pub fn add(&mut self, name: &str, schema: Value, required: bool) {
        self.properties.insert(name.into(), schema);
        if required {
            self.required.push(name.into());
        }
    }
    /// The object's schema.
    pub fn closed(self) -> Value {
        let mut schema = json!({ "type": "object", "properties": self.properties });
        if !self.required.is_empty() {
            schema["required"] = self.required.into();
        }
        schema["additionalProperties"] = false.into();
        schema
    }
}

/// A regular expression of texts without signs that act on a terminal.
pub fn plain_text() -> String {
    format!("^[^{}]*$", acting())
}

/// The same with a sign that can be seen.
pub fn text_with_something_in_it() -> String {
    let acting = acting();
    format!("^[^{acting}]*[^{acting}\\s][^{acting}]*$")
}

/// The same without spaces at its ends, and not beginning with one of some signs.
pub fn text_from_end_to_end(not_first: &str) -> String {
    let acting = acting();
    format!("^[^{acting}\\s{not_first}](?:[^{acting}]*[^{acting}\\s])?$")
}

/// Ranges of the signs that act on a terminal, as a class of a regular expression has them.
fn acting() -> String {
    let mut ranges: Vec<(u32, u32)> = Vec::new();
    // None of them lies past the first plane.
    for sign in ('\0'..='\u{ffff}').filter(|sign| sign.is_control() || acts(*sign)) {
        let code = u32::from(sign);
        match ranges.last_mut() {
            Some((_, last)) if *last + 1 == code => *last = code,
            _ => ranges.push((code, code)),
        }
    }
    let range = |(first, last): (u32, u32)| format!("\\u{first:04x}-\\u{last:04x}");
    ranges.into_iter().map(range).collect()
}
