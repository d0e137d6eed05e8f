//! Outside checks: hydraulics.
