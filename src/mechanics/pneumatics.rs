//! Formulas of pneumatics.
