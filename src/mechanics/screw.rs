//! Formulas of screw.
