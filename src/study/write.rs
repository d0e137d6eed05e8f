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
            round(field).map_err(|path| format!("{key}{path} is not a number"))?;
        }
    }
    serde_json::to_string_pretty(&value)
        .map(|text| text + "\n")
        .map_err(|fault| fault.to_string())
}

/// Rounds every number; the path to one that is none is put together on the way back.
fn round(value: &mut Value) -> Result<(), String> {
    match value {
        // serde_json writes NaN and infinities as null; a study has no other null.
        Value::Null => return Err(String::new()),
        Value::Number(number) => {
            if let Some(rounded) = number.as_f64().filter(|_| number.is_f64()).map(nine_digits) {
                *value = Number::from_f64(rounded).map_or(Value::Null, Value::Number);
            }
        }
        Value::Array(items) => {
            for (index, item) in items.iter_mut().enumerate() {
                round(item).map_err(|path| format!("[{index}]{path}"))?;
            }
        }
        Value::Object(fields) => {
            for (key, field) in fields.iter_mut() {
                round(field).map_err(|path| format!(".{key}{path}"))?;
            }
        }
        Value::Bool(_) | Value::String(_) => {}
    }
    Ok(())
}
