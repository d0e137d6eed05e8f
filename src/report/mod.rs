//! The report layer.
