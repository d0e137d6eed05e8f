//! Scaling laws: electric.
