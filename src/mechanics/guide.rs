//! Formulas of guide.
