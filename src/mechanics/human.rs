//! Formulas of human.
