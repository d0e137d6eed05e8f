//! Parts of the hand trains.
