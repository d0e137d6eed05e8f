//! Outside checks: rope.
