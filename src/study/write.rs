//! A study as the text of a file.

use serde_json::{Number, Value};

use super::Study;
use crate::quantity::nine_digits;

/// The study as JSON, numbers to nine significant digits.
///
/// # Errors
/// The path of a number that is none: a fault of ours, never written out.
pub fn to_json(study: &Study) -> Result<String, String> {
    let mut value = serde_json::to_value(study).map_err(|fault| fault.to_string())?;
    if let Value::Object(fields) = &mut value {
        for (key, field) in fields.iter_mut().filter(|(key, _)| *key != "requirements") {
            round(field, key)?;
        }
    }
    serde_json::to_string_pretty(&value)
        .map(|text| text + "\n")
        .map_err(|fault| fault.to_string())
}

fn round(value: &mut Value, path: &str) -> Result<(), String> {
    match value {
        // serde_json writes NaN and infinities as null; a study has no other null.
        Value::Null => return Err(format!("{path} is not a number")),
        Value::Number(number) => {
            if let Some(rounded) = number.as_f64().filter(|_| number.is_f64()).map(nine_digits) {
                *value = Number::from_f64(rounded).map_or(Value::Null, Value::Number);
            }
        }
        Value::Array(items) => {
            for (index, item) in items.iter_mut().enumerate() {
                round(item, &format!("{path}[{index}]"))?;
            }
        }
        Value::Object(fields) => {
            for (key, field) in fields.iter_mut() {
                round(field, &format!("{path}.{key}"))?;
            }
        }
        Value::Bool(_) | Value::String(_) => {}
    }
    Ok(())
}
