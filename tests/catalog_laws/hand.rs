//! Scaling laws: hand.
