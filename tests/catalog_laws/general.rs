//! Scaling laws: general.
