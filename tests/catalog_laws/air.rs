//! Scaling laws: air.
