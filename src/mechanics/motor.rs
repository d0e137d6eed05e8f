//! Formulas of motor.
