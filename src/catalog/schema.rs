//! JSON Schema of a catalog file, from the records that it is read into.

use serde_json::{Value, json};

use super::part::COMMON;
use super::sound::{MOST_NUMBER, may_be_zero};
use super::{FORMAT, FieldInfo, KINDS, PartKind, WaterGrade};
use crate::quantity::{Kind, Sign};
use crate::reading::Shape;
use crate::reading::schema::{
    DRAFT, Fields, described, drop_unused, quantities, text_from_end_to_end,
};

/// The schema of a file of any kind.
pub fn schema() -> Value {
    let of_kind = |kind: &PartKind| {
        json!({
            "if": { "properties": { "kind": { "const": kind.name } }, "required": ["kind"] },
            "then": { "properties": { "parts": { "items": { "$ref": format!("#/$defs/{}", kind.name) } } } }
        })
    };
    let mut defs = quantities();
    for kind in KINDS {
        defs.insert(kind.name.into(), part(kind));
    }
    let names: Vec<_> = KINDS.iter().map(|kind| kind.name).collect();
    let mut schema = json!({
        "$schema": DRAFT,
        "$id": "urn:counterpoise:catalog:1",
        "title": FORMAT,
        "description": "Parts of one kind. Whether a part's figures can be true together is told when it is read.",
        "type": "object",
        "properties": {
            "format": { "const": FORMAT },
            "kind": { "enum": names, "description": "what the parts are" },
            "name": { "type": "string", "description": "what the file is called" },
            "replaces": {
                "type": "boolean", "default": false,
                "description": "whether these parts stand instead of the built-in ones of the kind, not beside them"
            },
            "parts": { "type": "array", "items": { "type": "object" } },
        },
        "required": ["format", "kind", "parts"],
        "additionalProperties": false,
        "allOf": KINDS.iter().map(of_kind).collect::<Vec<_>>(),
        "if": { "properties": { "replaces": { "const": true } }, "required": ["replaces"] },
        "else": { "properties": { "parts": { "minItems": 1 } } },
        "$defs": defs,
    });
    drop_unused(&mut schema);
    schema
}

/// A part of a kind: what every part states, and its own.
fn part(kind: &PartKind) -> Value {
    let mut fields = Fields::default();
    for field in COMMON.iter().chain(kind.fields) {
        fields.add(field.name, value(kind, field), field.required);
    }
    let mut part = described(fields.closed(), kind.about);
    part["oneOf"] = json!([{ "required": ["ingress"] }, { "required": ["stands_water"] }]);
    part
}

fn value(kind: &PartKind, field: &FieldInfo) -> Value {
    let schema = match field.name {
        "id" | "name" => json!({ "type": "string", "pattern": text_from_end_to_end("=+@-") }),
        "ingress" => json!({ "type": "string", "pattern": "^IP[0-6][0-9]$" }),
        "stands_water" => json!({ "enum": WaterGrade::WORDS }),
        "runs_on" => json!({ "type": "array", "minItems": 1, "items": {
            "type": "string", "pattern": "^[0-9.]+(-[0-9.]+)? V (dc|ac|ac 3~)$"
        } }),
        "grit_life" => json!({ "type": "number", "exclusiveMinimum": 0, "maximum": 1 }),
        _ => match kind.words_of(field.name) {
            Some(words) => json!({ "enum": words }),
            None => figure(field.shape, may_be_zero(kind.name, field.name)),
        },
    };
    described(schema, field.about)
}

/// A figure of a part: none is negative, and few may be 0.
fn figure(shape: Shape, may_be_zero: bool) -> Value {
    match shape {
        Shape::Number if may_be_zero => {
            json!({ "type": "number", "minimum": 0, "maximum": MOST_NUMBER })
        }
        Shape::Number => {
            json!({ "type": "number", "exclusiveMinimum": 0, "maximum": MOST_NUMBER })
        }
        Shape::List(of) => json!({ "type": "array", "items": figure(*of, may_be_zero) }),
        // Below freezing the number is negative, the temperature is not.
        Shape::Quantity(Kind::Temperature) => shape.schema(Sign::Any),
        _ if may_be_zero => shape.schema(Sign::NotNegative),
        _ => shape.schema(Sign::Positive),
    }
}

#[cfg(test)]
#[path = "../../tests/unit/catalog/schema.rs"]
mod tests;
