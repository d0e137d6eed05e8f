//! Scaling laws: screw.
