//! Outside checks: `gear_human`.
