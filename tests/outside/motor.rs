//! Outside checks: motor.
