//! Parts of the air trains.
