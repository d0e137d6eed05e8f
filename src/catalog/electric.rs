//! Parts of the electric trains.
