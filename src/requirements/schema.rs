//! JSON Schema of a requirements file, from the tables it is read by.

use serde_json::{Map, Value, json};

use super::fields::{FIELDS, Field, FieldRange, Holds, Without};
use super::read::FORMAT;
use super::{CRITERIA, CriterionRow, Measure, RULES};
use crate::quantity::{Sign, parse_as};
use crate::reading::schema::{
    DRAFT, Fields, described, drop_unused, number, plain_text, quantities, quantity,
    text_with_something_in_it,
};

/// The schema of a whole file, ready to be ranked.
pub fn schema() -> Value {
    // Outside `motion` both kinds have the same fields.
    let mut whole = object("", "slide");
    let kinds = ["slide", "hinge"];
    let motion = |kind: &&str| {
        json!({
            "if": { "properties": { "kind": { "const": kind } }, "required": ["kind"] },
            "then": { "$ref": format!("#/$defs/{kind}") }
        })
    };
    whole["properties"]["motion"] = json!({
        "description": whole["properties"]["motion"]["description"],
        "type": "object",
        "properties": { "kind": whole["properties"]["motion"]["properties"]["kind"] },
        "required": ["kind"],
        "allOf": kinds.iter().map(motion).collect::<Vec<_>>(),
    });
    let mut defs: Map<String, Value> = kinds
        .iter()
        .map(|kind| ((*kind).to_owned(), object("motion", kind)))
        .collect();
    defs.extend(quantities());
    let mut schema = json!({
        "$schema": DRAFT,
        "$id": "urn:counterpoise:requirements:1",
        "title": FORMAT,
        "description": "What a machine must do, where, and what that is worth. A quantity is a text with a unit. \
            What binds several numbers together, such as a least load above the most, is told by `counterpoise rank`.",
    });
    if let (Value::Object(schema), Value::Object(whole)) = (&mut schema, whole) {
        schema.extend(whole);
        schema.insert("$defs".into(), defs.into());
    }
    drop_unused(&mut schema);
    schema
}

/// The object at a path of the table, for a kind of motion.
fn object(path: &str, kind: &str) -> Value {
    if path == "goals" {
        return goals();
    }
    let mut fields = Fields::default();
    for (key, field) in inside(path, kind) {
        fields.add(key, value(field, kind), is_required(field, kind));
    }
    if path == "rules" {
        for rule in RULES {
            let unit = if rule.unit.is_empty() {
                String::new()
            } else {
                format!(", {}", rule.unit)
            };
            let range = json!({
                "type": "number", "minimum": rule.least, "maximum": rule.most, "default": rule.default
            });
            let schema = described(range, &format!("{}{unit}", rule.meaning));
            fields.add(rule.key, schema, false);
        }
    }
    bound_together(fields.closed(), path)
}

/// The fields right inside an object of the table.
fn inside<'p>(
    path: &'p str,
    kind: &'p str,
) -> impl Iterator<Item = (&'static str, &'static Field)> + 'p {
    FIELDS
        .iter()
        .filter(move |field| field.on.fits(kind))
        .filter_map(move |field| {
            let key = match path {
                "" => field.path,
                _ => field.path.strip_prefix(path)?.strip_prefix('.')?,
            };
            (!key.contains(['.', '['])).then_some((key, field))
        })
}

/// An object that is made where it is left out must be given if something inside must.
fn is_required(field: &Field, kind: &str) -> bool {
    match field.without {
        Without::Refused => true,
        Without::Made => inside(field.path, kind).any(|(_, inner)| is_required(inner, kind)),
        _ => false,
    }
}

/// A field's value, with its meaning, range and default.
fn value(field: &Field, kind: &str) -> Value {
    let schema = match field.path {
        "format" => json!({ "const": FORMAT }),
        // A file whose questions are still open has no whole schema.
        "unfinished" => json!({ "const": false }),
        "title" => json!({ "type": "string", "pattern": plain_text() }),
        "currency" => json!({ "type": "string", "pattern": text_with_something_in_it() }),
        path => match field.holds {
            Holds::Quantity(of) => quantity(of, sign(field.holds, field.range)),
            Holds::Number => ranged(number(), field.range),
            Holds::Flag => json!({ "type": "boolean" }),
            Holds::Text => json!({ "type": "string" }),
            Holds::Choice(words) => json!({ "enum": words }),
            Holds::List => list(path, kind),
            Holds::Object => object(path, kind),
        },
    };
    let mut schema = described(schema, &(field.meaning.to_owned() + &in_words(field)));
    match field.without {
        Without::Text(text, _) => schema["default"] = text.into(),
        Without::Number(number, _) => schema["default"] = number.into(),
        Without::Flag(flag, _) => schema["default"] = flag.into(),
        _ => {}
    }
    schema
}

/// The range of a quantity, which a pattern cannot hold.
fn in_words(field: &Field) -> String {
    match (field.holds, field.range) {
        (Holds::Quantity(_), FieldRange::Within(least, most)) => format!("; {least} to {most}"),
        (Holds::Quantity(_), FieldRange::Above(least, most)) => {
            format!("; more than {least}, at most {most}")
        }
        _ => String::new(),
    }
}

