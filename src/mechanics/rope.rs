//! Formulas of rope.
