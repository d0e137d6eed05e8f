//! Outside checks: column.
