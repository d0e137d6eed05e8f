//! The cli layer.
