//! Parts of the oil trains.
