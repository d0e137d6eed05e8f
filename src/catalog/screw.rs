//! Parts of the screw trains.
