//! Formulas of hydraulics.
