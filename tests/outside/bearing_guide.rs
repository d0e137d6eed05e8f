//! Outside checks: bearing_guide.
