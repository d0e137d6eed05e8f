//! Formulas of gear.
