//! Outside checks: pneumatics.
