//! Outside checks: screw.
