//! Scaling laws: oil.
