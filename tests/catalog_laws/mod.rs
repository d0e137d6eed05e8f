//! The built-in catalog is what its scaling laws give (laws: DEVELOPERS.md).
//!
//! `UPDATE_CATALOG=1 cargo test catalog_laws::` writes the files anew.

use serde_json::{Value, json};

mod air;
mod electric;
mod general;
mod hand;
mod oil;
mod screw;
mod slide_guides;

/// Holds a kind's file against the parts that its law gives, or writes it.
#[allow(
    clippy::needless_pass_by_value,
    reason = "each law hands over what it made"
)]
fn keep(kind: &str, parts: Vec<Value>) {
    let path = format!("{}/catalog/{kind}.json", env!("CARGO_MANIFEST_DIR"));
    let file = json!({ "format": "counterpoise-catalog/1", "kind": kind, "parts": [] });
    let lines: Vec<String> = parts.iter().map(|part| format!("    {part}")).collect();
    let text = format!(
        "{{\n  \"format\": {},\n  \"kind\": {},\n  \"parts\": [\n{}\n  ]\n}}\n",
        file["format"],
        file["kind"],
        lines.join(",\n")
    );
    if std::env::var_os("UPDATE_CATALOG").is_some() {
        std::fs::write(&path, &text).expect("the catalog folder can be written");
    }
    let found = std::fs::read_to_string(&path).expect("the catalog file is there");
    assert_eq!(
        found, text,
        "{kind}.json differs from its law; see the head of this file"
    );
}

/// Rounds to so many significant digits, as a price list or data sheet would.
fn round(value: f64, digits: usize) -> f64 {
    format!("{:.*e}", digits - 1, value)
        .parse()
        .expect("a formatted number parses")
}

/// A quantity as the catalog writes it: at most four significant digits.
fn q(value: f64, unit: &str) -> String {
    format!("{} {unit}", round(value, 4))
}

/// Another version of a part: what its id and name end in, how much more expensive it is by the piece and the metre, and what it
/// states otherwise.
fn version(part: &Value, mark: &str, words: &str, costlier: f64, otherwise: &Value) -> Value {
    let mut part = part.clone();
    for (field, end) in [("id", format!("-{mark}")), ("name", format!(", {words}"))] {
        let text = part[field].as_str().expect("a text");
        part[field] = json!(format!("{text}{end}"));
    }
    for field in ["price", "price_per_metre", "made_to_length_price"] {
        if let Some(price) = part[field].as_f64() {
            part[field] = json!(round(price * costlier, 3));
        }
    }
    for (field, value) in otherwise.as_object().expect("an object") {
        part[field] = value.clone();
    }
    part
}
