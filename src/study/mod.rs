//! The study layer.