fn list(path: &str, kind: &str) -> Value {
    let items = format!("{path}[]");
    let of = FIELDS
        .iter()
        .find(|field| field.path == items && field.on.fits(kind));
    let items = match of {
        Some(field) => value(field, kind),
        None => object(&items, kind),
    };
    // The lists of anchors and zones are pairs of numbers, and so are ramps.
    if path.starts_with("motion.anchor") || path == "motion.ramps" {
        return json!({ "type": "array", "items": items, "minItems": 2, "maxItems": 2 });
    }
    json!({ "type": "array", "items": items })
}

fn sign(holds: Holds, range: FieldRange) -> Sign {
    let (Holds::Quantity(kind), FieldRange::Within(least, _) | FieldRange::Above(least, _)) =
        (holds, range)
    else {
        return Sign::Any;
    };
    // A temperature below zero of its unit need not be below zero kelvin.
    let zero_is_zero = crate::quantity::units_of(kind).all(|unit| unit.offset == 0.0);
    match (parse_as(least, kind), range) {
        (Ok(least), _) if zero_is_zero && least > 0.0 => Sign::Positive,
        (Ok(0.0), FieldRange::Above(..)) if zero_is_zero => Sign::Positive,
        (Ok(0.0), _) if zero_is_zero => Sign::NotNegative,
        _ => Sign::Any,
    }
}

/// A plain number with its range.
fn ranged(mut schema: Value, range: FieldRange) -> Value {
    let bound = |text: &str| text.parse::<f64>().map_or(Value::Null, Value::from);
    let (least, most, above) = match range {
        FieldRange::Any => return schema,
        FieldRange::Within(least, most) => (least, most, false),
        FieldRange::Above(least, most) => (least, most, true),
    };
    schema["maximum"] = bound(most);
    if let Value::Object(fields) = &mut schema {
        fields.remove("minimum");
        let key = if above { "exclusiveMinimum" } else { "minimum" };
        fields.insert(key.into(), bound(least));
    }
    schema
}

/// Every criterion, each with what may be said of it.
fn goals() -> Value {
    let mut goals = Fields::default();
    for row in CRITERIA {
        let required = inside("goals", "slide")
            .any(|(key, field)| key == row.name() && matches!(field.without, Without::Refused));
        goals.add(row.name(), goal(row), required);
    }
    goals.closed()
}

fn goal(row: &CriterionRow) -> Value {
    let figure = || match (row.measure, row.range) {
        (Measure::Quantity(kind), FieldRange::Any) => quantity(kind, Sign::NotNegative),
        (Measure::Quantity(kind), range) => quantity(kind, sign(Holds::Quantity(kind), range)),
        (Measure::Number, FieldRange::Any) => {
            let mut schema = number();
            schema["minimum"] = 0.into();
            schema
        }
        (Measure::Number, range) => ranged(number(), range),
    };
    let range = match row.range {
        FieldRange::Any => String::new(),
        FieldRange::Within(least, most) | FieldRange::Above(least, most) => {
            format!("; {least} to {most}")
        }
    };
    let mut fields = Fields::default();
    for (key, field) in inside("goals.*", "slide") {
        let is_figure = matches!(field.holds, Holds::Text);
        if key != "limit" && !row.rewardable {
            continue;
        }
        let schema = if is_figure {
            described(figure(), &format!("{}{range}", field.meaning))
        } else {
            value(field, "slide")
        };
        fields.add(key, schema, is_required(field, "slide"));
    }
    let mut schema = fields.closed();
    let better = if row.more_is_better { "more" } else { "less" };
    schema["description"] = format!(
        "{}, {}; {better} is better",
        row.name().replace('_', " "),
        row.unit
    )
    .into();
    if row.rewardable {
        // Target and worth come together.
        schema["dependentRequired"] =
            json!({ "target": ["worth"], "worth": ["target"], "sure": ["worth"] });
    }
    schema
}

/// What the reader says about several fields of one object.
fn bound_together(mut schema: Value, path: &str) -> Value {
    match path {
        "motion" => {
            if schema["properties"]["ramps"]["items"].is_object() {
                schema["properties"]["ramps"]["items"] = ranged(
                    schema["properties"]["ramps"]["items"].take(),
                    FieldRange::Above("0", "1"),
                );
            }
            schema["dependentSchemas"] =
                json!({ "ramps": { "properties": { "law": { "const": "trapezoid" } } } });
        }
        "structure" => {
            let when = |shapes: &[&str], then: Value| json!({ "if": { "properties": { "shape": { "enum": shapes } }, "required": ["shape"] }, "then": then });
            schema["allOf"] = json!([
                when(&["rectangle", "box"], json!({ "required": ["height"] })),
                when(
                    &["round", "tube"],
                    json!({ "properties": { "height": false } })
                ),
                when(&["box", "tube"], json!({ "required": ["wall"] })),
                when(
                    &["rectangle", "round"],
                    json!({ "properties": { "wall": false } })
                ),
            ]);
        }
        _ => {}
    }
    schema
}
