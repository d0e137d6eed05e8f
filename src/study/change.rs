//! A change of the requirements file: what is tried by price, near miss, fresh look and the guided questions.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// A field changed, as its words in the file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Change {
    /// Path of the field.
    pub field: String,
    /// What the file asks, or what was taken for it.
    pub from: String,
    /// What is tried.
    pub to: String,
    /// What the field is set to, where `to` says it in other words than the file's; null takes the field out.
    #[serde(skip)]
    value: Option<Value>,
}

impl Change {
    /// A change whose new text is what the file would have.
    pub fn new(field: impl Into<String>, from: impl Into<String>, to: impl Into<String>) -> Self {
        let (field, from, to) = (field.into(), from.into(), to.into());
        let value = None;
        Self {
            field,
            from,
            to,
            value,
        }
    }

    /// A field set to a value, whatever the file has there.
    pub fn set(field: impl Into<String>, value: impl Into<Value>) -> Self {
        Self::new(field, "", "").in_file(value)
    }

    /// A field taken out, whatever the file has there.
    pub fn without(field: impl Into<String>) -> Self {
        Self::set(field, Value::Null)
    }

    /// The same change with what the file would have, where that is not the new text.
    pub fn in_file(mut self, value: impl Into<Value>) -> Self {
        self.value = Some(value.into());
        self
    }

    /// What the field is set to; none where it is taken out.
    pub fn value(&self) -> Option<Value> {
        let text = || serde_json::from_str(&self.to).unwrap_or_else(|_| self.to.clone().into());
        Some(self.value.clone().unwrap_or_else(text)).filter(|value| !value.is_null())
    }

    /// The change as `--set` takes it: path and value.
    pub fn as_set(&self) -> (String, String) {
        let value = self.value.as_ref().map(Value::to_string);
        (self.field.clone(), value.unwrap_or_else(|| self.to.clone()))
    }
}
