//! Outside checks: units.
